// The integrator of a passage over a track that is a chain, a stepper in the sense of Boost.Odeint: do_step(system,
// state, t, dt). The chain by its own step (track/chain/stepper.hpp), the vehicle by its exact transition matrix, and
// the contact forces at the end of the step so that approach, rail deflection and wheel height agree: wheel after
// wheel, then whatever ballast or pads touch and let go, until nothing changes. do_step allocates nothing. SI;
// frame.hpp.
#pragma once

#include "wingnose/passage/given_forces.hpp"
#include "wingnose/passage/second_order_stepper.hpp"
#include "wingnose/passage/state.hpp"

#include <vector>

namespace wingnose::passage {

class ChainStepper : public SecondOrderStepper<State> {
public:
  // given: forces of all wheels, which then meet no body, or nullptr; has to live as long.
  explicit ChainStepper(const Passage& passage, const GivenForces* given = nullptr);
  // dt: the plan's own step or its long one.
  void do_step(const Passage& system, State& state, double t, double dt);
  // Wheels and links taken in turn, most in one step so far.
  [[nodiscard]] int most_sweeps() const { return most_sweeps_; }

private:
  double meet_wheel(const Passage& passage, State& state, int w, double time); // returns the change of its force, N

  Scratch scratch_;
  const GivenForces* given_;
  track::chain::Stepper chain_;
  std::vector<track::chain::WheelForce> from_, to_; // wheels, then partners abreast
  bool started_ = false;
  int most_sweeps_ = 0;
};

} // namespace wingnose::passage
