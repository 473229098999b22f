// What the track felt at its most, over the bearers of the stretch and the whole passage. SI, downward positive.
#pragma once

#include "wingnose/passage/history.hpp"

#include <optional>
#include <string>
#include <vector>

namespace wingnose::assess {

struct TrackMeasures {
  struct Largest {
    double value = 0.0, station = 0.0; // at the bearer there, m
  };
  double rail_deflection = 0.0; // m, under the reported wheel
  // With probes, and as far as the model of the track has them.
  std::optional<Largest> bearer_deflection, seat_force, seat_uplift, ballast_force; // m, N
  std::optional<Largest> ballast_pressure, bearer_moment, bearer_strain;            // Pa, N m (size), -
  std::optional<Largest> rail_stress;                                               // Pa, tension at the foot
  double sampling = 0.0;                                                            // s, between the instants looked at
  std::vector<std::string> missing; // what is not available, why, and what to do
};
[[nodiscard]] TrackMeasures measure_track(const passage::History& history);

} // namespace wingnose::assess
