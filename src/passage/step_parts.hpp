// The parts of a time step that belong to one passage alone, whether it runs singly or in a batch.
#pragma once

#include "contact_solve.hpp"
#include "kernels.hpp"
#include "path_cursor.hpp"
#include "searched_contact.hpp"

#include "wingnose/passage/state.hpp"

#include <array>
#include <complex>

namespace wingnose::passage {

// First cubic coefficient set and local coordinate of station x, starting the search at the wheel's last element.
[[nodiscard]] kernels::Place place_on(const StepTable& table, double x, int& element);
[[nodiscard]] inline kernels::Modes modes_of(const StepTable& t) {
  return {t.modes, t.decay_re.data(), t.decay_im.data()};
}

// Whether a step of dt seconds is the plan's long one.
[[nodiscard]] inline bool is_long(const Plan& plan, double dt) { return dt > 1.5 * plan.step; }
// Makes a state ready for steps of the other length; the motion it stands for stays the same.
void change_step(const Passage& passage, State& state);
// One mode from table to table: z = scale y + lag theta f stays the same. y <- ratio y + push theta f for every f, then
// theta <- theta / ratio.
struct ModeChange {
  std::complex<double> ratio, push;
};
[[nodiscard]] ModeChange mode_change(const StepTable& from, const StepTable& to, int mode);

// The vehicle to the end of the step under the forces of its beginning; scratch.vehicle_next receives it.
void advance_vehicle(const Passage& passage, State& state, Scratch& scratch, double time);
// Adds the forces of the end of the step.
void finish_vehicle(const Passage& passage, State& state, Scratch& scratch);

inline void accept(State& state, int w, double force, double free_rail, double rail_compliance) {
  state.slope[w] = force - state.force[w];
  state.force[w] = force;
  state.rail[w] = free_rail + rail_compliance * force;
}

// What one wheel brings to its contact in a step.
struct Approach {
  std::array<double, max_bodies> depth; // m, without this step's force
  std::array<contact::ForceLaw, max_bodies> law;
  int bodies;
  double compliance; // m/N, of rail and wheel
};

// free_rail: deflection at the wheel (m, downward) without this step's force. further_terms: false reads the first term
// of the laws only.
template <bool further_terms>
inline Approach approach(const Passage& passage, State& state, const Scratch& scratch, int w, double x,
                         double free_rail, double rail_compliance) {
  const Course& course = passage.plan->courses[w];
  const double wheel_compliance = passage.vehicle->over(state.long_step).input_end(w, w);
  const double free_wheel = scratch.vehicle_next[w] - wheel_compliance * passage.vehicle->model.static_load[w];
  PathCursor cursor(*course.path, state.path_index[w]);
  cursor.move_to(x);
  state.path_index[w] = cursor.interval();
  Approach result{{-1.0, -1.0}, {}, static_cast<int>(course.path->bodies.size()), rail_compliance + wheel_compliance};
  for (int b = 0; b < result.bodies; ++b) {
    const BodyState body = cursor.body<further_terms>(course.path->bodies[b].height, course.law->body[b]);
    result.depth[b] = body.height - free_rail - free_wheel;
    result.law[b] = body.law;
  }
  return result;
}

// Force where contact is searched at this very step: heights of first touch from the search. start: first
// guess (N).
inline double searched_force(const Passage& passage, State& state, Scratch& scratch, int w, double x, double free_rail,
                             double rail_compliance, double start) {
  const Course& course = passage.plan->courses[w];
  const double wheel_compliance = passage.vehicle->over(state.long_step).input_end(w, w);
  const double free_wheel = scratch.vehicle_next[w] - wheel_compliance * passage.vehicle->model.static_load[w];
  const int bodies = static_cast<int>(course.path->bodies.size());
  std::array<contact::GapLine, max_bodies>& lines = scratch.gap[static_cast<std::size_t>(w)];
  std::array<double, max_bodies> depth{-1.0, -1.0};
  for (int b = 0; b < bodies; ++b) {
    course.search->look(static_cast<std::size_t>(b), x, lines[b]);
    depth[b] = lines[b].level - free_rail - free_wheel;
  }
  return solve_searched(*course.search, lines, passage.plan->combined_modulus, depth, bodies,
                        rail_compliance + wheel_compliance, start, state.body_force[w]);
}

} // namespace wingnose::passage
