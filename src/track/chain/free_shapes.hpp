// Shapes of a beam with free ends: two rigid ones, then its bending modes (Euler beam, closed form).
#pragma once

#include <array>
#include <cmath>
#include <utility>

namespace wingnose::track::chain::detail {

// Deflection and its slope at xi in [0, 1] of shape j (0, 1 rigid), slope per unit of xi.
inline std::pair<double, double> free_shape(int j, double xi) {
  if (j == 0) {
    return {1.0, 0.0};
  }
  if (j == 1) {
    return {2.0 * xi - 1.0, 2.0};
  }
  // Roots of cos b cosh b = 1; from the fifth on (j - 1/2) pi to twelve digits.
  constexpr std::array<double, 5> root{4.730040744862704, 7.853204624095838, 10.995607838001671, 14.137165491257464,
                                       17.27875965739948};
  const double b = j - 2 < 5 ? root[j - 2] : (j - 0.5) * 3.14159265358979323846;
  // cosh + cos - sigma (sinh + sin) with the growing exponentials taken apart: 1 - sigma is tiny.
  const double e = std::exp(-b);
  const double rest = 2.0 * e * (std::cos(b) - std::sin(b) - e) / (1.0 - e * e - 2.0 * e * std::sin(b)); // 1 - sigma
  const double sigma = 1.0 - rest;
  const double falls = 0.5 * (1.0 + sigma) * std::exp(-b * xi);
  const double grows = 0.5 * (rest / e) * std::exp(-b * (1.0 - xi));
  const double c = std::cos(b * xi), s = std::sin(b * xi);
  return {c - sigma * s + falls + grows, b * (-s - sigma * c - falls + grows)};
}

} // namespace wingnose::track::chain::detail
