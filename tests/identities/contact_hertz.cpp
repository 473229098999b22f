// What Hertz contact must obey whatever the numbers: symmetry, scaling, limits, force balance, monotony.
#include "catch.hpp"
#include "wingnose/contact/normal/hertz.hpp"

#include <boost/math/constants/constants.hpp>
#include <boost/math/special_functions/ellint_1.hpp>
#include <boost/math/special_functions/ellint_2.hpp>

#include <cmath>

using namespace wingnose::contact;

namespace {
constexpr double pi = boost::math::constants::pi<double>();
}

TEST_CASE("The eccentricity found satisfies the Legendre form of Hertz's equation") {
  // Johnson 1985 eq. 4.26 in Legendre's integrals, a form the implementation does not use.
  const double g = GENERATE(0.01, 0.03, 0.1, 0.2, 0.35, 0.5, 0.65, 0.8);
  const double e = std::sqrt(1.0 - g * g);
  const double K = boost::math::ellint_1(e);
  const double E = boost::math::ellint_2(e);
  const double ratio = (E / (g * g) - K) / (K - E);
  const HertzShape shape = hertz_shape(1.0, ratio);
  CAPTURE(g, ratio);
  CHECK(shape.ratio == Approx(g).epsilon(1e-11).margin(0.0));
  CHECK(shape.m == Approx(std::cbrt(2.0 * E / (pi * g * g))).epsilon(1e-11).margin(0.0));
  CHECK(shape.n == Approx(std::cbrt(2.0 * E * g / pi)).epsilon(1e-11).margin(0.0));
  CHECK(shape.r == Approx(2.0 * K / (pi * shape.m)).epsilon(1e-11).margin(0.0));
}

TEST_CASE("Exchanging the two curvatures turns the patch and changes nothing else") {
  const double rail_radius = GENERATE(0.013, 0.08, 0.3, 0.459999, 0.46, 1.0, 10.0);
  const double x = 1.0 / 0.46;
  const double y = 1.0 / rail_radius;
  const HertzPatch straight = hertz_patch(1e5, x, y);
  const HertzPatch turned = hertz_patch(1e5, y, x);
  CHECK(straight.a_x == turned.a_y);
  CHECK(straight.a_y == turned.a_x);
  CHECK(straight.peak_pressure == turned.peak_pressure);
  CHECK(straight.approach == turned.approach);
  CHECK(hertz_stiffness(x, y) == hertz_stiffness(y, x));
}

TEST_CASE("Equal curvatures give the sphere's closed form") {
  const double R = 0.3;
  const double F = 1e5;
  const double E_star = Elastic{}.combined();
  const HertzPatch patch = hertz_patch(F, 1.0 / R, 1.0 / R);
  const double a = std::cbrt(3.0 * F * R / (4.0 * E_star)); // Johnson 1985 eq. 4.22
  CHECK(patch.a_x == Approx(a).epsilon(1e-13));
  CHECK(patch.a_y == Approx(a).epsilon(1e-13));
  CHECK(patch.approach == Approx(a * a / R).epsilon(1e-13)); // eq. 4.23
  CHECK(hertz_stiffness(1.0 / R, 1.0 / R) == Approx(4.0 / 3.0 * E_star * std::sqrt(R)).epsilon(1e-13));
}

TEST_CASE("Close to the circle the patch departs smoothly, without a step where the solution method changes") {
  // log(b/a) = -(2/3) log(B/A) with a relative error that shrinks as the square of log(B/A).
  double error_before = 1.0;
  for (const double L : {1e-1, 1e-2, 1e-3, 1.1e-5, 0.9e-5, 1e-8}) {
    const HertzShape shape = hertz_shape(1.0, std::exp(L));
    const double error = std::abs(std::log(shape.ratio) / (-2.0 / 3.0 * L) - 1.0);
    CAPTURE(L, error);
    // exp(L), log(ratio) and the root round at 1e-16 absolute, which grows to this when divided by L.
    CHECK(error <= std::max(error_before * 1e-1, 1e-15 / L));
    error_before = error;
  }
  CHECK(hertz_shape(1.0, 1.0 + 1e-15).ratio == Approx(1.0).epsilon(2e-15));
}

TEST_CASE("A very slender patch carries at its middle the pressure of a line contact") {
  // Line contact (Johnson 1985 eq. 4.45): b = 2 p0 R / E*, and 1/R is the large curvature.
  double error_before = 1.0;
  for (const double ratio : {1e2, 1e4, 1e6, 1e8}) {
    const double curvature = 100.0;
    const HertzPatch patch = hertz_patch(1e5, curvature / ratio, curvature);
    const double error = std::abs(patch.a_y * curvature * Elastic{}.combined() / (2.0 * patch.peak_pressure) - 1.0);
    CAPTURE(ratio, error);
    CHECK(error < 0.1 * error_before);
    error_before = error;
  }
  CHECK(error_before < 1e-6);
}

TEST_CASE("The pressure over the patch carries the force") {
  const double force = GENERATE(1.0, 1e3, 1e5, 1e6);
  const HertzPatch patch = hertz_patch(force, 2.2, 12.5);
  CHECK(2.0 / 3.0 * pi * patch.a_x * patch.a_y * patch.peak_pressure == Approx(force).epsilon(1e-13));
}

TEST_CASE("Axes and pressure grow with the cube root of the force, the approach with its square") {
  const double factor = GENERATE(2.0, 8.0, 1000.0);
  const HertzPatch one = hertz_patch(5e4, 2.2, 3.3);
  const HertzPatch more = hertz_patch(5e4 * factor, 2.2, 3.3);
  CHECK(more.a_x / one.a_x == Approx(std::cbrt(factor)).epsilon(1e-13));
  CHECK(more.a_y / one.a_y == Approx(std::cbrt(factor)).epsilon(1e-13));
  CHECK(more.peak_pressure / one.peak_pressure == Approx(std::cbrt(factor)).epsilon(1e-13));
  CHECK(more.approach / one.approach == Approx(std::cbrt(factor * factor)).epsilon(1e-13));
}

TEST_CASE("Patch and spring tell the same story: force is C_H times approach to the power 1.5") {
  const double rail_radius = GENERATE(0.013, 0.08, 0.3, 0.46, 1.0);
  const double x = 1.0 / 0.46;
  const double y = 1.0 / rail_radius;
  const double C_H = hertz_stiffness(x, y);
  const double force = 87e3;
  CHECK(C_H * std::pow(hertz_patch(force, x, y).approach, 1.5) == Approx(force).epsilon(1e-13));
  const double h = 1e-4 * force;
  const double slope = 2.0 * h / (hertz_patch(force + h, x, y).approach - hertz_patch(force - h, x, y).approach);
  CHECK(hertz_tangent_stiffness(C_H, force) == Approx(slope).epsilon(1e-8));
}

TEST_CASE("A blunter rail head always means a stiffer contact and less pressure") {
  double C_before = 0.0;
  double p_before = 1e30;
  for (double radius = 0.005; radius < 20.0; radius *= 1.05) {
    const double C_H = hertz_stiffness(1.0 / 0.46, 1.0 / radius);
    const double p0 = hertz_patch(1e5, 1.0 / 0.46, 1.0 / radius).peak_pressure;
    CAPTURE(radius);
    CHECK(C_H > C_before);
    CHECK(p0 < p_before);
    C_before = C_H;
    p_before = p0;
  }
}
