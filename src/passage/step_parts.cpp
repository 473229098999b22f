#include "step_parts.hpp"

namespace wingnose::passage {
namespace {

// The common case of studies, of sizes the compiler then knows; two wheels without a mass above them have as many
// motions.
bool one_mass_above_one_wheel(const State& state) { return state.vehicle.size() == 4 && state.force.size() == 1; }

} // namespace

kernels::Place place_on(const StepTable& t, double x, int& element) {
  const double* node = t.track->assembly.node.data();
  const int last = t.track->elements() - 1;
  while (element > 0 && x < node[element]) {
    --element;
  }
  while (element < last && x >= node[element + 1]) {
    ++element;
  }
  return {t.element_shape_re(element), t.element_shape_im(element),
          (x - node[element]) / (node[element + 1] - node[element])};
}

ModeChange mode_change(const StepTable& from, const StepTable& to, int k) {
  const std::complex<double> scale(from.scale_re[k], from.scale_im[k]), next(to.scale_re[k], to.scale_im[k]);
  const std::complex<double> lag(from.lag_re[k], from.lag_im[k]), next_lag(to.lag_re[k], to.lag_im[k]);
  const std::complex<double> ratio = scale / next;
  return {ratio, (lag - next_lag / ratio) / next};
}

void change_step(const Passage& passage, State& state) {
  const Plan& plan = *passage.plan;
  const bool now_long = !state.long_step;
  state.long_step = now_long;
  for (double& slope : state.slope) {
    slope *= now_long ? plan.stride : 1.0 / plan.stride;
  }
  const int modes = state.y_re.empty() ? 0 : plan.steps->modes;
  for (int k = 0; k < modes; ++k) {
    const ModeChange change =
        now_long ? mode_change(*plan.steps, *plan.long_steps, k) : mode_change(*plan.long_steps, *plan.steps, k);
    std::complex<double> y = change.ratio * std::complex<double>(state.y_re[k], state.y_im[k]);
    for (int w = 0; w < passage.wheels(); ++w) {
      std::complex<double> theta(state.theta_re[w][k], state.theta_im[w][k]);
      y += change.push * theta * state.force[w];
      theta /= change.ratio;
      state.theta_re[w][k] = theta.real();
      state.theta_im[w][k] = theta.imag();
    }
    state.y_re[k] = y.real();
    state.y_im[k] = y.imag();
  }
}

void advance_vehicle(const Passage& passage, State& state, Scratch& scratch, double time) {
  const double travelled = passage.run.speed * time;
  state.station =
      passage.run.direction == Direction::facing ? passage.plan->from + travelled : passage.plan->to - travelled;
  const VehicleStep& step = passage.vehicle->over(state.long_step);
  for (int w = 0; w < passage.wheels(); ++w) {
    scratch.force_change[w] = state.force[w] - passage.vehicle->model.static_load[w];
  }
  if (one_mass_above_one_wheel(state)) {
    const Eigen::Map<const Eigen::Matrix4d> transition(step.transition.data());
    const Eigen::Map<const Eigen::Vector4d> input(step.input_begin.data()), now(state.vehicle.data());
    Eigen::Map<Eigen::Vector4d>(scratch.vehicle_next.data()).noalias() =
        transition * now + input * scratch.force_change[0];
    return;
  }
  // lazyProduct: these matrices are small, and the blocked product would cost more in calls than in arithmetic.
  scratch.vehicle_next = step.transition.lazyProduct(state.vehicle);
  scratch.vehicle_next += step.input_begin.lazyProduct(scratch.force_change);
}

void finish_vehicle(const Passage& passage, State& state, Scratch& scratch) {
  const VehicleStep& step = passage.vehicle->over(state.long_step);
  for (int w = 0; w < passage.wheels(); ++w) {
    scratch.force_change[w] = state.force[w] - passage.vehicle->model.static_load[w];
  }
  if (one_mass_above_one_wheel(state)) {
    const Eigen::Map<const Eigen::Vector4d> input(step.input_end.data());
    Eigen::Map<Eigen::Vector4d>(scratch.vehicle_next.data()) += input * scratch.force_change[0];
  } else {
    scratch.vehicle_next += step.input_end.lazyProduct(scratch.force_change);
  }
  state.vehicle.swap(scratch.vehicle_next);
}

} // namespace wingnose::passage
