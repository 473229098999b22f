#include "wingnose/study/track_response.hpp"

#include "tell.hpp"

#include "wingnose/track/assembly.hpp"

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>

namespace wingnose::study {
namespace {

using quantity::Columns;
using quantity::Detail;
using quantity::Filler;
using quantity::Layout;

TrackPlace answer(const TrackResponse& r, std::string name, double station) {
  const track::Assembly& assembly = r.modal->assembly;
  const std::array<double, 1> at{station};
  const double deflection = track::static_deflection(assembly, r.load, station, at).front();
  return {std::move(name), station, deflection, r.load / deflection, track::receptance(assembly, station, r.frequency)};
}

} // namespace

TrackResponse track_response(const Case& c) {
  TrackResponse r;
  r.frequency = {20.0, 50.0, 100.0, 150.0, 200.0, 300.0, 500.0, 800.0, 1000.0, 1200.0, 1500.0, 2000.0};
  const auto start = std::chrono::steady_clock::now();
  r.modal = track::modal_track(track_for(c));
  r.set_up = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  r.load =
      vehicle::assemble(cases::vehicle_of(c)).static_load.at(static_cast<std::size_t>(c.passage.reported_wheel - 1));
  const auto& seats = r.modal->assembly.seat_station;
  const double middle = 0.5 * (r.modal->begin() + r.modal->end());
  const double seat = *std::min_element(
      seats.begin(), seats.end(), [middle](double a, double b) { return std::abs(a - middle) < std::abs(b - middle); });
  r.places.push_back(answer(r, "over a bearer", seat));
  r.places.push_back(answer(r, "mid-span", seat + 0.5 * c.track.spacing));
  return r;
}

quantity::Tree tell(const Case& c, const TrackResponse& r) {
  quantity::Tree tree("track");
  tree.attributes.emplace_back("name", c.name);
  Filler about(tree, "track", c.name + ": track under one rail", Layout::rows);
  const auto count = [](std::size_t n) { return static_cast<double>(n); };
  about.number({"modelled_length_m", "m", "modelled length", "length of the model", 1},
               r.modal ? std::optional(r.modal->end() - r.modal->begin()) : std::nullopt);
  about.number({"bearers", "-", "bearers", "under the model", 0},
               r.modal ? std::optional(count(r.modal->assembly.seat_station.size())) : std::nullopt);
  about.number({"modes", "-", "modes kept", "modes of the track model", 0},
               r.modal ? std::optional(count(r.modal->modes)) : std::nullopt);
  about.number({"highest_mode_hz", "Hz", "highest mode", "frequency of the highest mode kept", 0},
               r.modal ? std::optional(r.modal->highest_frequency) : std::nullopt);
  about.number({"set_up_time_s", "s", "set-up time", "time to make the modes on this machine", 2}, r.set_up);
  about.number({"static_load_kN", "kN", "wheel load", "static load of the reported wheel", 2, Detail::told}, r.load);
  using P = TrackPlace;
  Columns(Filler(tree, "places", "Static, under the wheel load of " + fixed(r.load * 1e-3, 2) + " kN", Layout::columns),
          "place", r.places)
      .text({"place", "place", "where the rail is loaded"}, &P::name)
      .number({"station_mm", "mm", "station", "of the load", 0}, &P::station)
      .number({"static_deflection_mm", "mm", "deflection", "of the rail under the load, downward", 3}, &P::deflection)
      .number({"point_stiffness_MN_m", "MN/m", "point stiffness", "load over deflection", 2}, &P::stiffness);
  Filler receptance(tree, "receptance", "Receptance of the rail (downward deflection per force)", Layout::columns);
  const auto part = [&](std::size_t p, auto of) {
    std::vector<double> values;
    for (const auto& value : r.places[p].receptance) {
      values.push_back(of(value));
    }
    return values;
  };
  receptance.list({"frequency_hz", "Hz", "frequency", "frequency", 0}, "frequency_hz", r.frequency);
  const std::array heads{std::pair{"bearer", "bearer"}, std::pair{"mid_span", "mid-span"}};
  for (std::size_t p = 0; p < r.places.size(); ++p) {
    const std::string key = heads[p].first, of = ", " + r.places[p].name;
    receptance.list({key + "_nm_N", "nm/N", heads[p].second, "magnitude" + of, 3}, "frequency_hz",
                    part(p, [](const auto& v) { return std::abs(v); }));
    receptance.list({key + "_phase_deg", "deg", "phase", "phase" + of, 1}, "frequency_hz",
                    part(p, [](const auto& v) { return std::arg(v); }));
  }
  add_case(tree, c);
  return tree;
}

} // namespace wingnose::study
