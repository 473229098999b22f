#include "commands.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/study/instants.hpp"

#include <CLI/CLI.hpp>

#include <memory>
#include <optional>

namespace wingnose::cli {
namespace {

struct Request {
  std::string at; // instant of the passage; empty: a wheel that stands
  std::optional<double> station_mm, force_kN;
  std::string law = "strips";
  std::size_t cells = 64;
  std::optional<double> roll_mrad, yaw_mrad; // absent: as the case says
};

void add_options(CLI::App& command, Request& request) {
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

// fields: pressure fields beside a fast law, for a file.
contact::StationContact find(const cases::Case& c, const Request& request, bool fields) {
  contact::StationOptions options;
  options.half_space = request.law == "half-space";
  if (!options.half_space) {
    options.law = named<contact::NormalLaw>(request.law, "contact law");
  }
  options.fields = fields;
  options.cells = {request.cells, request.cells};
  const auto rad = [](const std::optional<double>& mrad) {
    return mrad ? std::optional<double>(*mrad * 1e-3) : std::nullopt;
  };
  const study::WheelAttitude attitude{rad(request.roll_mrad), rad(request.yaw_mrad)};
  if (!request.at.empty()) {
    const auto moment = named<study::Moment>(request.at, "instant of the passage");
    return study::contact_at_instant(c, study::run(c), moment, options, attitude);
  }
  const study::Geometry g = study::geometry(c);
  const double station = request.station_mm ? *request.station_mm * 1e-3 : study::landing_station(g);
  const auto reported = static_cast<std::size_t>(c.passage.reported_wheel - 1);
  const double load =
      request.force_kN ? *request.force_kN * 1e3 : vehicle::assemble(cases::vehicle_of(c)).static_load.at(reported);
  return study::contact_standing(c, g, station, load, options, attitude);
}

} // namespace

Command contact_command() {
  const auto request = std::make_shared<Request>();
  return {"contact", "case.toml", "Where a wheel touches at one station under a load: patches, pressures",
          [request](CLI::App& command) { add_options(command, *request); },
          [request](const Path& file, const Path& output) {
            if (request->law != "ellipse" && request->law != "strips" && request->law != "half-space") {
              throw InputError("--law", "\"" + request->law + "\"", "ellipse, strips or half-space",
                               "Choose one of these.");
            }
            if (!request->at.empty()) { // a misspelt instant is told before the passage is simulated
              (void)named<study::Moment>(request->at, "instant of the passage");
            }
            const cases::Case c = io::read_case(file);
            return naming(file, [&] { return study::tell(c, find(c, *request, !output.empty())); });
          }};
}

} // namespace wingnose::cli
