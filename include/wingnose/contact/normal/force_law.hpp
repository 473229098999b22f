// Force of one body on the wheel over the depth the wheel is in, in the form that a time step needs: few numbers, no
// search, no allocation.
//
//   F(d) = d^1.5 (c0 + c1 sqrt(d) + c2 d)          0 < d <= reach, straight on with its slope beyond
//
// Hertz's law has c0 alone. Where the curvature changes inside the patch, or a second patch closes, stiffness goes with
// the width of the patch, hence with sqrt(d): for wheels over wing and nose three terms follow the law of strips with
// a median of 0.5 % of the force and 20 % at worst, where a second patch closes at once; one term leaves 2 and 35 %.
// Passages hardly feel it (some um of depth beside the softness of the rail): against strips solved at every step
// (step_search.hpp) P2 moves by up to 0.03 %, peaks by 0.15 % (S1002, new and 2 mm hollow, shifts of -4 to 4 mm).
//
// Every fit is convex: the stiffness dF/dd of a frictionless half-space is that of a rigid punch on the present patch,
// which grows with the patch (Barber 1974). Newton's method then finds the force in a time step from any start, and
// laws blended between two stations are laws again. SI.
#pragma once

#include <algorithm>
#include <cmath>
#include <limits>
#include <span>

namespace wingnose::contact {

struct ForceLaw {
  double c0 = 0.0, c1 = 0.0, c2 = 0.0; // N/m^1.5, N/m^2, N/m^2.5; vertical force over vertical depth

  struct Value {
    double force, stiffness; // N, N/m
  };
  // depth: m, any; at or below 0 both are 0. reach: m, > 0.
  [[nodiscard]] Value at(double depth, double reach = std::numeric_limits<double>::infinity()) const {
    const double d = std::min(std::max(depth, 0.0), reach), r = std::sqrt(d);
    const double stiffness = r * (1.5 * c0 + r * (2.0 * c1 + r * 2.5 * c2));
    const double beyond = depth > reach ? depth - reach : 0.0;
    return {d * r * (c0 + r * (c1 + r * c2)) + stiffness * beyond, stiffness};
  }
  [[nodiscard]] friend bool operator==(const ForceLaw&, const ForceLaw&) = default;
};
[[nodiscard]] inline ForceLaw operator*(double s, const ForceLaw& law) { return {s * law.c0, s * law.c1, s * law.c2}; }
// Between two laws: t = 0 the first, 1 the second.
[[nodiscard]] inline ForceLaw blend(const ForceLaw& a, const ForceLaw& b, double t) {
  return {a.c0 + t * (b.c0 - a.c0), a.c1 + t * (b.c1 - a.c1), a.c2 + t * (b.c2 - a.c2)};
}

// Depth at which the law carries `force` (N, >= 0), to rounding. Throws InputError for a force below 0 or a law that is
// zero.
[[nodiscard]] double depth_for_force(const ForceLaw& law, double force,
                                     double reach = std::numeric_limits<double>::infinity());

// Convex law nearest to the samples by relative error, those below `light` (N) weighing less. depth: m, > 0, <= reach,
// rising; force: N, >= 0. Throws InputError for fewer than three samples, lists of different length, no force at all.
[[nodiscard]] ForceLaw fit_force_law(std::span<const double> depth, std::span<const double> force, double reach,
                                     double light = 20e3);

} // namespace wingnose::contact
