#include "fixed_places.hpp"

#include "between_knots.hpp"
#include "kernels.hpp"
#include "step_loop.hpp"

#include "wingnose/passage/chain_stepper.hpp"
#include "wingnose/passage/exponential_stepper.hpp"

#include <algorithm>
#include <cmath>
#include <complex>
#include <utility>

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

// The same passage in steps for the record. Modes are stepped shortly throughout; a chain, where a step costs more, as
// long as its filters allow.
Passage for_record(const Passage& passage) {
  Plan plan = *passage.plan;
  plan.stride = plan.chain ? std::min(plan.stride, stride_within(passage.run.longest_record, plan.step)) : 1;
  while (passage.plan->stride % plan.stride != 0) {
    --plan.stride;
  }
  plan.long_steps = nullptr;
  if (plan.stride == 1) {
    plan.long_chain_steps = nullptr;
  } else if (plan.stride != passage.plan->stride) {
    plan.long_chain_steps = std::make_shared<const track::chain::StepFactor>(
        track::chain::step_factor(*plan.chain, plan.stride * plan.step));
  }
  Passage again = passage;
  again.vehicle = running(passage.vehicle->model, plan.step, plan.stride);
  again.stretches = with_stride(passage.stretches, plan.stride);
  again.plan = std::make_shared<const Plan>(std::move(plan));
  return again;
}

template <class Stepper> void follow(const Passage& passage, const GivenForces& forces, FixedPlaces& places) {
  State state = initial_state(passage);
  Stepper stepper(passage, &forces);
  const auto look = [&](int sample, int) {
    places(state, sample);
    return true;
  };
  run_over(passage.stretches, 0, passage.plan->step, stepper, passage, state, look, [](int, bool) {});
}

} // namespace

FixedPlaces::FixedPlaces(const Passage& passage, int samples)
    : passage_(&passage),
      rail_station_(passage.run.probe_station.value_or(0.5 * (passage.plan->from + passage.plan->to))),
      watch_(passage, samples) {
  const Plan& plan = *passage.plan;
  const std::vector<double>& seats = plan.chain ? plan.chain->seat : plan.track->assembly.seat_station;
  const auto nearest = std::min_element(seats.begin(), seats.end(), [&](double a, double b) {
    return std::abs(a - rail_station_) < std::abs(b - rail_station_);
  });
  bearer_station_ = *nearest;
  for (Probe& probe : probes_) {
    probe.deflection.assign(samples, 0.0);
  }
  if (plan.chain) {
    bearer_probe_ = static_cast<int>(nearest - seats.begin());
    rail_probe_ = track::chain::rail_point(*plan.chain, plan.rail, rail_station_);
    return;
  }
  const track::ModalTrack& m = *plan.track;
  const std::size_t row = static_cast<std::size_t>(nearest - seats.begin()) * m.padded;
  std::vector<Complex> shape(m.padded);
  for (int k = 0; k < m.padded; ++k) {
    shape[k] = {m.bearer_re[row + k], m.bearer_im[row + k]};
  }
  probes_[0].over = folded(*plan.steps, m.shapes(rail_station_), plan.wheels());
  probes_[1].over = folded(*plan.steps, shape, plan.wheels());
}

void FixedPlaces::operator()(const State& state, int sample) {
  look_at_probes(state, sample);
  watch_(state, sample);
}

// w = Re sum p z with z = scale y + lag theta f.
void FixedPlaces::look_at_probes(const State& state, int sample) {
  if (state.motion) {
    const track::chain::Chain& chain = *passage_->plan->chain;
    probes_[0].deflection[sample] = track::chain::rail_deflection(chain, *state.motion, rail_probe_);
    probes_[1].deflection[sample] =
        track::chain::seat_deflection(chain, *state.motion, bearer_probe_, passage_->plan->rail);
    return;
  }
  const StepTable& table = *passage_->plan->steps;
  const std::array<Folded*, 2> over{&probes_[0].over, &probes_[1].over};
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

void FixedPlaces::tell(History& history, std::span<const Stretch> stretches) && {
  history.rail_probe_station = rail_station_;
  history.bearer_probe_station = bearer_station_;
  history.rail_acceleration = acceleration(probes_[0].deflection, history.step, stretches);
  history.bearer_acceleration = acceleration(probes_[1].deflection, history.step, stretches);
  history.track = std::move(watch_).finish();
}

void record_fixed_places(const Passage& passage, GivenForces forces, History& history) {
  for (std::vector<double>& force : forces.of) {
    fill_force_between(force, passage.stretches);
  }
  const Passage again = for_record(passage);
  FixedPlaces places(again, sample_count(again));
  if (again.plan->chain) {
    follow<ChainStepper>(again, forces, places);
  } else {
    follow<ExponentialStepper>(again, forces, places);
  }
  std::move(places).tell(history, again.stretches);
}

} // namespace wingnose::passage
