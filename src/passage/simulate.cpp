#include "wingnose/passage/simulate.hpp"

#include "adaptive.hpp"
#include "fixed_places.hpp"
#include "kernels.hpp"
#include "recorder.hpp"
#include "step_loop.hpp"

#include "wingnose/passage/chain_stepper.hpp"
#include "wingnose/passage/exponential_stepper.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <complex>
#include <functional>
#include <numeric>
#include <optional>
#include <utility>
#include <vector>

namespace wingnose::passage {
namespace {

History finished(const Passage& passage, Recorder recorder) {
  if (!passage.run.probes) {
    return std::move(recorder).finish();
  }
  GivenForces forces = recorder.forces();
  History history = std::move(recorder).finish();
  record_fixed_places(passage, std::move(forces), history);
  return history;
}

// Where a force was not smooth over a long step, the passage goes back a little and on in short steps.
template <class Stepper> History step_through(Passage passage) {
  const double step = passage.plan->step;
  Recorder recorder(passage, sample_count(passage));
  State state = initial_state(passage);
  Stepper stepper(passage);
  std::vector<Watch> watch;
  for (const double load : passage.vehicle->model.static_load) {
    watch.emplace_back(load);
  }
  Kept<State> kept;
  int fault = 0; // sample that ends a step that was too long, or none
  double settles = 0.0;
  const auto record = [&](int sample, int stride) {
    for (int w = 0; w < passage.wheels(); ++w) {
      const std::array<bool, 2> carries{state.body_force[w][0] > 0.0, state.body_force[w][1] > 0.0};
      if (const auto lasts = watch[w].step(state.slope[w], carries, stride > 1)) {
        fault = sample;
        settles = std::max(settles, *lasts);
      }
    }
    recorder(state, sample);
    return fault == 0;
  };
  const auto keep = [&](int sample, bool first) { kept.keep(sample, first, state); };
  run_over(passage.stretches, 0, step, stepper, passage, state, record, keep);
  while (fault != 0) {
    const auto& back = kept.before(fault - passage.plan->stride);
    const int from = back.sample;
    state = back.state;
    passage.stretches = shortened(passage.stretches, from, fault + static_cast<int>(settles / step));
    fault = 0;
    settles = 0.0;
    run_over(passage.stretches, from, step, stepper, passage, state, record, keep);
  }
  return finished(passage, std::move(recorder));
}

History integrated(const Passage& passage, int samples) {
  Recorder recorder(passage, samples);
  std::optional<FixedPlaces> places;
  if (passage.run.probes) {
    places.emplace(passage, samples);
  }
  State state = initial_state(passage);
  integrate_adaptive(passage, state, samples, [&](const State& at, int sample) {
    recorder(at, sample);
    if (places) {
      (*places)(at, sample);
    }
  });
  History history = std::move(recorder).finish();
  if (places) {
    std::move(*places).tell(history, passage.stretches);
  }
  return history;
}

} // namespace

History simulate(const Passage& passage) {
  const int samples = sample_count(passage);
  if (samples < 10) {
    throw InputError("passage window", std::to_string(samples) + " steps", "10 or more steps",
                     "Lengthen the window or shorten the step.");
  }
  if (passage.plan->chain) {
    return step_through<ChainStepper>(passage);
  }
  if (passage.run.method == Method::modal_exponential) {
    return step_through<ExponentialStepper>(passage);
  }
  return integrated(passage, samples);
}

History simulate(std::shared_ptr<const Plan> plan, const Run& run) {
  return simulate(make_passage(std::move(plan), run));
}

std::vector<double> moving_load(const StepTable& table, const std::function<double(double)>& force, double from,
                                double speed, int step_count) {
  const track::ModalTrack& track = *table.track;
  AlignedVector y_re(table.modes, 0.0), y_im(table.modes, 0.0), theta_re(table.modes, 0.0), theta_im(table.modes, 0.0);
  const kernels::Modes modes{table.modes, table.decay_re.data(), table.decay_im.data()};
  std::vector<double> deflection;
  deflection.reserve(step_count + 1);
  double last = 0.0; // the load of the step before; theta is still zero before the first
  for (int i = 0; i <= step_count; ++i) {
    const double t = i * table.step;
    const double x = from + speed * t;
    if (x < track.begin() || x > track.end()) {
      throw InputError("moving load", number(x) + " m", number(track.begin()) + " to " + number(track.end()) + " m",
                       "The load must stay on the track.");
    }
    const auto [e, s] = track.place(x);
    const double free = kernels::advance(modes, y_re.data(), y_im.data(), theta_re.data(), theta_im.data(), last,
                                         {table.element_shape_re(e), table.element_shape_im(e), s});
    last = force(t);
    if (i == 0) {
      // The track is at rest when the load appears: z = scale y + lag theta f = 0. Only the residual compliance answers
      // at once.
      for (int k = 0; k < table.modes; ++k) {
        const std::complex<double> scale(table.scale_re[k], table.scale_im[k]), lag(table.lag_re[k], table.lag_im[k]);
        const std::complex<double> y = -lag * std::complex<double>(theta_re[k], theta_im[k]) * last / scale;
        y_re[k] = y.real();
        y_im[k] = y.imag();
      }
    }
    deflection.push_back(i == 0 ? track.residual_at(x) * last : free + table.compliance_at(e, s) * last);
  }
  return deflection;
}

} // namespace wingnose::passage
