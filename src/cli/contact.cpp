#include "commands.hpp"
#include "report.hpp"

#include "wingnose/io/contact_output.hpp"
#include "wingnose/study/instants.hpp"

#include <CLI/CLI.hpp>

#include <ostream>

namespace wingnose::cli {
namespace {

contact::StationContact find_contact(const study::Case& c, const ContactRequest& request, bool stored) {
  contact::StationOptions options;
  options.half_space = request.law == "half-space";
  if (!options.half_space) {
    options.law = named<contact::NormalLaw>(request.law, "contact law");
  }
  options.fields = stored;
  options.cells = {request.cells, request.cells};
  const auto rad = [](const std::optional<double>& mrad) {
    return mrad ? std::optional<double>(*mrad * 1e-3) : std::nullopt;
  };
  const study::WheelAttitude attitude{rad(request.roll_mrad), rad(request.yaw_mrad)};
  if (!request.at.empty()) {
    return study::contact_at_instant(c, study::run(c), study::moment(request.at), options, attitude);
  }
  const study::Geometry g = study::geometry(c);
  const auto reported = static_cast<std::size_t>(c.passage.reported_wheel);
  const double station = request.station_mm ? *request.station_mm * 1e-3 : study::landing_station(g);
  const double load =
      request.force_kN ? *request.force_kN * 1e3 : vehicle::assemble(c.vehicle).static_load.at(reported);
  return study::contact_standing(c, g, station, load, options, attitude);
}

// A wheel held otherwise than the heading says is told of.
void print_contact(std::ostream& out, const study::Case& c, const contact::StationContact& contact) {
  const bool otherwise = contact.roll != c.roll || contact.yaw != c.yaw;
  const std::string held =
      otherwise ? "; wheel rolled " + brief(contact.roll * 1e3) + " and yawed " + brief(contact.yaw * 1e3) + " mrad"
                : "";
  std::vector<std::vector<std::string>> lines;
  for (const auto& p : contact.patches) {
    lines.push_back({p.body, fixed(p.y * 1e3, 2), fixed(p.wheel_y * 1e3, 2), fixed(p.dx * 1e3, 2),
                     fixed(p.angle * 1e3, 1), fixed(p.force * 1e-3, 2), fixed(p.approach * 1e6, 1),
                     fixed(p.half_length * 1e3, 2), fixed(p.half_width * 1e3, 2), fixed(p.area * 1e6, 1),
                     fixed(p.peak_pressure * 1e-6, 0)});
  }
  print_columns(out,
                (contact.instant.empty() ? "Contact" : "Contact of the passage, " + contact.instant + ",") +
                    " at station " + fixed(contact.station * 1e3, 1) + " mm under " +
                    fixed(contact.vertical * 1e-3, 2) + " kN, law: " + contact.law + held,
                {"body", "y mm", "on wheel mm", "ahead mm", "angle mrad", "force kN", "approach um", "half length mm",
                 "half width mm", "area mm2", "peak MPa"},
                lines);
  lines.clear();
  for (const auto& body : contact.bodies) {
    if (body.field) {
      const auto& f = *body.field;
      lines.push_back({body.body, fixed(f.approach * 1e6, 1), fixed(f.area * 1e6, 1), fixed(f.peak_pressure * 1e-6, 0),
                       fixed(f.turn.turn, 3)});
    }
  }
  if (!lines.empty()) {
    print_columns(out, "Half-space solution", {"body", "approach um", "area mm2", "peak MPa", "angle change rad"},
                  lines);
  }
}

} // namespace

void contact_options(CLI::App& command, ContactRequest& request) {
  auto* at = command.add_option("--at", request.at,
                                "Simulate the passage and take station and forces of an instant: transfer (both bodies "
                                "carry the same), landing (first peak of the force) or peak (largest force on the body "
                                "landed on)");
  command
      .add_option("--station-mm", request.station_mm,
                  "Station of the axle (default: where the wheel goes from one body to the other)")
      ->excludes(at);
  command.add_option("--force-kN", request.force_kN, "Vertical load on the wheel (default: its static load)")
      ->excludes(at);
  command.add_option("--law", request.law, "ellipse, strips (default) or half-space");
  command.add_option("--cells", request.cells, "Cells of a pressure field on either side, 16 to 512 (default 64)");
  const auto small = CLI::Range(-100.0, 100.0);
  command
      .add_option("--roll-mrad", request.roll_mrad, "Roll of the wheel, + lifts its field side (default: the case's)")
      ->check(small);
  command
      .add_option("--yaw-mrad", request.yaw_mrad, "Yaw of the wheel, + turns it from x towards y (default: the case's)")
      ->check(small);
}

void contact(const std::filesystem::path& case_file, const std::filesystem::path& output, const ContactRequest& request,
             bool json, std::ostream& out) {
  if (request.law != "ellipse" && request.law != "strips" && request.law != "half-space") {
    throw InputError("--law", "\"" + request.law + "\"", "ellipse, strips or half-space", "Choose one of these.");
  }
  if (!request.at.empty()) {
    (void)study::moment(request.at); // a misspelt instant is told before the passage is simulated
  }
  if (!output.empty()) {
    io::check_result_target(output);
  }
  with_case(case_file, [&](const study::Case& c) {
    const contact::StationContact found = find_contact(c, request, !output.empty());
    if (!output.empty()) {
      io::write_contact(output, c, found);
    }
    if (json) {
      out << io::contact_json(c, found) << '\n';
      return;
    }
    print_heading(out, c);
    print_contact(out, c, found);
    print_notes(out, "Warnings", contact::sentences(found.findings));
    if (!output.empty()) {
      out << "Stored in " << output.generic_string() << '\n';
    }
    print_caution(out);
  });
}

} // namespace wingnose::cli
