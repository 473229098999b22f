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

// Watches the long steps of a wheel. They stand for forces that are smooth: no contact begins or ends, and no force
// bends within a step by more than a share of its static load (a tenth: a wheel that runs onto a bearer at line speed
// bends it by a thirtieth).
class Watch {
public:
  // static_load: N, of the wheel.
  explicit Watch(double static_load) : most_bend_(0.1 * static_load) {}
  void step(double slope, std::array<bool, 2> carries, bool is_long) {
    // The first long step follows a slope of short ones, too rough to judge by.
    const bool bends = was_long_ && std::abs(slope - slope_) > most_bend_;
    smooth_ = smooth_ && !(is_long && (bends || carries != carried_));
    carried_ = carries;
    slope_ = slope;
    was_long_ = is_long;
  }
  [[nodiscard]] bool smooth() const { return smooth_; }

private:
  double most_bend_, slope_ = 0.0;
  std::array<bool, 2> carried_{};
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
  std::vector<Watch> watch;
  for (const double load : passage.vehicle->model.static_load) {
    watch.emplace_back(load);
  }
  bool smooth = true;
  run_over(passage.stretches, passage.plan->step, stepper, passage, state, [&](int sample, bool is_long) {
    for (int w = 0; w < passage.wheels(); ++w) {
      watch[w].step(state.slope[w], {state.body_force[w][0] > 0.0, state.body_force[w][1] > 0.0}, is_long);
      smooth = smooth && watch[w].smooth();
    }
    recorder(state, sample);
    return smooth;
  });
  return smooth ? std::optional(std::move(recorder).finish()) : std::nullopt;
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

// What a batch tells at the ends of its steps, kept side by side as it comes: eight histories written step by step
// would fill the processor's cache.
class BatchRecord {
public:
  BatchRecord(std::span<const Passage> passages, std::size_t width) : width_(width) {
    knots_ = 1;
    for (const Stretch& stretch : passages.front().stretches) {
      knots_ += static_cast<std::size_t>((stretch.end - stretch.begin) / stretch.stride);
    }
    motions_ = static_cast<std::size_t>(passages.front().vehicle->step.rate.cols());
    rate_.assign(motions_ * width, 0.0);
    rows_.resize(knots_ * fields * width);
    for (std::size_t j = 0; j < passages.size(); ++j) {
      const RunningVehicle& vehicle = *passages[j].vehicle;
      const Eigen::Index own = vehicle.model.K.rows();
      for (std::size_t k = 0; k < motions_; ++k) {
        rate_[k * width + j] = vehicle.step.rate(own, static_cast<Eigen::Index>(k));
      }
      per_force_[j] = vehicle.step.rate_input(own, 0);
      static_load_[j] = vehicle.model.static_load[0];
      watch_.emplace_back(static_load_[j]);
    }
  }
  // Whether the forces of any case have been smooth so far.
  bool step(const BatchState& state, bool is_long) {
    double* row = rows_.data() + next_++ * fields * width_;
    for (std::size_t j = 0; j < width_; ++j) {
      row[j] = state.force[j];
      row[width_ + j] = state.body_force[0][j];
      row[2 * width_ + j] = state.body_force[1][j];
      row[3 * width_ + j] = state.vehicle[j];
      row[4 * width_ + j] = per_force_[j] * (state.force[j] - static_load_[j]);
      row[5 * width_ + j] = state.rail[j];
    }
    for (std::size_t k = 0; k < motions_; ++k) {
      for (std::size_t j = 0; j < width_; ++j) {
        row[4 * width_ + j] += rate_[k * width_ + j] * state.vehicle[k * width_ + j];
      }
    }
    bool any = false;
    for (std::size_t j = 0; j < watch_.size(); ++j) {
      watch_[j].step(state.slope[j], {state.body_force[0][j] > 0.0, state.body_force[1][j] > 0.0}, is_long);
      any = any || watch_[j].smooth();
    }
    return any;
  }
  [[nodiscard]] bool smooth(std::size_t lane) const { return watch_[lane].smooth(); }
  [[nodiscard]] History history(const Passage& passage, std::size_t lane) const {
    Recorder recorder(passage, sample_count(passage));
    const double* row = rows_.data() + lane;
    const auto put = [&](int sample) {
      recorder(
          Recorder::Wheel{row[0], {row[width_], row[2 * width_]}, row[3 * width_], row[4 * width_], row[5 * width_]},
          sample);
      row += fields * width_;
    };
    put(0);
    for (const Stretch& stretch : passage.stretches) {
      for (int i = stretch.begin; i < stretch.end; i += stretch.stride) {
        put(i + stretch.stride);
      }
    }
    return std::move(recorder).finish();
  }

private:
  static constexpr std::size_t fields = 6;
  std::size_t width_, knots_ = 0, motions_ = 0, next_ = 0;
  AlignedVector rows_, rate_; // [knot][field][width], [motion][width]
  BatchState::PerLane<double> per_force_{}, static_load_{};
  std::vector<Watch> watch_;
};

// Up to eight passages, by index, of one plan of steps; nothing for those whose forces were not smooth over a long
// step.
void step_together(std::span<const Passage> passages, const std::vector<std::size_t>& taken,
                   std::vector<std::optional<History>>& found) {
  std::vector<Passage> group;
  group.reserve(taken.size());
  for (const std::size_t i : taken) {
    group.push_back(passages[i]);
  }
  BatchState state(group);
  BatchStepper stepper(group);
  BatchRecord record(group, state.width);
  run_over(group.front().stretches, group.front().plan->step, stepper, std::span<const Passage>(group), state,
           [&](int, bool is_long) { return record.step(state, is_long); });
  for (std::size_t j = 0; j < taken.size(); ++j) {
    if (record.smooth(j)) {
      found[taken[j]] = record.history(group[j], j);
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
