#include "between_knots.hpp"

#include "wingnose/numeric/clones.hpp"

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

// What a value must not fall below.
enum class Floor { none, half_of_the_lesser_end };

// Values between the ends of `steps` long steps of n samples. weights: [which of the three steps among four ends][end]
// [sample of the step]; the first sample is an end itself, which its weights of one and zero keep.
WINGNOSE_CLONES
void fill_steps(double* values, int steps, int n, const double* weights, Floor least) {
  for (int i = 0; i < steps; ++i) {
    const int from = std::clamp(i - 1, 0, steps - 3);
    const double* ends = values + static_cast<std::ptrdiff_t>(from) * n;
    const double* w = weights + static_cast<std::ptrdiff_t>(i - from) * 4 * n;
    double* step = values + static_cast<std::ptrdiff_t>(i) * n;
    const double e0 = ends[0], e1 = ends[n], e2 = ends[2 * n], e3 = ends[3 * n];
    const double floor =
        least == Floor::none ? -std::numeric_limits<double>::infinity() : 0.5 * std::min(step[0], step[n]);
#pragma omp simd
    for (int k = 0; k < n; ++k) {
      const double value = w[k] * e0 + w[n + k] * e1 + w[2 * n + k] * e2 + w[3 * n + k] * e3;
      step[k] = value > floor ? value : floor;
    }
  }
}

void fill(std::vector<double>& values, std::span<const Stretch> stretches, Floor least) {
  std::vector<double> weights;
  for (const Stretch& stretch : stretches) {
    const int n = stretch.stride, steps = (stretch.end - stretch.begin) / n;
    if (n == 1 || steps < 3) {
      continue;
    }
    weights.clear();
    for (int at = 0; at < 3; ++at) {
      for (std::size_t end = 0; end < 4; ++end) {
        for (int k = 0; k < n; ++k) {
          weights.push_back(cubic(at + static_cast<double>(k) / n)[end]);
        }
      }
    }
    fill_steps(values.data() + stretch.begin, steps, n, weights.data(), least);
  }
}

} // namespace

void fill_between(std::vector<double>& values, std::span<const Stretch> stretches) {
  fill(values, stretches, Floor::none);
}

void fill_force_between(std::vector<double>& force, std::span<const Stretch> stretches) {
  fill(force, stretches, Floor::half_of_the_lesser_end);
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
