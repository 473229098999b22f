// Eight passages side by side: their modes in one pass, their contacts in one solution; one alone in the same bits.
#include "wingnose/passage/exponential_stepper.hpp"

#include "step_parts.hpp"

#include <cmath>
#include <complex>
#include <limits>

namespace wingnose::passage {
namespace {

// Whether any law along the path is more than Hertz's.
bool has_further_terms(const contact::PathLaw& path) {
  if (!std::isinf(path.reach)) {
    return true;
  }
  bool further = false;
  for (const std::vector<contact::ForceLaw>& body : path.body) {
    for (const contact::ForceLaw& law : body) {
      further |= law.c1 != 0.0 || law.c2 != 0.0;
    }
  }
  return further;
}

// What the lanes of a batch bring to their contacts; idle ones touch nothing. Reading and blending all three terms of
// eight laws would take two thirds of the time that solving them takes: laws of one term are read as such.
template <bool further_terms>
void gather(std::span<const Passage> passages, BatchState& batch, std::span<const Scratch> scratch, double x,
            const std::array<double, BatchState::lanes>& free_rail, double compliance, kernels::ContactLanes& lanes) {
  for (std::size_t j = 0; j < batch.width; ++j) {
    const bool busy = j < passages.size();
    const Approach a =
        busy ? approach<further_terms>(passages[j], batch.cases[j], scratch[j], 0, x, free_rail[j], compliance)
             : Approach{{-1.0, -1.0}, {}, 0, 1.0};
    for (std::size_t b = 0; b < max_bodies; ++b) {
      lanes.approach[b][j] = a.depth[b];
      lanes.c0[b][j] = a.law[b].c0;
      if constexpr (further_terms) {
        lanes.c1[b][j] = a.law[b].c1;
        lanes.c2[b][j] = a.law[b].c2;
      }
    }
    lanes.compliance[j] = a.compliance;
    if constexpr (further_terms) {
      lanes.reach[j] = busy ? passages[j].plan->courses[0].law->reach : 1.0;
    }
    lanes.force[j] = busy ? batch.cases[j].force[0] + batch.cases[j].slope[0] : 0.0;
  }
}

} // namespace

BatchState::BatchState(std::span<const Passage> passages) : width(passages.size() == 1 ? 1 : lanes) {
  const int n = passages.front().plan->steps->modes;
  y_re.assign(static_cast<std::size_t>(n) * width, 0.0);
  y_im.assign(static_cast<std::size_t>(n) * width, 0.0);
  for (std::size_t j = 0; j < passages.size(); ++j) {
    State state = initial_state(passages[j]);
    for (int k = 0; k < n; ++k) {
      y_re[static_cast<std::size_t>(k) * width + j] = state.y_re[k];
      y_im[static_cast<std::size_t>(k) * width + j] = state.y_im[k];
    }
    force[j] = state.force[0];
    theta_re = state.theta_re[0];
    theta_im = state.theta_im[0];
    element = state.element[0];
    cases.push_back(std::move(state));
  }
}

BatchStepper::BatchStepper(std::span<const Passage> passages) {
  const contact::PathLaw* last = nullptr;
  for (const Passage& passage : passages) {
    const contact::PathLaw* law = passage.plan->courses[0].law.get();
    further_terms_ = further_terms_ || (law != last && has_further_terms(*law));
    last = law;
    scratch_.emplace_back(passage);
  }
}

void BatchStepper::spoil() {
  for (Scratch& one : scratch_) {
    one.spoil();
  }
}

void BatchStepper::change_step(std::span<const Passage> passages, BatchState& batch) {
  using Complex = std::complex<double>;
  const Plan& plan = *passages.front().plan;
  const StepTable &last = batch.long_step ? *plan.long_steps : *plan.steps,
                  &next = batch.long_step ? *plan.steps : *plan.long_steps;
  for (int k = 0; k < last.modes; ++k) {
    const ModeChange change = mode_change(last, next, k);
    const Complex theta(batch.theta_re[k], batch.theta_im[k]);
    for (std::size_t j = 0; j < batch.width; ++j) {
      const std::size_t at = static_cast<std::size_t>(k) * batch.width + j;
      const Complex y = change.ratio * Complex(batch.y_re[at], batch.y_im[at]) + change.push * theta * batch.force[j];
      batch.y_re[at] = y.real();
      batch.y_im[at] = y.imag();
    }
    const Complex shape = theta / change.ratio;
    batch.theta_re[k] = shape.real();
    batch.theta_im[k] = shape.imag();
  }
  batch.long_step = !batch.long_step;
  for (State& state : batch.cases) {
    state.long_step = batch.long_step;
    state.slope[0] *= batch.long_step ? plan.stride : 1.0 / plan.stride;
  }
}

void BatchStepper::do_step(std::span<const Passage> passages, BatchState& batch, double t, double dt) {
  kernels::ContactLanes lanes;
  if constexpr (spoils_scratch) {
    spoil();
    kernels::spoil(lanes);
  }
  const Plan& plan = *passages.front().plan;
  if (is_long(plan, dt) != batch.long_step) {
    change_step(passages, batch);
  }
  const StepTable& table = batch.long_step ? *plan.long_steps : *plan.steps;
  for (std::size_t j = 0; j < passages.size(); ++j) {
    advance_vehicle(passages[j], batch.cases[j], scratch_[j], t + dt);
  }
  const double x = batch.cases.front().station;
  const kernels::Place at = place_on(table, x, batch.element);
  std::array<double, BatchState::lanes> free_rail{};
  double *y_re = batch.y_re.data(), *y_im = batch.y_im.data();
  double *theta_re = batch.theta_re.data(), *theta_im = batch.theta_im.data();
  if (batch.width == 1) {
    free_rail[0] = kernels::advance(modes_of(table), y_re, y_im, theta_re, theta_im, batch.force[0], at);
  } else {
    kernels::advance8(modes_of(table), y_re, y_im, theta_re, theta_im, batch.force.data(), at, free_rail.data());
  }
  const double compliance = table.compliance_at(batch.element, at.s);
  if (further_terms_) {
    gather<true>(passages, batch, scratch_, x, free_rail, compliance, lanes);
  } else {
    gather<false>(passages, batch, scratch_, x, free_rail, compliance, lanes);
  }
  batch.width == 1 ? kernels::solve_contact1(lanes, further_terms_) : kernels::solve_contact8(lanes, further_terms_);
  for (std::size_t j = 0; j < passages.size(); ++j) {
    State& state = batch.cases[j];
    accept(state, 0, lanes.force[j], free_rail[j], compliance);
    state.body_force[0] = {lanes.body_force[0][j], lanes.body_force[1][j]};
    batch.force[j] = state.force[0];
    finish_vehicle(passages[j], state, scratch_[j]);
  }
}

} // namespace wingnose::passage
