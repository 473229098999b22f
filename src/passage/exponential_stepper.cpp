#include "wingnose/passage/exponential_stepper.hpp"

#include "searched_contact.hpp"
#include "step_parts.hpp"

namespace wingnose::passage {
namespace {

// Force where contact is searched at this very step: heights of first touch from the search.
double searched_force(const Passage& passage, State& state, Scratch& scratch, int w, double x, double free_rail,
                      double rail_compliance) {
  const Course& course = passage.plan->courses[w];
  const double wheel_compliance = passage.vehicle->step.input_end(w, w);
  const double free_wheel = scratch.vehicle_next[w] - wheel_compliance * passage.vehicle->model.static_load[w];
  const int bodies = static_cast<int>(course.path->bodies.size());
  std::array<contact::GapLine, max_bodies>& lines = scratch.gap[static_cast<std::size_t>(w)];
  std::array<double, max_bodies> depth{-1.0, -1.0};
  for (int b = 0; b < bodies; ++b) {
    course.search->look(static_cast<std::size_t>(b), x, lines[b]);
    depth[b] = lines[b].level - free_rail - free_wheel;
  }
  return solve_searched(*course.search, lines, passage.plan->combined_modulus, depth, bodies,
                        rail_compliance + wheel_compliance, state.force[w] + state.slope[w], state.body_force[w]);
}

} // namespace

void ExponentialStepper::do_step(const Passage& passage, State& state, double t, double dt) {
  if constexpr (spoils_scratch) {
    spoil();
  }
  const StepTable& table = *passage.plan->steps;
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
    if (passage.plan->courses[w].search) {
      const double force = searched_force(passage, state, scratch_, w, x, free_rail, rail_compliance);
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
