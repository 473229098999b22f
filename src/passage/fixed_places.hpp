// What rail, bearers and sensors at fixed places do while a passage runs; everything is allocated before the first
// step.
#pragma once

#include "track_watch.hpp"

#include "wingnose/passage/given_forces.hpp"
#include "wingnose/passage/history.hpp"
#include "wingnose/passage/state.hpp"

#include <array>
#include <span>
#include <vector>

namespace wingnose::passage {

// Mode shapes of a fixed point folded with a step table's scaling.
struct Folded {
  AlignedVector scale_re, scale_im, lag_re, lag_im; // [modes]
  // The part of the deflection that a wheel adds within the step, Re sum lag theta(x), is a cubic along each element:
  // its coefficients for the element each wheel is on.
  struct Lag {
    int element = -1;
    std::array<double, 4> c{};
  };
  std::vector<Lag> lag; // [wheel]
};

// Modes are read behind steps of the plan's own length only.
class FixedPlaces {
public:
  FixedPlaces(const Passage& passage, int samples);
  void operator()(const State& state, int sample); // samples may be left out where a step is long
  // Accelerations are derived; stretches: of the steps that were recorded.
  void tell(History& history, std::span<const Stretch> stretches) &&;

private:
  struct Probe {
    Folded over;                    // of a modal track
    std::vector<double> deflection; // m, downward, [sample]
  };
  void look_at_probes(const State& state, int sample);

  const Passage* passage_;
  double rail_station_, bearer_station_; // m
  std::array<Probe, 2> probes_;          // rail, bearer; on a chain only their deflections are used, and the two below
  track::chain::RailPoint rail_probe_;
  int bearer_probe_ = 0;
  TrackWatch watch_;
};

// Follows the track once more under the forces of all wheels that a passage found, in steps as short as its run asks of
// what is recorded, and adds what fixed places did to its history.
void record_fixed_places(const Passage& passage, GivenForces forces, History& history);

} // namespace wingnose::passage
