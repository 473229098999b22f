// From sample to sample over the stretches of a plan, and back to a step before one that was too long.
#pragma once

#include "wingnose/passage/step_plan.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

namespace wingnose::passage {

// Watches the long steps of a wheel. They stand for forces that are smooth: no contact begins or ends, and no force
// bends within a step by more than a share of its static load (a tenth: a wheel that runs onto a bearer at line speed
// bends it by a thirtieth).
class Watch {
public:
  // static_load: N, of the wheel.
  explicit Watch(double static_load) : most_bend_(0.1 * static_load) {}
  // For how long steps have to be short from here on (s), where the step was too long.
  std::optional<double> step(double slope, std::array<bool, 2> carries, bool is_long) {
    // The first long step follows a slope of short ones, too rough to judge by.
    const bool bends = is_long && was_long_ && std::abs(slope - slope_) > most_bend_;
    const bool changes = is_long && carries != carried_;
    const bool leaves = changes && !(carries[0] && !carried_[0]) && !(carries[1] && !carried_[1]);
    carried_ = carries;
    slope_ = slope;
    was_long_ = is_long;
    return bends || changes ? std::optional(leaves ? of_leaving : of_bouncing) : std::nullopt;
  }

private:
  // s; a wheel bounces on what it meets, and leaves a body smoothly.
  static constexpr double of_bouncing = 0.006, of_leaving = 0.002;
  double most_bend_, slope_ = 0.0;
  std::array<bool, 2> carried_{};
  bool was_long_ = false;
};

// Motions to go back to, of one stretch of long steps: the last two.
template <class Moving> class Kept {
public:
  struct At {
    int sample = 0;
    Moving state;
  };
  static constexpr int every = 8; // long steps
  // first: in its stretch.
  void keep(int sample, bool first, const Moving& state) {
    older_.swap(newer_);
    if (first) {
      older_.reset();
    }
    if (newer_) {
      newer_->sample = sample;
      newer_->state = state;
    } else {
      newer_ = At{sample, state};
    }
  }
  // Before the long step that begins at `begin`; a step or more before it, where its stretch does not begin there.
  [[nodiscard]] const At& before(int begin) const { return newer_->sample == begin && older_ ? *older_ : *newer_; }

private:
  std::optional<At> older_, newer_;
};

// From sample `from`, the end of a step, to the last. record(sample, length of the step in samples): there and after
// every step, until it says no; keep(sample, first of its stretch): before some long steps.
template <class Stepper, class System, class Moving, class Record, class Keep>
void run_over(const std::vector<Stretch>& stretches, int from, double step, Stepper& stepper, const System& system,
              Moving& state, const Record& record, const Keep& keep) {
  if (!record(from, 0)) {
    return;
  }
  for (const Stretch& stretch : stretches) {
    const double dt = stretch.stride * step;
    for (int i = std::max(from, stretch.begin); i < stretch.end; i += stretch.stride) {
      if (stretch.stride > 1 && (i - stretch.begin) % (Kept<Moving>::every * stretch.stride) == 0) {
        keep(i, i == stretch.begin);
      }
      stepper.do_step(system, state, i * step, dt);
      if (!record(i + stretch.stride, stretch.stride)) {
        return;
      }
    }
  }
}

} // namespace wingnose::passage
