#include "recorder.hpp"

#include "between_knots.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>

namespace wingnose::passage {
Recorder::Recorder(const Passage& passage, int samples) : passage_(&passage) {
  const Plan& plan = *passage.plan;
  const Run& run = passage.run;
  const RunningVehicle& vehicle = *passage.vehicle;
  History& h = history_;
  h.step = plan.step;
  h.method = std::string(name(run.method));
  h.static_load = vehicle.model.static_load[run.reported_wheel];
  for (const contact::BodyPath& body : plan.courses[run.reported_wheel].path->bodies) {
    h.bodies.push_back(body.name);
    h.roles.push_back(body.role);
  }
  h.body_force.resize(h.bodies.size());
  for (std::vector<double>* v :
       {&h.time, &h.station, &h.force, &h.wheel_height, &h.wheel_acceleration, &h.rail_deflection}) {
    v->assign(samples, 0.0);
  }
  for (std::vector<double>& v : h.body_force) {
    v.assign(samples, 0.0);
  }
  // Forces of all wheels enter through the inverse mass, which couples none of them: each wheel is its own coordinate.
  const Eigen::Index own = vehicle.model.K.rows() + run.reported_wheel;
  rate_.reserve(static_cast<std::size_t>(vehicle.step.rate.cols()));
  for (Eigen::Index k = 0; k < vehicle.step.rate.cols(); ++k) {
    rate_.push_back(vehicle.step.rate(own, k));
  }
  per_force_ = vehicle.step.rate_input(own, run.reported_wheel);
  if (run.probes || passage.wheels() > 1) {
    forces_.step = plan.step;
    forces_.of.assign(static_cast<std::size_t>(passage.wheels()), std::vector<double>(samples, 0.0));
  }
}

void Recorder::keep(const Wheel& wheel, int i) {
  History& h = history_;
  h.force[i] = wheel.force;
  for (std::size_t b = 0; b < h.body_force.size(); ++b) {
    h.body_force[b][i] = wheel.body_force[b];
  }
  h.wheel_height[i] = wheel.height;
  h.wheel_acceleration[i] = wheel.acceleration;
  h.rail_deflection[i] = wheel.rail;
}

void Recorder::operator()(const Wheel& wheel, int i) { keep(wheel, i); }

void Recorder::operator()(const State& state, int i) {
  const int w = passage_->run.reported_wheel;
  double acceleration = per_force_ * (state.force[w] - history_.static_load);
  for (std::size_t k = 0; k < rate_.size(); ++k) {
    acceleration += rate_[k] * state.vehicle.data()[k];
  }
  keep({state.force[w], state.body_force[w], state.vehicle[w], acceleration, state.rail[w]}, i);
  for (std::size_t j = 0; j < forces_.of.size(); ++j) {
    forces_.of[j][static_cast<std::size_t>(i)] = state.force[static_cast<Eigen::Index>(j)];
  }
}

namespace {

// Zero times a number is zero unless the number is not finite; a sum is read in vectors, a search is not.
bool all_finite(const std::vector<double>& values) {
  double none = 0.0;
  const double* v = values.data();
  const auto n = static_cast<std::ptrdiff_t>(values.size());
#pragma omp simd reduction(+ : none)
  for (std::ptrdiff_t i = 0; i < n; ++i) {
    none += 0.0 * v[i];
  }
  return none == 0.0;
}

} // namespace

History Recorder::finish() && {
  for (const std::vector<double>* v : {&history_.force, &history_.wheel_height, &history_.rail_deflection}) {
    if (!all_finite(*v)) {
      throw ComputeError("the motion did not stay finite; shorten the step or check masses and stiffnesses");
    }
  }
  const auto peak = [](const std::vector<double>& force) { return *std::max_element(force.begin(), force.end()); };
  if (forces_.of.empty()) {
    history_.wheel_peaks = {peak(history_.force)};
  }
  for (const std::vector<double>& force : forces_.of) {
    history_.wheel_peaks.push_back(peak(force));
  }
  const std::vector<Stretch>& stretches = passage_->stretches;
  for (std::vector<double>* v : {&history_.wheel_height, &history_.wheel_acceleration, &history_.rail_deflection}) {
    fill_between(*v, stretches);
  }
  fill_force_between(history_.force, stretches);
  for (std::vector<double>& force : history_.body_force) {
    fill_force_between(force, stretches);
  }
  const double start = passage_->start(), along = sense(passage_->run.direction) * passage_->run.speed;
  for (std::size_t i = 0; i < history_.time.size(); ++i) {
    history_.time[i] = static_cast<double>(i) * history_.step;
    history_.station[i] = start + along * history_.time[i];
  }
  history_.events = locate_events(*passage_, history_);
  return std::move(history_);
}

} // namespace wingnose::passage
