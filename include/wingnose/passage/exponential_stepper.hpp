// The default integrator as a stepper in the sense of Boost.Odeint: do_step(system, state, t, dt), of two step lengths.
//
// Modes advance by their exact recurrence (step_table.hpp), the vehicle by its exact transition matrix, and the contact
// force at the end of the step is found by Newton's method so that approach, rail deflection and wheel height agree.
// Second order in the step through the variation of the force; unconditionally stable in the structure. do_step
// allocates nothing. SI; frame.hpp.
#pragma once

#include "wingnose/passage/given_forces.hpp"
#include "wingnose/passage/second_order_stepper.hpp"
#include "wingnose/passage/state.hpp"

#include <array>
#include <span>

namespace wingnose::passage {

class ExponentialStepper : public SecondOrderStepper<State> {
public:
  // given: forces of all wheels, which then meet no body, or nullptr; has to live as long.
  explicit ExponentialStepper(const Passage& passage, const GivenForces* given = nullptr)
      : scratch_(passage), given_(given) {}

  // system: the passage the stepper was made for; dt must be the plan's own step or its long one, because the
  // recurrence was worked out for these.
  void do_step(const Passage& system, State& state, double t, double dt);
  // Fills the working memory with NaN, as debug builds do before every step: a step reads nothing an earlier one left.
  void spoil() { scratch_.spoil(); }

private:
  Scratch scratch_;
  const GivenForces* given_;
};

// Up to eight one-wheel passages that share track, step, speed, direction and window. Lanes do not mix: a case gives
// the same bits whichever lane it runs in, whatever runs beside it, and alone, where no other lane is kept.
struct BatchState {
  static constexpr std::size_t lanes = 8;
  template <class Value> using PerLane = std::array<Value, lanes>;
  explicit BatchState(std::span<const Passage> passages); // at most `lanes`
  BatchState(const BatchState& all, std::size_t lane);    // one of them alone
  std::size_t width;                                      // lanes kept: `lanes`, or 1 for a passage alone
  AlignedVector y_re, y_im;                               // [mode][width]
  AlignedVector theta_re, theta_im;                       // [mode], the wheel's place is common
  AlignedVector vehicle;                                  // displacements then velocities, [width] each
  // Of the wheel, as in State; idle lanes rest at zero.
  PerLane<double> force{}, slope{}, rail{};
  std::array<PerLane<double>, 2> body_force{}; // [body][lane]
  PerLane<int> path_index{};
  double station = 0.0;
  int element = 0;
  bool long_step = false;
};

class BatchStepper : public SecondOrderStepper<BatchState> {
public:
  explicit BatchStepper(std::span<const Passage> passages);
  void do_step(std::span<const Passage> system, BatchState& state, double t, double dt);
  void spoil();
  // Whether a law of contact of any case is more than Hertz's one term.
  [[nodiscard]] bool further_terms() const { return further_terms_; }

private:
  // VehicleStep of all lanes, [entry][width].
  struct Vehicles {
    AlignedVector transition, input_begin, input_end;
  };
  [[nodiscard]] static Vehicles side_by_side(std::span<const Passage> passages, bool is_long, std::size_t width);
  static void change_step(std::span<const Passage> passages, BatchState& state);

  bool further_terms_ = false;
  std::array<Vehicles, 2> vehicles_; // of short and of long steps
  BatchState::PerLane<double> static_load_{};
  AlignedVector vehicle_next_; // working memory, as BatchState::vehicle
};

} // namespace wingnose::passage
