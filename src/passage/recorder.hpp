// Fills the arrays of a History while a passage runs; everything is allocated before the first step.
#pragma once

#include "track_watch.hpp"

#include "wingnose/passage/history.hpp"
#include "wingnose/passage/state.hpp"

#include <array>
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

// A fixed point whose motion is recorded.
struct Probe {
  std::array<Folded, 2> over;     // short and long steps of a modal track
  std::vector<double> deflection; // m, downward, [sample]
};

class Recorder {
public:
  Recorder(const Passage& passage, int samples);
  void operator()(const State& state, int sample);
  // The reported wheel at a sample: force (N), its parts on the bodies, height and rail as in History.
  struct Wheel {
    double force;
    std::array<double, 2> body_force;
    double height, acceleration, rail;
  };
  void operator()(const Wheel& wheel, int sample);
  // The finished history: accelerations derived, events located. Throws ComputeError when a value is not finite.
  [[nodiscard]] History finish() &&;

private:
  void keep(const Wheel& wheel, int sample);
  void place_probes(int samples);
  void record_probes(const State& state, int sample);

  const Passage* passage_;
  History history_;
  std::vector<Probe> probes_; // rail, bearer; on a chain only their deflections are used, and the two places below
  track::chain::RailPoint rail_probe_;
  int bearer_probe_ = 0;
  std::optional<TrackWatch> watch_; // with the probes
  // Acceleration of the reported wheel as a row over the vehicle's state, and per newton of its own force.
  std::vector<double> rate_;
  double per_force_ = 0.0;
};

// Touch, lift-off and transfer of the reported wheel, by root finding between the samples of `history`.
[[nodiscard]] std::vector<Event> locate_events(const Passage& passage, const History& history);

} // namespace wingnose::passage
