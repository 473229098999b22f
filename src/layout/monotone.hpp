// Slopes of a shape-preserving C1 cubic through values at given stations.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <span>

namespace wingnose::layout {

// Three-point parabola slope at each station, limited so that the cubic is monotone wherever the data are (Hyman 1983,
// doi:10.1137/0904045, eq. 2.6): third order on smooth data, no overshoot at corners, straight data stay straight.
// value(i) returns the value at station i, set(i, slope) stores.
template <class Value, class Set> void monotone_slopes(std::span<const double> x, Value value, Set set) {
  const std::size_t n = x.size();
  const auto secant = [&](std::size_t i) { return (value(i + 1) - value(i)) / (x[i + 1] - x[i]); };
  if (n == 2) {
    set(0, secant(0));
    set(1, secant(0));
    return;
  }
  const auto limited = [](double slope, double s1, double s2) {
    if (s1 * s2 <= 0.0) {
      return 0.0;
    }
    return std::copysign(std::min(std::abs(slope), 3.0 * std::min(std::abs(s1), std::abs(s2))), s1);
  };
  for (std::size_t i = 1; i + 1 < n; ++i) {
    const double h0 = x[i] - x[i - 1], h1 = x[i + 1] - x[i], s0 = secant(i - 1), s1 = secant(i);
    set(i, limited((h1 * s0 + h0 * s1) / (h0 + h1), s0, s1));
  }
  const auto end_slope = [](double near, double far, double h0, double h1) {
    const double slope = near + (near - far) * h0 / (h0 + h1); // parabola through the three end values
    if (slope * near <= 0.0) {
      return 0.0;
    }
    return std::copysign(std::min(std::abs(slope), 3.0 * std::abs(near)), near);
  };
  set(0, end_slope(secant(0), secant(1), x[1] - x[0], x[2] - x[1]));
  set(n - 1, end_slope(secant(n - 2), secant(n - 3), x[n - 1] - x[n - 2], x[n - 2] - x[n - 3]));
}

} // namespace wingnose::layout
