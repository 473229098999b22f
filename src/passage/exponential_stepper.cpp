#include "wingnose/passage/exponential_stepper.hpp"

#include "step_parts.hpp"

namespace wingnose::passage {
void ExponentialStepper::do_step(const Passage& passage, State& state, double t, double dt) {
  if constexpr (spoils_scratch) {
    spoil();
  }
  if (is_long(*passage.plan, dt) != state.long_step) {
    change_step(passage, state);
  }
  const StepTable& table = state.long_step ? *passage.plan->long_steps : *passage.plan->steps;
  const int wheels = passage.wheels();
  advance_vehicle(passage, state, scratch_, t + dt);

  const kernels::Modes m = modes_of(table);
  double* y_re = state.y_re.data();
  double* y_im = state.y_im.data();
  if (wheels > 1) {
    kernels::decay(m, y_re, y_im);
    for (int w = 0; w < wheels; ++w) {
      kernels::add_force(m.n, y_re, y_im, state.theta_re[w].data(), state.theta_im[w].data(), state.force[w]);
    }
  }
  for (int w = 0; w < wheels; ++w) {
    const double x = passage.wheel_station(w, state.station);
    const kernels::Place at = place_on(table, x, state.element[w]);
    double* theta_re = state.theta_re[w].data();
    double* theta_im = state.theta_im[w].data();
    const double free_rail = wheels > 1 ? kernels::shape_and_deflection(m.n, y_re, y_im, theta_re, theta_im, at)
                                        : kernels::advance(m, y_re, y_im, theta_re, theta_im, state.force[0], at);
    // Within one step a wheel feels only its own force: waves in the rail and the suspension take longer to the next
    // wheel.
    const double rail_compliance = table.compliance_at(state.element[w], at.s);
    if (given_ != nullptr) {
      accept(state, w, given_->at(w, t + dt), free_rail, rail_compliance);
      continue;
    }
    if (passage.plan->courses[w].search) {
      const double force =
          searched_force(passage, state, scratch_, w, x, free_rail, rail_compliance, state.force[w] + state.slope[w]);
      accept(state, w, force, free_rail, rail_compliance);
      continue;
    }
    const Approach a = approach<true>(passage, state, scratch_, w, x, free_rail, rail_compliance);
    const double force = solve_contact(a.depth, a.law, passage.plan->courses[w].law->reach, a.bodies, a.compliance,
                                       state.force[w] + state.slope[w], state.body_force[w]);
    accept(state, w, force, free_rail, rail_compliance);
  }
  finish_vehicle(passage, state, scratch_);
}

} // namespace wingnose::passage
