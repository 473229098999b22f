#include "wingnose/passage/step_plan.hpp"

#include "path_cursor.hpp"

#include "wingnose/passage/plan.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace wingnose::passage {
namespace {

// m, fourth difference of a path's height from long step to long step up to which it is smooth: with some 1.3 GN/m
// between wheel and rail some percent of a usual wheel load. A kink of an angle gives up to twice the angle
// times the length of the step; parabolas give nothing.
constexpr double smooth_height = 1e-6;
// m, by which a body lies below the other where it may begin to carry: the contact's approach under a landing.
constexpr double about_to_carry = 0.2e-3;
// s, in which the bounce of a wheel on its contact dies away to 1/e, by what it loses into the rail; at first, and
// where a wheel may have flown.
constexpr double dying = 0.003, dying_of_flights = 0.012;
constexpr int least_steps = 8; // fewer long steps in a row are not worth the change

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

// Long steps that must not be taken, [step].
class Kinked {
public:
  explicit Kinked(int steps) : marked_(static_cast<std::size_t>(steps), 0) {}
  [[nodiscard]] int steps() const { return static_cast<int>(marked_.size()); }
  [[nodiscard]] bool at(int step) const { return marked_[static_cast<std::size_t>(step)] != 0; }
  void mark(int from, int to) {
    for (int i = std::max(0, from); i < std::min(to, steps()); ++i) {
      marked_[static_cast<std::size_t>(i)] = 1;
    }
  }

private:
  std::vector<char> marked_;
};

// What wheel w meets; long_step, dying_away: s.
void mark_kinks(const Passage& passage, int w, double long_step, double dying_away, Kinked& kinked) {
  const Course& course = passage.plan->courses[w];
  const double length = sense(passage.run.direction) * passage.run.speed * long_step;
  constexpr int ahead = 4; // steps before what is met
  PathCursor cursor(*course.path, interval_at(*course.path, passage.wheel_station(w, passage.start())));
  std::array<double, 5> z{}; // m, heights at the last points
  for (int i = -2; i <= kinked.steps() + 2; ++i) {
    const Over here = over(course, cursor, passage.wheel_station(w, passage.start() + i * length));
    std::rotate(z.begin(), z.begin() + 1, z.end());
    z[4] = here.height;
    if (here.below < about_to_carry) {
      kinked.mark(i - ahead, i + ahead);
    }
    const double bend = std::abs(z[0] - 4.0 * z[1] + 6.0 * z[2] - 4.0 * z[3] + z[4]); // about the point i - 2
    if (i >= 2 && !(bend <= smooth_height)) {
      const double settled = dying_away * std::log(std::min(bend, 1e-3) / smooth_height);
      kinked.mark(i - 2 - ahead, i + ahead + static_cast<int>(std::ceil(settled / long_step)));
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

std::vector<Stretch> step_plan(const Passage& passage, Caution caution) {
  const Plan& plan = *passage.plan;
  const int last = sample_count(passage) - 1, stride = plan.stride;
  if (stride == 1 || caution == Caution::short_steps || passage.run.method != Method::modal_exponential) {
    return {{0, last, 1}};
  }
  Kinked kinked(last / stride);
  for (int w = 0; w < passage.wheels(); ++w) {
    mark_kinks(passage, w, stride * plan.step, caution == Caution::usual ? dying : dying_of_flights, kinked);
  }
  std::vector<Stretch> all;
  for (int at = 0; at < kinked.steps();) {
    int end = at + 1;
    while (end < kinked.steps() && kinked.at(end) == kinked.at(at)) {
      ++end;
    }
    add(all, {at * stride, end * stride, kinked.at(at) || end - at < least_steps ? 1 : stride});
    at = end;
  }
  add(all, {kinked.steps() * stride, last, 1});
  return all;
}

} // namespace wingnose::passage
