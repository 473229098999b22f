#include "wingnose/contact/tangential/kalker.hpp"

#include "kalker_table.hpp"
#include "wingnose/words/error.hpp"

// pchip.hpp of Boost 1.74 calls isnan without std::, which only the C header declares.
// clang-format off
#include <math.h>
#include <boost/math/interpolators/pchip.hpp>
// clang-format on

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>
#include <vector>

namespace wingnose::contact {
namespace {

using std::numbers::pi;
using Curve = boost::math::interpolators::pchip<std::vector<double>>;
using Column = std::array<double, 3> kalker_table::Row::*;
constexpr std::array<Column, 4> columns = {&kalker_table::Row::C11, &kalker_table::Row::C22, &kalker_table::Row::C23,
                                           &kalker_table::Row::C33};
using Values = std::array<double, 4>; // C11, C22, C23, C33

constexpr double slenderest = 1e-3; // smaller axis over the larger

double log_ratio(const kalker_table::Row& row) { return std::log(row.a / row.b); }

// log C over log(a/b) for every coefficient and printed Poisson's ratio.
std::array<std::array<Curve, 3>, 4> make_curves() {
  const auto curve = [](std::size_t c, std::size_t nu) {
    std::vector<double> x, y;
    for (const kalker_table::Row& row : kalker_table::rows) {
      x.push_back(log_ratio(row));
      y.push_back(std::log((row.*columns[c])[nu]));
    }
    return Curve(std::move(x), std::move(y));
  };
  const auto three = [&curve](std::size_t c) { return std::array<Curve, 3>{curve(c, 0), curve(c, 1), curve(c, 2)}; };
  return {three(0), three(1), three(2), three(3)};
}

// Limits of slender ellipses, g = the smaller axis over the larger, Kalker 1967 (quoted with the table, from memory).
Values slender_across(double g, double nu) { // a/b -> 0
  const double L = std::log(16.0 / (g * g));
  return {pi * pi / (4.0 * (1.0 - nu)), pi * pi / 4.0,
          pi * std::sqrt(g) / (3.0 * (1.0 - nu)) * (1.0 + nu * (0.5 * L + std::log(4.0) - 5.0)),
          pi * pi / (16.0 * (1.0 - nu) * g)};
}
Values slender_along(double g, double nu) { // b/a -> 0
  const double L = std::log(16.0 / (g * g)), D = (1.0 - nu) * L + 2.0 * nu, c = 3.0 - std::log(4.0);
  const double E = (1.0 - nu) * L - 2.0 + 4.0 * nu;
  return {2.0 * pi / ((L - 2.0 * nu) * g) * (1.0 + c / (L - 2.0 * nu)), 2.0 * pi / (g * D) * (1.0 + (1.0 - nu) * c / D),
          2.0 * pi / (3.0 * g * std::sqrt(g) * E), 0.25 * pi * (1.0 - nu * (L - 2.0) / E)};
}

// At one of the printed Poisson's ratios.
Values at_printed(double axis_ratio, std::size_t nu) {
  static const auto curves = make_curves(); // constant once made
  const auto& rows = kalker_table::rows;
  const double x = std::log(axis_ratio), low = log_ratio(rows.front()), high = log_ratio(rows.back());
  Values C{};
  for (std::size_t i = 0; i < C.size(); ++i) {
    if (x <= low) {
      C[i] = (rows.front().*columns[i])[nu];
    } else if (x >= high) {
      C[i] = (rows.back().*columns[i])[nu];
    } else {
      C[i] = std::exp(curves[i][nu](x));
    }
  }
  if (x < low || x > high) {
    const double edge = rows.front().a;
    const double poisson = kalker_table::poisson[nu];
    const Values wanted = x < low ? slender_across(axis_ratio, poisson) : slender_along(1.0 / axis_ratio, poisson);
    const Values joint = x < low ? slender_across(edge, poisson) : slender_along(edge, poisson);
    for (std::size_t i = 0; i < C.size(); ++i) {
      C[i] *= wanted[i] / joint[i];
    }
  }
  return C;
}

} // namespace

CreepCoefficients creep_coefficients(double axis_ratio, double poisson) {
  if (!(axis_ratio >= slenderest && axis_ratio <= 1.0 / slenderest)) {
    throw InputError("axis ratio a/b of the contact ellipse", number(axis_ratio), "0.001 to 1000",
                     "The table covers 0.1 to 10; more slender contacts than 1 : 1000 are line contacts.");
  }
  if (!(poisson >= 0.0 && poisson <= 0.5)) {
    throw InputError("Poisson's ratio", number(poisson), "0 to 0.5", "Steel has about 0.3.");
  }
  const Values C0 = at_printed(axis_ratio, 0), C1 = at_printed(axis_ratio, 1), C2 = at_printed(axis_ratio, 2);
  const double n = 4.0 * poisson; // parabola through n = 0, 1, 2
  const double w0 = 0.5 * (n - 1.0) * (n - 2.0), w1 = n * (2.0 - n), w2 = 0.5 * n * (n - 1.0);
  const auto blend = [&](std::size_t i) { return w0 * C0[i] + w1 * C1[i] + w2 * C2[i]; };
  return {blend(0), blend(1), blend(2), blend(3)};
}

RollingContact rolling_contact(double a, double b, double normal_force, const Elastic& material) {
  for (const double axis : {a, b}) {
    if (!(axis > 0.0 && std::isfinite(axis))) {
      throw InputError("semi-axis of the contact ellipse", number(axis) + " m", "above 0",
                       "Without a contact patch there is no creep force.");
    }
  }
  if (!(normal_force >= 0.0 && std::isfinite(normal_force))) {
    throw InputError("normal force", number(normal_force) + " N", "0 or more",
                     "Wheel and rail can only press on each other.");
  }
  if (!(material.young > 0.0 && std::isfinite(material.young))) {
    throw InputError("Young's modulus", number(material.young) + " Pa", "greater than 0", "Steel has about 210e9 Pa.");
  }
  // A line contact takes the coefficients of the most slender ellipse.
  const CreepCoefficients linear =
      creep_coefficients(std::clamp(a / b, slenderest, 1.0 / slenderest), material.poisson);
  return {a, b, normal_force, material.young / (2.0 * (1.0 + material.poisson)), linear};
}

CreepForce linear_creep_force(const RollingContact& c, const Creepage& creep) {
  const double ab = c.a * c.b, G = c.shear_modulus, root = std::sqrt(ab);
  return {-G * ab * c.linear.C11 * creep.longitudinal,
          -G * ab * (c.linear.C22 * creep.lateral + root * c.linear.C23 * creep.spin),
          G * ab * root * (c.linear.C23 * creep.lateral - root * c.linear.C33 * creep.spin)};
}

} // namespace wingnose::contact
