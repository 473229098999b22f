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

void advance_vehicle(const Passage& passage, State& state, Scratch& scratch, double time) {
  const double travelled = passage.run.speed * time;
  state.station =
      passage.run.direction == Direction::facing ? passage.plan->from + travelled : passage.plan->to - travelled;
  const VehicleStep& step = passage.vehicle->step;
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
  const VehicleStep& step = passage.vehicle->step;
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
