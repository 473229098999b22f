#include "wingnose/passage/simulate.hpp"

#include "adaptive.hpp"
#include "kernels.hpp"
#include "recorder.hpp"

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

// Watches long steps. They stand for forces that are smooth: no contact begins or ends, and no force bends within a
// step by more than a share of its static load (a tenth: a wheel that runs onto a bearer at line speed bends it by a
// thirtieth).
class Watch {
public:
  explicit Watch(const Passage& passage) : passage_(&passage), slope_(passage.wheels()), carried_(passage.wheels()) {}
  void step(const State& state, bool is_long) {
    for (int w = 0; w < passage_->wheels(); ++w) {
      const std::array<bool, 2> carries{state.body_force[w][0] > 0.0, state.body_force[w][1] > 0.0};
      // The first long step follows a slope of short ones, too rough to judge by.
      const bool bends =
          was_long_ && std::abs(state.slope[w] - slope_[w]) > most_bend * passage_->vehicle->model.static_load[w];
      smooth_ = smooth_ && !(is_long && (bends || carries != carried_[w]));
      carried_[w] = carries;
      slope_[w] = state.slope[w];
    }
    was_long_ = is_long;
  }
  [[nodiscard]] bool smooth() const { return smooth_; }

private:
  static constexpr double most_bend = 0.1;
  const Passage* passage_;
  std::vector<double> slope_;
  std::vector<std::array<bool, 2>> carried_;
  bool smooth_ = true, was_long_ = false;
};

// The same passage, watched more closely.
Passage more_careful(Passage passage, Caution caution) {
  passage.stretches = step_plan(passage, caution);
  return passage;
}
Caution next(Caution caution) { return caution == Caution::usual ? Caution::flights : Caution::short_steps; }

// From the first to the last sample; record(sample, after a long step) at the first and after every step, until it says
// no.
template <class Stepper, class System, class Moving, class Record>
void run_over(const std::vector<Stretch>& stretches, double step, Stepper& stepper, const System& system, Moving& state,
              const Record& record) {
  if (!record(0, false)) {
    return;
  }
  for (const Stretch& stretch : stretches) {
    const double dt = stretch.stride * step;
    for (int i = stretch.begin; i < stretch.end; i += stretch.stride) {
      stepper.do_step(system, state, i * step, dt);
      if (!record(i + stretch.stride, stretch.stride > 1)) {
        return;
      }
    }
  }
}

// Nothing where a force was not smooth over a long step.
template <class Stepper> std::optional<History> step_through(const Passage& passage) {
  Recorder recorder(passage, sample_count(passage));
  State state = initial_state(passage);
  Stepper stepper(passage);
  Watch watch(passage);
  run_over(passage.stretches, passage.plan->step, stepper, passage, state, [&](int sample, bool is_long) {
    watch.step(state, is_long);
    recorder(state, sample);
    return watch.smooth();
  });
  return watch.smooth() ? std::optional(std::move(recorder).finish()) : std::nullopt;
}

template <class Stepper> History step_until_smooth(const Passage& passage) {
  std::optional<History> history = step_through<Stepper>(passage);
  for (Caution caution = Caution::usual; !history;) {
    caution = next(caution);
    history = step_through<Stepper>(more_careful(passage, caution));
  }
  return *std::move(history);
}

} // namespace

History simulate(const Passage& passage) {
  const int samples = sample_count(passage);
  if (samples < 10) {
    throw InputError("passage window", std::to_string(samples) + " steps", "10 or more steps",
                     "Lengthen the window or shorten the step.");
  }
  if (passage.plan->chain) {
    return step_until_smooth<ChainStepper>(passage);
  }
  if (passage.run.method == Method::modal_exponential) {
    return step_until_smooth<ExponentialStepper>(passage);
  }
  Recorder recorder(passage, samples);
  State state = initial_state(passage);
  integrate_adaptive(passage, state, samples, recorder);
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
    const bool shared = plan.steps && plan.steps == first.steps && plan.stride == first.stride &&
                        plan.long_steps == first.long_steps && run.speed == move.speed &&
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

// Up to eight passages, by index, of one plan of steps; nothing for those whose forces were not smooth over a long
// step.
void step_together(std::span<const Passage> passages, const std::vector<std::size_t>& taken,
                   std::vector<std::optional<History>>& found) {
  std::vector<Passage> group;
  std::vector<Recorder> recorders;
  std::vector<Watch> watch;
  group.reserve(taken.size()); // recorders keep their passage's place
  for (const std::size_t i : taken) {
    group.push_back(passages[i]);
    recorders.emplace_back(group.back(), sample_count(group.back()));
    watch.emplace_back(group.back());
  }
  BatchState state(group);
  BatchStepper stepper(group);
  run_over(group.front().stretches, group.front().plan->step, stepper, std::span<const Passage>(group), state,
           [&](int sample, bool is_long) {
             for (std::size_t j = 0; j < recorders.size(); ++j) {
               watch[j].step(state.cases[j], is_long);
               recorders[j](state.cases[j], sample);
             }
             return true;
           });
  for (std::size_t j = 0; j < taken.size(); ++j) {
    if (watch[j].smooth()) {
      found[taken[j]] = std::move(recorders[j]).finish();
    }
  }
}

// Eight lanes take as long as this many passages alone, which have the same bits.
constexpr std::size_t worth_a_batch = 6;

// Those of one plan of steps together, as they come; then those whose forces were not smooth, with more caution.
std::vector<History> simulate_batch(std::span<const Passage> passages, Caution caution) {
  std::vector<std::optional<History>> found(passages.size());
  std::vector<std::size_t> waiting(passages.size());
  std::iota(waiting.begin(), waiting.end(), std::size_t{0});
  while (!waiting.empty()) {
    std::vector<std::size_t> taken, left;
    for (const std::size_t i : waiting) {
      const bool fits =
          taken.size() < BatchState::lanes && passages[i].stretches == passages[waiting.front()].stretches;
      (fits ? taken : left).push_back(i);
    }
    if (taken.size() >= worth_a_batch) {
      step_together(passages, taken, found);
    } else {
      for (const std::size_t i : taken) {
        step_together(passages, {i}, found);
      }
    }
    waiting = std::move(left);
  }
  std::vector<Passage> again;
  for (std::size_t i = 0; i < found.size(); ++i) {
    if (!found[i]) {
      again.push_back(more_careful(passages[i], next(caution)));
    }
  }
  std::vector<History> redone = again.empty() ? std::vector<History>{} : simulate_batch(again, next(caution));
  std::vector<History> histories;
  histories.reserve(found.size());
  auto taken_again = redone.begin();
  for (std::optional<History>& history : found) {
    histories.push_back(history ? *std::move(history) : std::move(*taken_again++));
  }
  return histories;
}

} // namespace

std::vector<History> simulate_batch(std::span<const Passage> passages) {
  if (passages.empty()) {
    return {};
  }
  check_batch(passages);
  return simulate_batch(passages, Caution::usual);
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
