#include "between_knots.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <limits>

namespace wingnose::passage {
namespace {

using Weights = std::array<double, 4>;

// Lagrange's weights of values at 0, 1, 2, 3 for the place s.
Weights cubic(double s) {
  const double a = s, b = s - 1.0, c = s - 2.0, d = s - 3.0;
  return {-b * c * d / 6.0, a * c * d / 2.0, -a * b * d / 2.0, a * b * c / 6.0};
}

// least: what a value between `left` and `right` must not fall below.
template <class Least> void fill(std::vector<double>& values, std::span<const Stretch> stretches, const Least& least) {
  for (const Stretch& stretch : stretches) {
    const int n = stretch.stride, steps = (stretch.end - stretch.begin) / n;
    if (n == 1 || steps < 3) {
      continue;
    }
    std::vector<std::array<Weights, 3>> weights(n); // [sample within a step][which of the three steps among four ends]
    for (int k = 1; k < n; ++k) {
      for (int at = 0; at < 3; ++at) {
        weights[k][at] = cubic(at + static_cast<double>(k) / n);
      }
    }
    for (int i = 0; i < steps; ++i) {
      const int from = std::clamp(i - 1, 0, steps - 3), at = i - from;
      const double* ends = values.data() + stretch.begin + static_cast<std::ptrdiff_t>(from) * n;
      double* step = values.data() + stretch.begin + static_cast<std::ptrdiff_t>(i) * n;
      const double floor = least(step[0], step[n]);
      for (int k = 1; k < n; ++k) {
        const Weights& w = weights[k][at];
        step[k] = std::max(w[0] * ends[0] + w[1] * ends[n] + w[2] * ends[2 * n] + w[3] * ends[3 * n], floor);
      }
    }
  }
}

} // namespace

void fill_between(std::vector<double>& values, std::span<const Stretch> stretches) {
  fill(values, stretches, [](double, double) { return -std::numeric_limits<double>::infinity(); });
}

void fill_force_between(std::vector<double>& force, std::span<const Stretch> stretches) {
  fill(force, stretches, [](double left, double right) { return 0.5 * std::min(left, right); });
}

std::vector<double> acceleration(const std::vector<double>& w, double h, std::span<const Stretch> stretches) {
  std::vector<double> a(w.size(), 0.0);
  const auto last = static_cast<int>(w.size()) - 1;
  int before = 0; // length of the step that ends at i, in samples
  for (const Stretch& stretch : stretches) {
    for (int i = stretch.begin; i < stretch.end; i += stretch.stride) {
      const int after = stretch.stride;
      if (before == after) {
        a[i] = (w[i - before] - 2.0 * w[i] + w[i + after]) / (after * h * (after * h));
      } else if (before > 0) {
        a[i] = 2.0 * ((w[i + after] - w[i]) / after - (w[i] - w[i - before]) / before) / ((before + after) * h * h);
      }
      before = after;
    }
  }
  // Unknown at either end: none in a short step, as it was next to it in a long one, over which it counts.
  if (!stretches.empty() && stretches.front().stride > 1) {
    a[0] = a[stretches.front().stride];
  }
  if (!stretches.empty() && stretches.back().stride > 1) {
    a[last] = a[last - stretches.back().stride];
  }
  fill_between(a, stretches);
  return a;
}

} // namespace wingnose::passage
