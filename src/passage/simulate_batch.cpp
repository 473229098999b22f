#include "recorder.hpp"
#include "step_loop.hpp"

#include "wingnose/passage/exponential_stepper.hpp"
#include "wingnose/passage/simulate.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <utility>
#include <vector>

namespace wingnose::passage {
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
    }
  }
  // One lane of another, of the same passage in other steps after the first so many rows.
  BatchRecord(const Passage& passage, const BatchRecord& other, std::size_t lane, std::size_t rows)
      : BatchRecord({&passage, 1}, 1) {
    for (; next_ < rows; ++next_) {
      for (std::size_t field = 0; field < fields; ++field) {
        rows_[next_ * fields + field] = other.rows_[(next_ * fields + field) * other.width_ + lane];
      }
    }
  }
  [[nodiscard]] std::size_t rows() const { return next_; }
  void step(const BatchState& state) {
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
  }
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
};

Passage in_steps(Passage passage, std::vector<Stretch> stretches) {
  passage.stretches = std::move(stretches);
  return passage;
}

// Samples that end a step before `sample`, the first one with them.
std::size_t ends_before(const std::vector<Stretch>& stretches, int sample) {
  int count = 0;
  for (const Stretch& s : stretches) {
    count += (std::clamp(sample, s.begin, s.end) - s.begin) / s.stride;
  }
  return static_cast<std::size_t>(count);
}

// Passages of one plan of steps side by side, up to eight, from a sample on.
struct Leg {
  Leg(std::vector<Passage> passages, std::vector<std::size_t> indices)
      : group(std::move(passages)), which(std::move(indices)), state(group), record(group, state.width) {}
  // Lane `lane` of another alone, from a motion kept at a sample, in other steps from there.
  Leg(const Leg& other, std::size_t lane, const Kept<BatchState>::At& kept, std::vector<Stretch> stretches)
      : group{in_steps(other.group[lane], std::move(stretches))}, which{other.which[lane]}, state(kept.state, lane),
        record(group[0], other.record, lane, ends_before(group[0].stretches, kept.sample)), from(kept.sample) {}
  std::vector<Passage> group;
  std::vector<std::size_t> which; // passages of the batch, by index
  BatchState state;
  BatchRecord record;
  int from = 0;
};

// To the end. Where the force of a case was not smooth over a long step, a leg of its own from a little before is added
// to `left`, in short steps at first.
void run_leg(Leg leg, std::vector<Leg>& left, std::vector<std::optional<History>>& found) {
  const Plan& plan = *leg.group.front().plan;
  BatchStepper stepper(leg.group);
  Kept<BatchState> kept;
  std::vector<Watch> watch;
  for (const Passage& passage : leg.group) {
    watch.emplace_back(passage.vehicle->model.static_load[0]);
  }
  std::vector<char> goes_on(leg.group.size(), 1);
  const auto look = [&](std::size_t j, int sample, int stride) {
    const BatchState& now = leg.state;
    const auto lasts =
        watch[j].step(now.slope[j], {now.body_force[0][j] > 0.0, now.body_force[1][j] > 0.0}, stride > 1);
    if (lasts) {
      const auto& back = kept.before(sample - stride);
      const int until = sample + static_cast<int>(*lasts / plan.step);
      left.emplace_back(leg, j, back, shortened(leg.group[j].stretches, back.sample, until));
      goes_on[j] = 0;
    }
  };
  run_over(
      leg.group.front().stretches, leg.from, plan.step, stepper, std::span<const Passage>(leg.group), leg.state,
      [&](int sample, int stride) {
        leg.record.step(leg.state);
        for (std::size_t j = 0; j < goes_on.size(); ++j) {
          if (goes_on[j] != 0) {
            look(j, sample, stride);
          }
        }
        return std::count(goes_on.begin(), goes_on.end(), 1) > 0;
      },
      [&](int sample, bool first) { kept.keep(sample, first, leg.state); });
  for (std::size_t j = 0; j < goes_on.size(); ++j) {
    if (goes_on[j] != 0) {
      found[leg.which[j]] = leg.record.history(leg.group[j], j);
    }
  }
}

// Eight lanes take as long as this many passages alone, which have the same bits.
constexpr std::size_t worth_a_batch = 6;

// Those of one plan of steps together, as they come.
std::vector<Leg> legs_of(std::span<const Passage> passages) {
  std::vector<Leg> legs;
  std::vector<char> taken(passages.size(), 0);
  for (std::size_t first = 0; first < passages.size(); ++first) {
    std::vector<std::size_t> which;
    for (std::size_t i = first; i < passages.size() && which.size() < BatchState::lanes; ++i) {
      if (taken[i] == 0 && passages[i].stretches == passages[first].stretches && taken[first] == 0) {
        which.push_back(i);
      }
    }
    for (const std::size_t i : which) {
      taken[i] = 1;
      if (which.size() < worth_a_batch) {
        legs.emplace_back(std::vector<Passage>{passages[i]}, std::vector<std::size_t>{i});
      }
    }
    if (which.size() >= worth_a_batch) {
      std::vector<Passage> group;
      group.reserve(which.size());
      for (const std::size_t i : which) {
        group.push_back(passages[i]);
      }
      legs.emplace_back(std::move(group), std::move(which));
    }
  }
  return legs;
}

} // namespace

std::vector<History> simulate_batch(std::span<const Passage> passages) {
  if (passages.empty()) {
    return {};
  }
  check_batch(passages);
  std::vector<std::optional<History>> found(passages.size());
  for (std::vector<Leg> legs = legs_of(passages); !legs.empty();) {
    Leg leg = std::move(legs.back());
    legs.pop_back();
    run_leg(std::move(leg), legs, found);
  }
  std::vector<History> histories;
  histories.reserve(found.size());
  for (std::optional<History>& history : found) {
    histories.push_back(*std::move(history));
  }
  return histories;
}

} // namespace wingnose::passage
