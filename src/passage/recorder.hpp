// Fills the arrays of a History while a passage runs; everything is allocated before the first step.
#pragma once

#include "wingnose/passage/given_forces.hpp"
#include "wingnose/passage/history.hpp"
#include "wingnose/passage/state.hpp"

#include <array>
#include <vector>

namespace wingnose::passage {

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
  // The forces of all wheels at the ends of the steps, for what fixed places do under them.
  [[nodiscard]] const GivenForces& forces() const { return forces_; }
  // The finished history: what lies between long steps filled in, events located. Throws ComputeError when a value is
  // not finite.
  [[nodiscard]] History finish() &&;

private:
  void keep(const Wheel& wheel, int sample);

  const Passage* passage_;
  History history_;
  GivenForces forces_; // of all wheels, where there are several or fixed places are to be recorded
  // Acceleration of the reported wheel as a row over the vehicle's state, and per newton of its own force.
  std::vector<double> rate_;
  double per_force_ = 0.0;
};

// Touch, lift-off and transfer of the reported wheel, by root finding between the samples of `history`.
[[nodiscard]] std::vector<Event> locate_events(const Passage& passage, const History& history);

} // namespace wingnose::passage
