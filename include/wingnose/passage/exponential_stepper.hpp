// The default integrator as a stepper in the sense of Boost.Odeint: do_step(system, state, t, dt), constant step.
//
// Modes advance by their exact recurrence (step_table.hpp), the vehicle by its exact transition matrix, and the contact
// force at the end of the step is found by Newton's method so that approach, rail deflection and wheel height agree.
// Second order in the step through the variation of the force; unconditionally stable in the structure. do_step
// allocates nothing. SI; frame.hpp.
#pragma once

#include "wingnose/passage/scene.hpp"

#include <boost/numeric/odeint/stepper/stepper_categories.hpp>

#include <Eigen/Core>

#include <array>
#include <span>
#include <vector>

namespace wingnose::passage {

// Motion of one passage at an instant. Made by `initial_state`; all arrays keep their size.
struct State {
  AlignedVector y_re, y_im;                      // scaled modal coordinates of the track, [modes]
  std::vector<AlignedVector> theta_re, theta_im; // scaled mode shapes at each wheel, [wheel][modes]
  Eigen::VectorXd vehicle, vehicle_next;         // displacements then velocities; the second is work space
  Eigen::VectorXd force, force_change;           // N per wheel, and minus the static load
  std::vector<std::array<double, 2>> body_force; // N, [wheel][body]
  std::vector<double> rail;                      // m, deflection under each wheel, downward
  std::vector<double> slope;   // N, change of each force over the last step: a first guess for the next
  std::vector<int> path_index; // interval of the path each wheel is in
  std::vector<int> element;    // track element each wheel is on
  std::vector<std::array<contact::GapLine, 2>> gap; // [wheel][body], where contact is searched at every step
  double station = 0.0;                             // m, reported wheel
};
[[nodiscard]] State initial_state(const Scene& scene);

class ExponentialStepper {
public:
  using state_type = State;
  using deriv_type = State;
  using value_type = double;
  using time_type = double;
  using order_type = unsigned short;
  using stepper_category = boost::numeric::odeint::stepper_tag;
  [[nodiscard]] static order_type order() { return 2; }

  // system: the Scene; dt must be the scene's own step, because the recurrence was worked out for it.
  void do_step(const Scene& system, State& state, double t, double dt) const;
};

// Up to eight one-wheel passages that share track, step, speed, direction and window. Lanes do not mix: a case gives
// the same bits whichever lane it runs in and whatever runs beside it.
struct BatchState {
  static constexpr std::size_t lanes = 8;
  explicit BatchState(std::span<const Scene> scenes); // at most `lanes`
  AlignedVector y_re, y_im;                           // [mode][lane]
  AlignedVector theta_re, theta_im;                   // [mode], the wheel's place is common
  std::array<double, lanes> force{};                  // N
  std::vector<State> cases; // vehicle side and records of each case; their own y is not advanced
  int element = 0;
  bool further_terms = false; // whether a law of contact of any case is more than Hertz's one term
};

class BatchStepper {
public:
  using state_type = BatchState;
  using deriv_type = BatchState;
  using value_type = double;
  using time_type = double;
  using order_type = unsigned short;
  using stepper_category = boost::numeric::odeint::stepper_tag;
  void do_step(std::span<const Scene> scenes, BatchState& state, double t, double dt) const;
};

} // namespace wingnose::passage
