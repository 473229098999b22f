// Touch, lift-off and transfer of the reported wheel, located between samples: the motion of wheel and rail is smooth
// within a step (cubic through four samples), the path is known exactly, so their difference can be searched for roots.
#include "path_cursor.hpp"
#include "recorder.hpp"

#include "wingnose/numeric/clones.hpp"

#include <boost/math/tools/roots.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

namespace wingnose::passage {
namespace {

constexpr std::size_t steps_of_a_block = 64;

// Wheel height plus rail deflection, as a cubic through samples i-1 .. i+2 around the step i .. i+1. r in [0, 1].
double lowering(const History& h, std::size_t i, double r) {
  const auto q = [&](std::size_t j) { return h.wheel_height[j] + h.rail_deflection[j]; };
  const std::size_t last = h.time.size() - 1;
  if (i == 0 || i + 2 > last) {
    return q(i) + r * (q(i + 1) - q(i));
  }
  const double a = q(i - 1), b = q(i), c = q(i + 1), d = q(i + 2);
  // Lagrange through equidistant points at -1, 0, 1, 2.
  return -a * r * (r - 1.0) * (r - 2.0) / 6.0 + b * (r + 1.0) * (r - 1.0) * (r - 2.0) / 2.0 -
         c * (r + 1.0) * r * (r - 2.0) / 2.0 + d * (r + 1.0) * r * (r - 1.0) / 6.0;
}

// Whether a body is touched or left, or a load handed over, may be told from the ends of a block of steps as a whole.
struct Bounds {
  double least, most;
};
WINGNOSE_CLONES
Bounds bounds(const double* __restrict a, const double* __restrict minus, std::ptrdiff_t n) {
  double least = a[0] - minus[0], most = least;
#pragma omp simd reduction(min : least) reduction(max : most)
  for (std::ptrdiff_t i = 0; i < n; ++i) {
    const double v = a[i] - minus[i];
    least = v < least ? v : least;
    most = v > most ? v : most;
  }
  return {least, most};
}

// Whether nothing happens from sample `begin` to the last of `samples` after it: bodies carry throughout or not at all,
// and none carries more and then less than the other.
bool uneventful(const History& h, std::size_t begin, std::size_t samples) {
  static constexpr std::array<double, steps_of_a_block + 1> none{};
  const auto n = static_cast<std::ptrdiff_t>(samples);
  for (const std::vector<double>& force : h.body_force) {
    const Bounds b = bounds(force.data() + begin, none.data(), n);
    if (!(b.least > 0.0 || b.most <= 0.0)) {
      return false;
    }
  }
  if (h.body_force.size() != 2) {
    return true;
  }
  const Bounds apart = bounds(h.body_force[1].data() + begin, h.body_force[0].data() + begin, n);
  return apart.least >= 0.0 || apart.most <= 0.0;
}

} // namespace

std::vector<Event> locate_events(const Passage& passage, const History& h) {
  std::vector<Event> events;
  const Course& course = passage.plan->courses[passage.run.reported_wheel];
  const int bodies = static_cast<int>(h.bodies.size());
  const auto approach = [&](int b, std::size_t i, double r) {
    const double x = h.station[i] + r * (h.station[i + 1] - h.station[i]);
    PathCursor cursor(*course.path, interval_at(*course.path, x));
    cursor.move_to(x);
    return cursor.body(course.path->bodies[b].height, course.law->body[b]).height - lowering(h, i, r);
  };
  const auto force = [&](int b, std::size_t i, double r) {
    const double x = h.station[i] + r * (h.station[i + 1] - h.station[i]);
    PathCursor cursor(*course.path, interval_at(*course.path, x));
    cursor.move_to(x);
    const BodyState body = cursor.body(course.path->bodies[b].height, course.law->body[b]);
    return body.law.at(body.height - lowering(h, i, r), course.law->reach).force;
  };
  // Root of f in [0, 1] of step i; the samples say that the sign changes, rounding may hide it: then the nearer end is
  // the answer.
  const auto root = [](const auto& f) {
    const double f0 = f(0.0), f1 = f(1.0);
    if (!(f0 * f1 < 0.0) || !std::isfinite(f0) || !std::isfinite(f1)) {
      return std::abs(f0) < std::abs(f1) ? 0.0 : 1.0;
    }
    std::uintmax_t iterations = 50;
    const auto [lo, hi] = boost::math::tools::toms748_solve(f, 0.0, 1.0, f0, f1,
                                                            boost::math::tools::eps_tolerance<double>(40), iterations);
    return 0.5 * (lo + hi);
  };
  const auto add = [&](Event::Kind kind, int b, std::size_t i, double r) {
    events.push_back({kind, h.bodies[b], h.time[i] + r * h.step, h.station[i] + r * (h.station[i + 1] - h.station[i])});
  };
  for (std::size_t i = 0; i + 1 < h.time.size(); ++i) {
    if (i % steps_of_a_block == 0) {
      const std::size_t steps = std::min(steps_of_a_block, h.time.size() - 1 - i);
      if (uneventful(h, i, steps + 1)) {
        i += steps - 1;
        continue;
      }
    }
    for (int b = 0; b < bodies; ++b) {
      const bool before = h.body_force[b][i] > 0.0, after = h.body_force[b][i + 1] > 0.0;
      if (before != after) {
        add(after ? Event::Kind::touch : Event::Kind::lift_off, b, i,
            root([&](double r) { return approach(b, i, r); }));
      }
    }
    if (bodies == 2) {
      const double before = h.body_force[1][i] - h.body_force[0][i],
                   after = h.body_force[1][i + 1] - h.body_force[0][i + 1];
      // Only while both carry: a change through a flight is a lift-off and a touch.
      const bool loaded = h.force[i] > 0.0 && h.force[i + 1] > 0.0;
      if (loaded && before * after < 0.0) {
        add(Event::Kind::transfer, after > 0.0 ? 1 : 0, i,
            root([&](double r) { return force(1, i, r) - force(0, i, r); }));
      }
    }
  }
  std::stable_sort(events.begin(), events.end(), [](const Event& a, const Event& b) { return a.time < b.time; });
  return events;
}

} // namespace wingnose::passage
