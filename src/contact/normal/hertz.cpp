#include "wingnose/contact/normal/hertz.hpp"

#include "wingnose/words/error.hpp"

#include <boost/math/special_functions/ellint_rd.hpp>
#include <boost/math/special_functions/ellint_rf.hpp>
#include <boost/math/tools/roots.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <string>
#include <utility>

namespace wingnose::contact {
namespace {

using std::numbers::pi;

// Beyond it the narrower semi-axis is below a millionth of the longer one, nanometres under a wheel: no surface is that
// sharp, and a continuum ends there. The sharper curvature then counts as this times the flatter one. Rolled paths show
// such an edge where only a sliver of metal at the end of a section lies under the wheel: their curvature goes with one
// over the square of the closed area (contact/search/effective_curvature.hpp).
constexpr double line_contact_ratio = 1e12;

void check_curvature(const char* what, double value) {
  if (!(std::isfinite(value) && value > 0.0)) {
    throw InputError(what, number(value) + " 1/m", "greater than 0",
                     "The wheel and rail curvatures must sum to a positive value in both directions; a flat or "
                     "closely fitting pair has no Hertz ellipse.");
  }
}

void check_material(const Elastic& material) {
  if (!(std::isfinite(material.young) && material.young > 0.0)) {
    throw InputError("Young's modulus", number(material.young) + " Pa", "greater than 0", "Steel has about 210e9 Pa.");
  }
  if (!(material.poisson > -1.0 && material.poisson <= 0.5)) {
    throw InputError("Poisson's ratio", number(material.poisson), "-1 to 0.5", "Steel has about 0.3.");
  }
}

// log(B/A) of an ellipse whose axis ratio b/a is exp(-t). Johnson (1985) eq. 4.26 has
// B/A = (E/g^2 - K)/(K - E) with g = b/a, which cancels near the circle. With K - E = e^2 R_D(0,g^2,1)/3 and
// E - g^2 K = e^2 g^2 R_D(0,1,g^2)/3 (Carlson 1979, doi:10.1007/BF01396491; DLMF 19.25.1) the eccentricity drops out
// and nothing cancels.
double log_curvature_ratio(double t) {
  const double g2 = std::exp(-2.0 * t);
  return std::log(boost::math::ellint_rd(0.0, 1.0, g2) / boost::math::ellint_rd(0.0, g2, 1.0));
}

// t = -log(b/a) for L = log(B/A) >= 0.
double log_axis_ratio(double L) {
  // log(B/A) is an odd function of t (swapping the axes swaps A and B) that starts with slope 3/2, so the first term
  // alone is good to L^3 here.
  if (L < 1e-5) {
    return L * (2.0 / 3.0);
  }
  // The local slope lies between 3/2 (circle; Greenwood 1985: a/b ~ (B/A)^(2/3)) and 2 (slender limit).
  double low = 0.5 * L;
  double high = L * (2.0 / 3.0) * (1.0 + 1e-9);
  const auto residual = [L](double t) { return log_curvature_ratio(t) - L; };
  std::uintmax_t iterations = 60;
  const auto bracket =
      boost::math::tools::toms748_solve(residual, low, high, boost::math::tools::eps_tolerance<double>(50), iterations);
  return 0.5 * (bracket.first + bracket.second);
}

HertzShape shape_of_ordered(double A, double B) { // 0 < A <= B
  const double t = log_axis_ratio(std::log(B / A));
  const double g = std::exp(-t);
  const double g2 = g * g;
  const double K = boost::math::ellint_rf(0.0, g2, 1.0);
  // E/g^2, DLMF 19.25.1: E = g^2 (R_D(0,g^2,1) + R_D(0,1,g^2)) / 3.
  const double E_over_g2 = (boost::math::ellint_rd(0.0, g2, 1.0) + boost::math::ellint_rd(0.0, 1.0, g2)) / 3.0;
  const double m = std::cbrt(2.0 * E_over_g2 / pi);
  return {g, m, m * g, 2.0 * K / (pi * m)};
}

double no_sharper_than_line(double flat, double sharp) { return std::min(sharp, line_contact_ratio * flat); }

} // namespace

HertzShape hertz_shape(double A, double B) {
  check_curvature("half curvature A", A);
  check_curvature("half curvature B", B);
  const auto [small, large] = std::minmax(A, B);
  return shape_of_ordered(small, no_sharper_than_line(small, large));
}

HertzPatch hertz_patch(double force, double curvature_x, double curvature_y, const Elastic& material) {
  if (!(std::isfinite(force) && force >= 0.0)) {
    throw InputError("contact force", number(force) + " N", "0 or more",
                     "Wheel and rail can only press on each other.");
  }
  check_curvature("curvature along the track", curvature_x);
  check_curvature("curvature across the track", curvature_y);
  check_material(material);
  if (force == 0.0) {
    return {0.0, 0.0, 0.0, 0.0};
  }

  const double A = 0.5 * std::min(curvature_x, curvature_y);
  const double B = no_sharper_than_line(A, 0.5 * std::max(curvature_x, curvature_y));
  const HertzShape shape = hertz_shape(A, B);
  const double E_star = material.combined();
  // Timoshenko and Goodier, contact of two bodies: a = m c, b = n c; Johnson (1985) eqs. 4.21 to 4.30 in other letters.
  const double c = std::cbrt(3.0 * force / (4.0 * E_star * (A + B)));
  const double a = shape.m * c;
  const double b = shape.n * c;
  const double approach = shape.r * std::cbrt(9.0 * force * force * (A + B) / (16.0 * E_star * E_star));
  const double p0 = 3.0 * force / (2.0 * pi * a * b);
  // The patch stretches along the flatter direction.
  const bool long_along_track = curvature_x <= curvature_y;
  return {long_along_track ? a : b, long_along_track ? b : a, p0, approach};
}

double hertz_stiffness(double curvature_x, double curvature_y, const Elastic& material) {
  check_curvature("curvature along the track", curvature_x);
  check_curvature("curvature across the track", curvature_y);
  check_material(material);
  const double A = 0.5 * std::min(curvature_x, curvature_y);
  const double B = no_sharper_than_line(A, 0.5 * std::max(curvature_x, curvature_y));
  const double A_plus_B = A + B;
  const double r = hertz_shape(A, B).r;
  // approach = r (9 F^2 (A+B) / (16 E*^2))^(1/3) solved for F.
  return 4.0 / 3.0 * material.combined() / std::sqrt(A_plus_B * r * r * r);
}

double hertz_tangent_stiffness(double C_H, double force) {
  if (!(std::isfinite(C_H) && C_H > 0.0)) {
    throw InputError("Hertz stiffness C_H", number(C_H) + " N/m^1.5", "greater than 0",
                     "Wheel on rail has about 1e11 N/m^1.5.");
  }
  if (!(std::isfinite(force) && force >= 0.0)) {
    throw InputError("contact force", number(force) + " N", "0 or more",
                     "Wheel and rail can only press on each other.");
  }
  return 1.5 * std::cbrt(C_H * C_H * force);
}

} // namespace wingnose::contact
