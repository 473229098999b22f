#include "commands.hpp"

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
study::ContactQuestion question(const Request& request, bool fields) {
  study::ContactQuestion q{.options = study::station_options(request.law, "--law")};
  q.options.fields = fields;
  q.options.cells = {request.cells, request.cells};
  q.attitude = {in_si(request.roll_mrad, "mrad"), in_si(request.yaw_mrad, "mrad")};
  q.station = in_si(request.station_mm, "mm");
  q.load = in_si(request.force_kN, "kN");
  if (!request.at.empty()) {
    q.at = named<study::Moment>(request.at, "instant of the passage");
  }
  return q;
}

} // namespace

Command contact_command() {
  const auto request = std::make_shared<Request>();
  return {"contact", "case.toml", "Where a wheel touches at one station under a load: patches, pressures",
          [request](CLI::App& command) { add_options(command, *request); },
          [request](const Path& file, const Path& output) {
            const auto q = question(*request, !output.empty()); // a misspelt word is told before anything is simulated
            return of_case(file, [&](const cases::Case& c) { return study::tell(c, study::contact_of(c, q)); });
          }};
}

} // namespace wingnose::cli
