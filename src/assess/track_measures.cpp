#include "wingnose/assess/track_measures.hpp"

#include <algorithm>
#include <cmath>

namespace wingnose::assess {
namespace {

using passage::BearerFelt;

std::optional<TrackMeasures::Largest> largest(const std::vector<BearerFelt>& bearers, double BearerFelt::*what) {
  std::optional<TrackMeasures::Largest> most;
  for (const BearerFelt& bearer : bearers) {
    const double size = std::abs(bearer.*what);
    if (std::isfinite(size) && (!most || size > most->value)) {
      most = {size, bearer.station};
    }
  }
  return most;
}

std::vector<std::string> missing(const TrackMeasures& m, const passage::TrackFelt& track) {
  if (track.bearers.empty()) {
    return {"what bearers feel: not looked at with passage.probes = false, nor in sweeps without probes"};
  }
  std::vector<std::string> words;
  if (!m.bearer_moment) {
    words.push_back(std::string(m.ballast_pressure ? "" : "ballast pressure, ") +
                    "bearer moment and strain: the bearers are lumps; set track.method = \"chain\" and "
                    "track.bearers.kind = \"bending\"");
  }
  if (!m.rail_stress) {
    words.emplace_back(track.top_mode > 0.0 ? "stress at the rail foot: modes round off the bend under a wheel; set "
                                              "track.method = \"chain\""
                                            : "stress at the rail foot: the section modulus is not known there; give "
                                              "track.rail_foot_modulus_cm3, of a casting its own");
  }
  return words;
}

} // namespace

TrackMeasures measure_track(const passage::History& h) {
  TrackMeasures m;
  m.rail_deflection = *std::max_element(h.rail_deflection.begin(), h.rail_deflection.end());
  const std::vector<BearerFelt>& bearers = h.track.bearers;
  m.bearer_deflection = largest(bearers, &BearerFelt::deflection);
  m.seat_force = largest(bearers, &BearerFelt::seat_force);
  m.seat_uplift = largest(bearers, &BearerFelt::seat_uplift);
  m.ballast_force = largest(bearers, &BearerFelt::ballast_force);
  m.ballast_pressure = largest(bearers, &BearerFelt::ballast_pressure);
  m.bearer_moment = largest(bearers, &BearerFelt::moment);
  m.bearer_strain = largest(bearers, &BearerFelt::strain);
  m.rail_stress = largest(bearers, &BearerFelt::rail_stress);
  m.sampling = h.track.sampling;
  m.missing = missing(m, h.track);
  return m;
}

} // namespace wingnose::assess
