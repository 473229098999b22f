#include "wingnose/study/track_response.hpp"

#include "tell.hpp"

#include <array>
#include <chrono>
#include <cmath>

namespace wingnose::study {

TrackResponse track_response(const Case& c) {
  TrackResponse r;
  r.frequency = {20.0, 50.0, 100.0, 150.0, 200.0, 300.0, 500.0, 800.0, 1000.0, 1200.0, 1500.0, 2000.0};
  const auto start = std::chrono::steady_clock::now();
  r.modal = track::modal_track(track_for(c));
  r.set_up = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  r.load = static_load(c);
  r.places = track::typical_places(r.modal->assembly, r.load, r.frequency);
  return r;
}

Tree tell(const Case& c, const TrackResponse& r) {
  Tree tree("track");
  tree.attributes.emplace_back("name", c.name);
  Filler about(tree, "track", c.name + ": track under one rail", Layout::rows);
  add_values(about, r.modal.get(), track::modal_columns);
  about.number({"set_up_time_s", "set-up time", "time to make the modes on this machine", 2}, r.set_up);
  about.number({"static_load_kN", "wheel load", "static load of the reported wheel", 2, told}, r.load);
  Filler places(tree, "places", "Static, under the wheel load of " + fixed(r.load * 1e-3, 2) + " kN", Layout::columns);
  Columns(places, "place", r.places).text({"place", "place", "where the rail is loaded"}, &track::Place::name);
  add_columns(places, "place", r.places, track::place_columns);
  Filler receptance(tree, "receptance", "Receptance of the rail (downward deflection per force)", Layout::columns);
  const std::string dim = "frequency_hz";
  receptance.list({"frequency_hz", "frequency", "frequency", 0}, dim, r.frequency);
  const std::array heads{std::pair{"bearer", "bearer"}, std::pair{"mid_span", "mid-span"}};
  for (std::size_t p = 0; p < r.places.size(); ++p) {
    std::vector<double> size, phase;
    for (const auto& value : r.places[p].receptance) {
      size.push_back(std::abs(value));
      phase.push_back(std::arg(value));
    }
    const std::string key = heads[p].first, of = ", " + r.places[p].name;
    receptance.list({key + "_nm_N", heads[p].second, "magnitude" + of, 3}, dim, size);
    receptance.list({key + "_phase_deg", "phase", "phase" + of, 1}, dim, phase);
  }
  Findings findings;
  if (!c.track.voids.empty()) {
    findings.push_back({FindingKind::linear_track, "deflections and receptances are those of the track by its modes, "
                                                   "every bearer on its ballast"});
  }
  add_end(tree, findings, c);
  return tree;
}

} // namespace wingnose::study
