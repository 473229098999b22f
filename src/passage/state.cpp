#include "wingnose/passage/state.hpp"

#include "kernels.hpp"
#include "loads_on_chain.hpp"
#include "path_cursor.hpp"
#include "step_parts.hpp"

#include "wingnose/passage/equilibrium.hpp"

#include <algorithm>
#include <complex>
#include <limits>

namespace wingnose::passage {
namespace {

using Complex = std::complex<double>;

constexpr double look_ahead = 0.002; // m, over which the slope a wheel starts on is read

// Slope of a wheel's path where it starts, just ahead in the sense of travel (per metre travelled).
double starting_slope(const Passage& passage, int w, double x, int& path_index) {
  const Course& course = passage.plan->courses[w];
  PathCursor cursor(*course.path);
  double height[2] = {-1e300, -1e300};
  for (int side = 0; side < 2; ++side) {
    cursor.move_to(x + side * look_ahead * sense(passage.run.direction));
    for (std::size_t b = 0; b < course.path->bodies.size(); ++b) {
      height[side] = std::max(height[side], cursor.body(course.path->bodies[b].height, course.law->body[b]).height);
    }
    if (side == 0) {
      path_index = cursor.interval();
    }
  }
  return (height[1] - height[0]) / look_ahead;
}

// Track at rest under the wheels: z = -theta F / lambda; then y = (z - lag theta F) / scale.
void rest(const Passage& passage, State& state) {
  const StepTable& t = *passage.plan->steps;
  for (int k = 0; k < t.modes; ++k) {
    const Complex scale(t.scale_re[k], t.scale_im[k]), lag(t.lag_re[k], t.lag_im[k]);
    const Complex lambda(passage.plan->track->lambda_re[k], passage.plan->track->lambda_im[k]);
    Complex y = 0.0;
    for (int w = 0; w < passage.wheels(); ++w) {
      const Complex shape(state.theta_re[w][k], state.theta_im[w][k]); // already scaled
      y += (-shape / (scale * lambda) - lag * shape) / scale * state.force[w];
    }
    state.y_re[k] = y.real();
    state.y_im[k] = y.imag();
  }
}

} // namespace

State initial_state(const Passage& passage) {
  const Plan& plan = *passage.plan;
  const int modes = plan.steps ? plan.steps->modes : 0;
  const vehicle::VehicleModel& vehicle = passage.vehicle->model;
  const int wheels = passage.wheels();
  const Eigen::Index m = vehicle.K.rows();

  State state;
  state.station = passage.start();
  const Equilibrium still = equilibrium(passage, state.station);
  state.force = still.force;
  state.vehicle = Eigen::VectorXd::Zero(2 * m);
  state.vehicle.head(m) = still.displacement;
  state.body_force = still.body_force;
  state.rail = still.rail;
  state.slope.assign(wheels, 0.0);
  state.path_index.assign(wheels, 0);
  state.element.assign(wheels, 0);
  state.y_re.assign(modes, 0.0);
  state.y_im.assign(modes, 0.0);
  state.theta_re.assign(wheels, AlignedVector(modes, 0.0));
  state.theta_im.assign(wheels, AlignedVector(modes, 0.0));

  double mean_slope = 0.0;
  for (int w = 0; w < wheels; ++w) {
    const double x = passage.wheel_station(w, state.station);
    if (plan.track) {
      state.element[w] = plan.track->element_at(x);
      kernels::shape_and_deflection(modes, state.y_re.data(), state.y_im.data(), state.theta_re[w].data(),
                                    state.theta_im[w].data(), place_on(*plan.steps, x, state.element[w]));
    }
    const double slope = starting_slope(passage, w, x, state.path_index[w]);
    mean_slope += slope / wheels;
    state.vehicle[m + w] = slope * passage.run.speed;
  }
  // A vehicle that starts on a ramp already moves with it. Heaves follow the mean ramp; bodies do not pitch at first.
  for (Eigen::Index i = wheels; i < m; ++i) {
    if (vehicle.motion[i] == vehicle::Motion::heave) {
      state.vehicle[m + i] = mean_slope * passage.run.speed;
    }
  }
  if (plan.chain) {
    state.motion = track::chain::at_rest(*plan.chain, loads_on_chain(passage, state.station, state.force));
  } else {
    rest(passage, state);
  }
  return state;
}

Scratch::Scratch(const Passage& passage)
    : vehicle_next(2 * passage.vehicle->model.K.rows()), force_change(passage.wheels()) {
  const auto searched = [](const Course& course) { return course.search != nullptr; };
  const std::vector<Course>& courses = passage.plan->courses;
  gap.resize(std::any_of(courses.begin(), courses.end(), searched) ? courses.size() : 0);
  spoil();
}

void Scratch::spoil() {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  vehicle_next.setConstant(nan);
  force_change.setConstant(nan);
  for (std::array<contact::GapLine, 2>& wheel : gap) {
    for (contact::GapLine& line : wheel) {
      line.first_y = line.spacing = line.wheel_first = line.level = nan;
      line.count = line.top = contact::GapLine::capacity; // a column that is not there
      for (auto* column : {&line.gap, &line.dx, &line.slope, &line.curvature_x, &line.radius}) {
        column->fill(nan);
      }
    }
  }
}

} // namespace wingnose::passage
