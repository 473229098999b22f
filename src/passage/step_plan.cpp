#include "wingnose/passage/step_plan.hpp"

#include "path_cursor.hpp"

#include "wingnose/passage/plan.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace wingnose::passage {
namespace {

// m, fourth difference of a path's height from look to look up to which it is smooth: with some 1.3 GN/m
// between wheel and rail some percent of a usual wheel load. A kink of an angle gives up to twice the angle
// times the length of the step; parabolas give nothing.
constexpr double smooth_height = 2e-6;
// m, to which the bounce after a kink dies away before steps four times as long; a sixteenth of it moves P1, P2 and the
// largest force no less (tests/convergence/study_steps.cpp).
constexpr double settled_height = 16e-6;
// m, by which a body lies below the other where it may begin to carry: the contact's approach under a landing.
constexpr double about_to_carry = 0.2e-3;
// s, in which the bounce of a wheel on its contact dies away to 1/e, by what it loses into the rail.
constexpr double dying = 0.003;
constexpr int least_steps = 8; // fewer long steps in a row are not worth the change
// Paths are looked at every so many samples, however long a long step is: kinks are told from curves that a long step
// follows well by how small a stretch they lie in.
constexpr int samples_of_a_look = 4;

// The wheel over its bodies at a station.
struct Over {
  double height, below; // m, over all bodies; of the other body below the first
};
Over over(const Course& course, PathCursor& cursor, double x) {
  constexpr double none = std::numeric_limits<double>::infinity();
  cursor.move_to(x);
  Over o{-none, none};
  for (std::size_t b = 0; b < course.path->bodies.size(); ++b) {
    const double z = cursor.body<false>(course.path->bodies[b].height, course.law->body[b]).height;
    o = {std::max(o.height, z), std::abs(z - o.height)};
  }
  return o;
}

// Where long steps must not be taken, [look].
class Kinked {
public:
  Kinked(int samples, int samples_of_a_look)
      : marked_(static_cast<std::size_t>(samples / samples_of_a_look), 0), samples_of_a_look_(samples_of_a_look) {}
  [[nodiscard]] int looks() const { return static_cast<int>(marked_.size()); }
  [[nodiscard]] int samples_of_a_look() const { return samples_of_a_look_; }
  [[nodiscard]] bool at(int look) const { return marked_[static_cast<std::size_t>(look)] != 0; }
  void mark(int from, int to) {
    for (int i = std::max(0, from); i < std::min(to, looks()); ++i) {
      marked_[static_cast<std::size_t>(i)] = 1;
    }
  }

private:
  std::vector<char> marked_;
  int samples_of_a_look_;
};

// What wheel w meets.
void mark_kinks(const Passage& passage, int w, Kinked& kinked) {
  const Course& course = passage.plan->courses[w];
  const int long_step = std::max(1, passage.plan->stride / kinked.samples_of_a_look());
  const double look = kinked.samples_of_a_look() * passage.plan->step; // s
  const double length = sense(passage.run.direction) * passage.run.speed * look;
  const int ahead = 4 * long_step; // looks before what is met: what long steps leave unsettled dies away
  // The longer a long step, the smaller a bounce it still follows.
  const double settled_at = settled_height / (long_step * long_step);
  PathCursor cursor(*course.path, interval_at(*course.path, passage.wheel_station(w, passage.start())));
  std::array<double, 5> z{}; // m, heights at the last points
  for (int i = -2; i <= kinked.looks() + 2; ++i) {
    const Over here = over(course, cursor, passage.wheel_station(w, passage.start() + i * length));
    std::rotate(z.begin(), z.begin() + 1, z.end());
    z[4] = here.height;
    if (here.below < about_to_carry) {
      kinked.mark(i - ahead, i + ahead);
    }
    const double bend = std::abs(z[0] - 4.0 * z[1] + 6.0 * z[2] - 4.0 * z[3] + z[4]); // about the point i - 2
    if (i >= 2 && !(bend <= smooth_height)) {
      const double settled = dying * std::log(std::min(bend, 1e-3) / settled_at);
      kinked.mark(i - 2 - ahead, i + ahead + static_cast<int>(std::ceil(settled / look)));
    }
  }
}

void add(std::vector<Stretch>& all, const Stretch& next) {
  if (next.begin == next.end) {
    return;
  }
  if (!all.empty() && all.back().stride == next.stride) {
    all.back().end = next.end;
  } else {
    all.push_back(next);
  }
}

} // namespace

int sample_count(const Passage& passage) {
  const Plan& plan = *passage.plan;
  return static_cast<int>(std::floor((plan.to - plan.from) / (passage.run.speed * plan.step) + 1e-9)) + 1;
}

std::vector<Stretch> step_plan(const Passage& passage) {
  const Plan& plan = *passage.plan;
  const int last = sample_count(passage) - 1, stride = plan.stride;
  if (stride == 1 || passage.run.method != Method::modal_exponential) {
    return {{0, last, 1}};
  }
  const int look = std::min(stride, samples_of_a_look);
  Kinked kinked(last, look);
  for (int w = 0; w < passage.wheels(); ++w) {
    mark_kinks(passage, w, kinked);
  }
  std::vector<Stretch> all;
  for (int at = 0; at < kinked.looks();) {
    int end = at + 1;
    while (end < kinked.looks() && kinked.at(end) == kinked.at(at)) {
      ++end;
    }
    const int long_steps = kinked.at(at) ? 0 : (end - at) * look / stride;
    const int long_end = at * look + (long_steps < least_steps ? 0 : long_steps * stride);
    add(all, {at * look, long_end, stride});
    add(all, {long_end, end * look, 1});
    at = end;
  }
  add(all, {kinked.looks() * look, last, 1});
  return all;
}

std::vector<Stretch> shortened(const std::vector<Stretch>& stretches, int from, int until) {
  std::vector<Stretch> all;
  for (const Stretch& s : stretches) {
    if (s.stride == 1 || s.end <= from || s.begin >= until) {
      add(all, s);
      continue;
    }
    const int begin = std::max(s.begin, from), long_steps = until < s.end ? (s.end - until) / s.stride : 0;
    const int end = s.end - (long_steps < least_steps ? 0 : long_steps * s.stride);
    add(all, {s.begin, begin, s.stride});
    add(all, {begin, end, 1});
    add(all, {end, s.end, s.stride});
  }
  return all;
}

std::vector<Stretch> with_stride(std::vector<Stretch> stretches, int stride) {
  for (Stretch& s : stretches) {
    s.stride = std::min(s.stride, stride);
  }
  return stretches;
}

} // namespace wingnose::passage
