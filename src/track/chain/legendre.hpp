// Functions along a stretch, x in [-1, 1]: the two hat functions, then integrated Legendre polynomials, which vanish at
// both ends: (P_k - P_k-2) / sqrt(2 (2k - 1)), k = 2, 3, ... (Szabo and Babuska, Finite Element Analysis, 1991, ch. 3).
#pragma once

#include <Eigen/Core>

#include <cmath>

namespace wingnose::track::chain::detail {

// P_0 .. P_degree at x.
template <int degree> [[nodiscard]] Eigen::Matrix<double, degree + 1, 1> legendre(double x) {
  Eigen::Matrix<double, degree + 1, 1> P;
  P[0] = 1.0;
  P[1] = x;
  for (int k = 2; k <= degree; ++k) {
    P[k] = ((2 * k - 1) * x * P[k - 1] - (k - 1) * P[k - 2]) / k;
  }
  return P;
}

template <int degree> [[nodiscard]] Eigen::Matrix<double, degree + 1, 1> functions(double x) {
  static const Eigen::Matrix<double, degree + 1, 1> scale = [] {
    Eigen::Matrix<double, degree + 1, 1> s = decltype(s)::Ones();
    for (int k = 2; k <= degree; ++k) {
      s[k] = 1.0 / std::sqrt(2.0 * (2 * k - 1));
    }
    return s;
  }();
  const Eigen::Matrix<double, degree + 1, 1> P = legendre<degree>(x);
  Eigen::Matrix<double, degree + 1, 1> f;
  f[0] = 0.5 * (1.0 - x);
  f[1] = 0.5 * (1.0 + x);
  for (int k = 2; k <= degree; ++k) {
    f[k] = scale[k] * (P[k] - P[k - 2]);
  }
  return f;
}

// Their derivatives.
template <int degree> [[nodiscard]] Eigen::Matrix<double, degree + 1, 1> slopes(double x) {
  const Eigen::Matrix<double, degree + 1, 1> P = legendre<degree>(x);
  Eigen::Matrix<double, degree + 1, 1> f;
  f[0] = -0.5;
  f[1] = 0.5;
  for (int k = 2; k <= degree; ++k) {
    f[k] = std::sqrt(0.5 * (2 * k - 1)) * P[k - 1];
  }
  return f;
}

// Their second derivatives.
template <int degree> [[nodiscard]] Eigen::Matrix<double, degree + 1, 1> bends(double x) {
  const Eigen::Matrix<double, degree + 1, 1> P = legendre<degree>(x);
  Eigen::Matrix<double, degree + 1, 1> slope, f; // slope: of P
  slope[0] = 0.0;
  slope[1] = 1.0;
  for (int k = 2; k <= degree; ++k) {
    slope[k] = slope[k - 2] + (2 * k - 1) * P[k - 1];
  }
  f[0] = f[1] = 0.0;
  for (int k = 2; k <= degree; ++k) {
    f[k] = std::sqrt(0.5 * (2 * k - 1)) * slope[k - 1];
  }
  return f;
}

} // namespace wingnose::track::chain::detail
