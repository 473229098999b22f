#include "wingnose/passage/simulate.hpp"

#include "adaptive.hpp"
#include "kernels.hpp"
#include "recorder.hpp"

#include "wingnose/passage/chain_stepper.hpp"
#include "wingnose/passage/exponential_stepper.hpp"
#include "wingnose/words/error.hpp"

#include <boost/numeric/odeint/integrate/integrate_n_steps.hpp>

#include <algorithm>
#include <complex>
#include <functional>
#include <vector>

namespace wingnose::passage {

History simulate(const Passage& passage) {
  const int samples = sample_count(passage);
  if (samples < 10) {
    throw InputError("passage window", std::to_string(samples) + " steps", "10 or more steps",
                     "Lengthen the window or shorten the step.");
  }
  Recorder recorder(passage, samples);
  State state = initial_state(passage);
  if (passage.plan->chain) {
    ChainStepper stepper(passage);
    boost::numeric::odeint::integrate_n_steps(std::ref(stepper), std::cref(passage), state, 0.0, passage.plan->step,
                                              samples - 1, std::ref(recorder));
  } else if (passage.run.method == Method::modal_exponential) {
    ExponentialStepper stepper(passage);
    boost::numeric::odeint::integrate_n_steps(std::ref(stepper), std::cref(passage), state, 0.0, passage.plan->step,
                                              samples - 1, std::ref(recorder));
  } else {
    integrate_adaptive(passage, state, samples, recorder);
  }
  return std::move(recorder).finish();
}

History simulate(std::shared_ptr<const Plan> plan, const Run& run) {
  return simulate(make_passage(std::move(plan), run));
}

namespace {

void check_batch(std::span<const Passage> passages) {
  const Plan& first = *passages.front().plan;
  const Run& move = passages.front().run;
  for (const Passage& passage : passages) {
    const Plan& plan = *passage.plan;
    const Run& run = passage.run;
    const bool shared = plan.steps && plan.steps == first.steps && run.speed == move.speed &&
                        run.direction == move.direction && plan.from == first.from && plan.to == first.to &&
                        run.method == Method::modal_exponential;
    if (!shared || passage.wheels() != 1 || run.probes || plan.courses[0].search) {
      throw InputError("batch of passages",
                       shared ? "several wheels, probes or contact searched at every step"
                              : "different track, step, speed or window",
                       "one wheel each, no probes, the law of contact along the path, everything but path and vehicle "
                       "in common",
                       "Run such cases one by one.");
    }
  }
}

} // namespace

std::vector<History> simulate_batch(std::span<const Passage> passages) {
  std::vector<History> histories;
  if (passages.empty()) {
    return histories;
  }
  check_batch(passages);
  histories.reserve(passages.size());
  const int samples = sample_count(passages.front());
  for (std::size_t begin = 0; begin < passages.size(); begin += BatchState::lanes) {
    const std::span<const Passage> group =
        passages.subspan(begin, std::min(BatchState::lanes, passages.size() - begin));
    std::vector<Recorder> recorders;
    for (const Passage& passage : group) {
      recorders.emplace_back(passage, samples);
    }
    BatchState state(group);
    BatchStepper stepper(group);
    boost::numeric::odeint::integrate_n_steps(std::ref(stepper), group, state, 0.0, group.front().plan->steps->step,
                                              samples - 1, [&](const BatchState& batch, double t) {
                                                for (std::size_t j = 0; j < recorders.size(); ++j) {
                                                  recorders[j](batch.cases[j], t);
                                                }
                                              });
    for (Recorder& recorder : recorders) {
      histories.push_back(std::move(recorder).finish());
    }
  }
  return histories;
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
