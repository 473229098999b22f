#include "recorder.hpp"

#include "between_knots.hpp"
#include "kernels.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <complex>

namespace wingnose::passage {
namespace {

using Complex = std::complex<double>;

Folded folded(const StepTable& t, const std::vector<Complex>& shape, int wheels) {
  Folded p;
  for (AlignedVector* v : {&p.scale_re, &p.scale_im, &p.lag_re, &p.lag_im}) {
    v->assign(t.modes, 0.0);
  }
  for (int k = 0; k < t.modes; ++k) {
    const Complex scale = shape[k] * Complex(t.scale_re[k], t.scale_im[k]);
    const Complex lag = shape[k] * Complex(t.lag_re[k], t.lag_im[k]);
    p.scale_re[k] = scale.real();
    p.scale_im[k] = scale.imag();
    p.lag_re[k] = lag.real();
    p.lag_im[k] = lag.imag();
  }
  p.lag.resize(wheels);
  return p;
}

std::array<Folded, 2> folded(const Plan& plan, const std::vector<Complex>& shape) {
  return {folded(*plan.steps, shape, plan.wheels()),
          plan.long_steps ? folded(*plan.long_steps, shape, plan.wheels()) : Folded{}};
}

} // namespace

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
  h.wheel_peaks.assign(passage.wheels(), 0.0);
  // Forces of all wheels enter through the inverse mass, which couples none of them: each wheel is its own coordinate.
  const Eigen::Index own = vehicle.model.K.rows() + run.reported_wheel;
  rate_.reserve(static_cast<std::size_t>(vehicle.step.rate.cols()));
  for (Eigen::Index k = 0; k < vehicle.step.rate.cols(); ++k) {
    rate_.push_back(vehicle.step.rate(own, k));
  }
  per_force_ = vehicle.step.rate_input(own, run.reported_wheel);
  if (run.probes) {
    place_probes(samples);
    watch_.emplace(passage, samples);
  }
}

void Recorder::place_probes(int samples) {
  const Plan& plan = *passage_->plan;
  History& h = history_;
  h.rail_probe_station = passage_->run.probe_station.value_or(0.5 * (plan.from + plan.to));
  const std::vector<double>& seats = plan.chain ? plan.chain->seat : plan.track->assembly.seat_station;
  const auto nearest = std::min_element(seats.begin(), seats.end(), [&](double a, double b) {
    return std::abs(a - h.rail_probe_station) < std::abs(b - h.rail_probe_station);
  });
  h.bearer_probe_station = *nearest;
  probes_.resize(2);
  for (Probe& probe : probes_) {
    probe.deflection.assign(samples, 0.0);
  }
  if (plan.chain) {
    bearer_probe_ = static_cast<int>(nearest - seats.begin());
    rail_probe_ = track::chain::rail_point(*plan.chain, plan.rail, h.rail_probe_station);
    return;
  }
  const track::ModalTrack& m = *plan.track;
  const std::size_t row = static_cast<std::size_t>(nearest - seats.begin()) * m.padded;
  std::vector<Complex> shape(m.padded);
  for (int k = 0; k < m.padded; ++k) {
    shape[k] = {m.bearer_re[row + k], m.bearer_im[row + k]};
  }
  probes_[0].over = folded(plan, m.shapes(h.rail_probe_station));
  probes_[1].over = folded(plan, shape);
}

// w = Re sum p z with z = scale y + lag theta f.
void Recorder::record_probes(const State& state, int sample) {
  if (state.motion) {
    const track::chain::Chain& chain = *passage_->plan->chain;
    probes_[0].deflection[sample] = track::chain::rail_deflection(chain, *state.motion, rail_probe_);
    probes_[1].deflection[sample] =
        track::chain::seat_deflection(chain, *state.motion, bearer_probe_, passage_->plan->rail);
    return;
  }
  const StepTable& table = state.long_step ? *passage_->plan->long_steps : *passage_->plan->steps;
  const std::array<Folded*, 2> over{&probes_[0].over[state.long_step ? 1 : 0],
                                    &probes_[1].over[state.long_step ? 1 : 0]};
  const std::vector<double>& node = passage_->plan->track->assembly.node;
  const std::array<double, 2> modal =
      kernels::probe_pair(table.modes, state.y_re.data(), state.y_im.data(), over[0]->scale_re.data(),
                          over[0]->scale_im.data(), over[1]->scale_re.data(), over[1]->scale_im.data());
  for (std::size_t i = 0; i < probes_.size(); ++i) {
    double w = modal[i];
    for (int j = 0; j < passage_->wheels(); ++j) {
      Folded::Lag& lag = over[i]->lag[j];
      const int e = state.element[j];
      if (lag.element != e) {
        lag.element = e;
        for (int power = 0; power < 4; ++power) {
          lag.c[power] = kernels::dot(table.modes, table.element_shape_re(e) + power * table.modes,
                                      table.element_shape_im(e) + power * table.modes, over[i]->lag_re.data(),
                                      over[i]->lag_im.data());
        }
      }
      const double s = (passage_->wheel_station(j, state.station) - node[e]) / (node[e + 1] - node[e]);
      w += state.force[j] * track::shape_at(lag.c.data(), 1, 0, s);
    }
    probes_[i].deflection[sample] = w;
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

void Recorder::operator()(const Wheel& wheel, int i) {
  keep(wheel, i);
  history_.wheel_peaks[0] = std::max(history_.wheel_peaks[0], wheel.force);
}

void Recorder::operator()(const State& state, int i) {
  const int w = passage_->run.reported_wheel;
  double acceleration = per_force_ * (state.force[w] - history_.static_load);
  for (std::size_t k = 0; k < rate_.size(); ++k) {
    acceleration += rate_[k] * state.vehicle.data()[k];
  }
  keep({state.force[w], state.body_force[w], state.vehicle[w], acceleration, state.rail[w]}, i);
  for (int j = 0; j < passage_->wheels(); ++j) {
    history_.wheel_peaks[j] = std::max(history_.wheel_peaks[j], state.force[j]);
  }
  if (!probes_.empty()) {
    record_probes(state, i);
  }
  if (watch_) {
    (*watch_)(state, i);
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
  if (!probes_.empty()) {
    history_.rail_acceleration = acceleration(probes_[0].deflection, history_.step, stretches);
    history_.bearer_acceleration = acceleration(probes_[1].deflection, history_.step, stretches);
  }
  if (watch_) {
    history_.track = std::move(*watch_).finish();
  }
  history_.events = locate_events(*passage_, history_);
  return std::move(history_);
}

} // namespace wingnose::passage
