// Eight passages side by side: their modes in one pass, their contacts in one solution; one alone in the same bits.
#include "wingnose/passage/exponential_stepper.hpp"

#include "step_parts.hpp"

#include <algorithm>
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

// What the lanes of a batch bring to their contacts; idle ones touch nothing. All wheels stand at one station: lanes
// that share a course look at it once. Reading and blending all three terms of eight laws would take two thirds of the
// time that solving them takes: laws of one term are read as such. lowered: m, rail and wheel without this step's
// force.
template <bool further_terms>
void gather(std::span<const Passage> passages, BatchState& batch, const BatchState::PerLane<double>& lowered,
            kernels::ContactLanes& lanes) {
  std::array<BodyState, max_bodies> body;
  const Course* last = nullptr;
  for (std::size_t j = 0; j < batch.width; ++j) {
    const Course* course = j < passages.size() ? &passages[j].plan->courses[0] : nullptr;
    if (last != nullptr && course != nullptr && course->path == last->path && course->law == last->law) {
      batch.path_index[j] = batch.path_index[j - 1];
    } else {
      body.fill({-std::numeric_limits<double>::infinity(), {}});
      if (course != nullptr) {
        PathCursor cursor(*course->path, batch.path_index[j]);
        cursor.move_to(batch.station);
        batch.path_index[j] = cursor.interval();
        for (std::size_t b = 0; b < course->path->bodies.size(); ++b) {
          body[b] = cursor.body<further_terms>(course->path->bodies[b].height, course->law->body[b]);
        }
      }
    }
    last = course;
    for (std::size_t b = 0; b < max_bodies; ++b) {
      lanes.approach[b][j] = body[b].height - lowered[j];
      lanes.c0[b][j] = body[b].law.c0;
      if constexpr (further_terms) {
        lanes.c1[b][j] = body[b].law.c1;
        lanes.c2[b][j] = body[b].law.c2;
      }
    }
    if constexpr (further_terms) {
      lanes.reach[j] = course != nullptr ? course->law->reach : 1.0;
    }
  }
}

} // namespace

BatchState::BatchState(std::span<const Passage> passages) : width(passages.size() == 1 ? 1 : lanes) {
  const auto n = static_cast<std::size_t>(passages.front().plan->steps->modes);
  const auto motions = static_cast<std::size_t>(2 * passages.front().vehicle->model.K.rows());
  y_re.assign(n * width, 0.0);
  y_im.assign(n * width, 0.0);
  vehicle.assign(motions * width, 0.0);
  for (std::size_t j = 0; j < passages.size(); ++j) {
    const State state = initial_state(passages[j]);
    for (std::size_t k = 0; k < n; ++k) {
      y_re[k * width + j] = state.y_re[k];
      y_im[k * width + j] = state.y_im[k];
    }
    for (std::size_t k = 0; k < motions; ++k) {
      vehicle[k * width + j] = state.vehicle[static_cast<Eigen::Index>(k)];
    }
    force[j] = state.force[0];
    rail[j] = state.rail[0];
    body_force[0][j] = state.body_force[0][0];
    body_force[1][j] = state.body_force[0][1];
    path_index[j] = state.path_index[0];
    theta_re = state.theta_re[0];
    theta_im = state.theta_im[0];
    element = state.element[0];
    station = state.station;
  }
}

BatchState::BatchState(const BatchState& all, std::size_t lane)
    : width(1), theta_re(all.theta_re), theta_im(all.theta_im), station(all.station), element(all.element),
      long_step(all.long_step) {
  const auto take = [&](AlignedVector& into, const AlignedVector& from) {
    for (std::size_t at = lane; at < from.size(); at += all.width) {
      into.push_back(from[at]);
    }
  };
  take(y_re, all.y_re);
  take(y_im, all.y_im);
  take(vehicle, all.vehicle);
  force[0] = all.force[lane];
  slope[0] = all.slope[lane];
  rail[0] = all.rail[lane];
  body_force[0][0] = all.body_force[0][lane];
  body_force[1][0] = all.body_force[1][lane];
  path_index[0] = all.path_index[lane];
}

BatchStepper::BatchStepper(std::span<const Passage> passages) {
  const contact::PathLaw* last = nullptr;
  const std::size_t width = passages.size() == 1 ? 1 : BatchState::lanes;
  for (std::size_t j = 0; j < passages.size(); ++j) {
    const contact::PathLaw* law = passages[j].plan->courses[0].law.get();
    further_terms_ = further_terms_ || (law != last && has_further_terms(*law));
    last = law;
    static_load_[j] = passages[j].vehicle->model.static_load[0];
  }
  vehicles_ = {side_by_side(passages, false, width), side_by_side(passages, true, width)};
  vehicle_next_.resize(vehicles_[0].input_end.size());
  spoil();
}

// Idle lanes: no motion, no load, and a compliance that divides.
BatchStepper::Vehicles BatchStepper::side_by_side(std::span<const Passage> passages, bool is_long, std::size_t width) {
  Vehicles all;
  for (std::size_t j = 0; j < passages.size(); ++j) {
    const VehicleStep& one = passages[j].vehicle->over(is_long);
    const Eigen::Index n = one.transition.rows(); // none where no step is long
    all.transition.resize(static_cast<std::size_t>(n * n) * width);
    all.input_begin.resize(static_cast<std::size_t>(n) * width);
    all.input_end.resize(static_cast<std::size_t>(n) * width);
    for (Eigen::Index r = 0; r < n; ++r) {
      const std::size_t row = static_cast<std::size_t>(r) * width + j;
      all.input_begin[row] = one.input_begin(r, 0);
      all.input_end[row] = one.input_end(r, 0);
      for (Eigen::Index c = 0; c < n; ++c) {
        all.transition[static_cast<std::size_t>(r * n + c) * width + j] = one.transition(r, c);
      }
    }
  }
  return all;
}

void BatchStepper::spoil() {
  std::fill(vehicle_next_.begin(), vehicle_next_.end(), std::numeric_limits<double>::quiet_NaN());
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
  for (double& slope : batch.slope) {
    slope *= batch.long_step ? plan.stride : 1.0 / plan.stride;
  }
}

void BatchStepper::do_step(std::span<const Passage> passages, BatchState& batch, double t, double dt) {
  kernels::ContactLanes lanes;
  if constexpr (spoils_scratch) {
    spoil();
    kernels::spoil(lanes);
  }
  const Passage& first = passages.front();
  const Plan& plan = *first.plan;
  if (is_long(plan, dt) != batch.long_step) {
    change_step(passages, batch);
  }
  const StepTable& table = batch.long_step ? *plan.long_steps : *plan.steps;
  const double travelled = first.run.speed * (t + dt);
  batch.station = first.run.direction == Direction::facing ? plan.from + travelled : plan.to - travelled;

  const Vehicles& v = vehicles_[batch.long_step ? 1 : 0];
  const kernels::Vehicles vehicles{static_cast<int>(batch.vehicle.size() / batch.width), v.transition.data(),
                                   v.input_begin.data(), v.input_end.data(), static_load_.data()};
  const kernels::Place at = place_on(table, batch.station, batch.element);
  const bool alone = batch.width == 1;
  BatchState::PerLane<double> free_rail{}, lowered{};
  double *y_re = batch.y_re.data(), *y_im = batch.y_im.data();
  double *theta_re = batch.theta_re.data(), *theta_im = batch.theta_im.data();
  if (alone) {
    free_rail[0] = kernels::advance(modes_of(table), y_re, y_im, theta_re, theta_im, batch.force[0], at);
    kernels::begin_vehicle(vehicles, batch.vehicle.data(), batch.force.data(), vehicle_next_.data());
  } else {
    kernels::advance8(modes_of(table), y_re, y_im, theta_re, theta_im, batch.force.data(), at, free_rail.data());
    kernels::begin_vehicles8(vehicles, batch.vehicle.data(), batch.force.data(), vehicle_next_.data());
  }
  const double rail_compliance = table.compliance_at(batch.element, at.s);
  for (std::size_t j = 0; j < batch.width; ++j) {
    const double wheel_compliance = v.input_end[j];
    lowered[j] = free_rail[j] + (vehicle_next_[j] - wheel_compliance * static_load_[j]);
    lanes.compliance[j] = rail_compliance + wheel_compliance;
    lanes.force[j] = batch.force[j] + batch.slope[j];
  }
  further_terms_ ? gather<true>(passages, batch, lowered, lanes) : gather<false>(passages, batch, lowered, lanes);
  alone ? kernels::solve_contact1(lanes, further_terms_) : kernels::solve_contact8(lanes, further_terms_);
  for (std::size_t j = 0; j < batch.width; ++j) {
    batch.slope[j] = lanes.force[j] - batch.force[j];
    batch.force[j] = lanes.force[j];
    batch.rail[j] = free_rail[j] + rail_compliance * lanes.force[j];
    batch.body_force[0][j] = lanes.body_force[0][j];
    batch.body_force[1][j] = lanes.body_force[1][j];
  }
  alone ? kernels::end_vehicle(vehicles, vehicle_next_.data(), batch.force.data(), batch.vehicle.data())
        : kernels::end_vehicles8(vehicles, vehicle_next_.data(), batch.force.data(), batch.vehicle.data());
}

} // namespace wingnose::passage
