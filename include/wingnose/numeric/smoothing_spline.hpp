// A smoothing spline for measured points: the smoothest curve that stays within the noise of the measurement.
//
// Reinsch 1967, "Smoothing by spline functions", Numerische Mathematik 10, 177-183, doi:10.1007/BF02162161: of all
// functions whose weighted residuals satisfy sum ((g(x_i) - y_i) / sigma_i)^2 = n, take the one of least integral of
// g''^2. The amount of smoothing is thus not a taste but follows from the stated noise (discrepancy principle). Where a
// curve is known to bend sharply in one part and hardly in another, a freedom to bend rho(x) replaces the integrand by
// g''^2 / rho (a locally adaptive penalty, as in Storlie, Bondell and Reich 2010, J. Computational and Graphical
// Statistics 19, 569-589). Value, slope and second derivative are continuous; straight lines pass unchanged; beyond the
// first and the last point g'' = 0. Cost O(n), any spacing. Units are the caller's.
#pragma once

#include <array>
#include <span>
#include <vector>

namespace wingnose::numeric {

struct SmoothingSpline {
  std::vector<double> knot; // n, strictly increasing
  // n - 1; between knots k and k + 1: c0 + c1 t + ... + c4 t^4, t = x - knot[k]; c4 = 0 without a freedom to bend
  std::vector<std::array<double, 5>> piece;
  double residual_rms = 0.0; // root mean square of residual / sigma; 1, or less where a straight line fits better
};

// x strictly increasing, sigma > 0 (standard deviation of each y); freedom: rho > 0 at each point, linear between
// points, only ratios matter; empty = 1 everywhere. At least four points, equal lengths, all finite. Throws InputError
// otherwise, ComputeError when no smoothing reaches the stated noise.
[[nodiscard]] SmoothingSpline smoothing_spline(std::span<const double> x, std::span<const double> y,
                                               std::span<const double> sigma, std::span<const double> freedom = {});

struct SplinePoint {
  double value, slope, second; // second derivative
};
[[nodiscard]] SplinePoint evaluate(const SmoothingSpline& spline, double x); // straight beyond the ends

} // namespace wingnose::numeric
