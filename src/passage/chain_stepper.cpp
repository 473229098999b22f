#include "wingnose/passage/chain_stepper.hpp"

#include "step_parts.hpp"

#include "wingnose/words/error.hpp"
#include "wingnose/words/number.hpp"

#include <algorithm>
#include <cmath>

namespace wingnose::passage {
namespace {

using track::chain::rail_point;

int forces_on(const Passage& passage) { return passage.wheels() * passage.plan->chain->rails; }

} // namespace

ChainStepper::ChainStepper(const Passage& passage, const GivenForces* given)
    : scratch_(passage), given_(given), chain_(*passage.plan->chain, forces_on(passage)), from_(forces_on(passage)),
      to_(forces_on(passage)) {}

double ChainStepper::meet_wheel(const Passage& passage, State& state, int w, double time) {
  const double x = passage.wheel_station(w, state.station);
  const double free_rail = chain_.free_deflection(w), rail_compliance = chain_.compliance(w);
  const double guess = chain_.forces()[w].force;
  double force = 0.0;
  if (given_ != nullptr) {
    force = given_->at(w, time);
  } else if (passage.plan->courses[w].search) {
    force = searched_force(passage, state, scratch_, w, x, free_rail, rail_compliance, guess);
  } else {
    const Approach a = approach<true>(passage, state, scratch_, w, x, free_rail, rail_compliance);
    force = solve_contact(a.depth, a.law, passage.plan->courses[w].law->reach, a.bodies, a.compliance, guess,
                          state.body_force[w]);
  }
  chain_.set_force(w, force);
  state.rail[w] = free_rail + rail_compliance * force;
  return std::abs(force - guess);
}

void ChainStepper::do_step(const Passage& passage, State& state, double t, double dt) {
  if constexpr (spoils_scratch) {
    scratch_.spoil();
  }
  constexpr int sweeps_at_most = 25;
  constexpr double settled = 0.01; // N
  const Plan& plan = *passage.plan;
  if (is_long(plan, dt) != state.long_step) {
    change_step(passage, state);
  }
  const int wheels = passage.wheels();
  for (std::size_t i = 0; i < from_.size(); ++i) {
    const auto w = static_cast<int>(i) % wheels;
    const bool partner = static_cast<int>(i) >= wheels;
    const double x = passage.wheel_station(w, state.station);
    if (to_[i].at.x == x && started_) { // where the last step ended
      from_[i].at = to_[i].at;
    } else {
      from_[i].at = rail_point(*plan.chain, partner ? 1 - plan.rail : plan.rail, x);
    }
    from_[i].force = partner ? passage.vehicle->model.static_load[w] : state.force[w];
  }
  advance_vehicle(passage, state, scratch_, t + dt);
  for (std::size_t i = 0; i < to_.size(); ++i) {
    const auto w = static_cast<int>(i) % wheels;
    const bool partner = static_cast<int>(i) >= wheels;
    to_[i].at = rail_point(*plan.chain, partner ? 1 - plan.rail : plan.rail, passage.wheel_station(w, state.station));
    to_[i].force = partner ? from_[i].force : std::max(0.0, state.force[w] + state.slope[w]);
  }
  started_ = true;
  chain_.begin(*state.motion, state.long_step ? *plan.long_chain_steps : *plan.chain_steps, from_, to_);
  const bool once = wheels == 1 && plan.chain->links() == 0; // nothing else answers
  for (int sweep = 1;; ++sweep) {
    if (sweep > sweeps_at_most) {
      throw ComputeError("wheels and voids do not settle with one another at station " + number(state.station) +
                         " m; take a shorter passage.step_us");
    }
    double change = 0.0;
    for (int w = 0; w < wheels; ++w) {
      change = std::max(change, meet_wheel(passage, state, w, t + dt));
    }
    change = std::max(change, chain_.meet_links());
    most_sweeps_ = std::max(most_sweeps_, sweep);
    if (once || change <= settled) {
      break;
    }
  }
  chain_.end(*state.motion);
  for (int w = 0; w < wheels; ++w) {
    const double force = chain_.forces()[w].force;
    state.slope[w] = force - state.force[w];
    state.force[w] = force;
  }
  finish_vehicle(passage, state, scratch_);
}

} // namespace wingnose::passage
