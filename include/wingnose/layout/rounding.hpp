// Smooth building blocks of generated bodies: rounded kinks, rounded edges, smooth minimum, wear and repair bumps.
// Lengths in m; every function is at least C1 with finite curvature, so a wheel never meets an artificial step.
#pragma once

#include "wingnose/layout/generator.hpp"
#include "wingnose/layout/surface_point.hpp"

#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

namespace wingnose::layout {

// Integral of the unit step, rounded over `length` about 0: 0 for s <= -length/2, s for s >= length/2, convex and C3 in
// between (the kink averaged with the kernel 15/16 (1 - u^2)^2).
[[nodiscard]] inline double rounded_kink(double s, double length) {
  const double half = 0.5 * length;
  if (s <= -half) {
    return 0.0;
  }
  if (s >= half) {
    return s;
  }
  const double u = s / half, u2 = u * u;
  return half * (15.0 / 16.0 * u2 * (1.0 / 2.0 - u2 / 6.0 + u2 * u2 / 30.0) + 0.5 * u + 5.0 / 32.0);
}

// Straight ramp from 0 at `begin` to `rise` at `end`, both ends rounded over `rounding`.
[[nodiscard]] inline double rounded_ramp(double x, double begin, double end, double rise, double rounding) {
  return rise / (end - begin) * (rounded_kink(x - begin, rounding) - rounded_kink(x - end, rounding));
}

// Smaller of a and b, rounded over about `width` (analytic, never above either).
[[nodiscard]] inline double smooth_min(double a, double b, double width) {
  return 0.5 * (a + b - std::hypot(a - b, width));
}

// Height lost on a quarter-circle edge of `radius` at distance d >= 0 from the vertical face, with its derivatives.
struct EdgeDrop {
  double drop = 0.0, slope = 0.0, second = 0.0; // m, -, 1/m (derivatives with respect to d)
};
[[nodiscard]] inline double edge_drop(double d, double radius) {
  const double a = radius - d, rest = radius * radius - a * a; // below 0 by rounding at the face
  return a > 0.0 ? radius - std::sqrt(rest > 0.0 ? rest : 0.0) : 0.0;
}
[[nodiscard]] inline EdgeDrop edge_drop_at(double d, double radius) {
  const double a = radius - d;
  if (a <= 0.0) {
    return {};
  }
  // The face itself is vertical: keep the slope finite at d = 0.
  const double c = std::sqrt(std::fmax(radius * radius - a * a, 1e-12 * radius * radius));
  return {radius - c, -a / c, radius * radius / (c * c * c)};
}

// (1 - u^2)^3 with first and second derivative with respect to u; 0 outside |u| < 1. C2.
struct Bell {
  double value = 0.0, first = 0.0, second = 0.0;
};
[[nodiscard]] inline Bell bell(double u) {
  const double g = 1.0 - u * u;
  return g > 0.0 ? Bell{g * g * g, -6.0 * u * g * g, g * (30.0 * u * u - 6.0)} : Bell{};
}

// Wear and repair of one body at one station, ready for many evaluations across.
inline constexpr std::size_t max_modifiers = 16;
class ModifierSlice {
public:
  ModifierSlice(const std::vector<Modifier>& modifiers, double x) {
    for (const Modifier& m : modifiers) {
      const double depth = m.depth * bell(2.0 * (x - m.station) / m.length).value;
      if (depth != 0.0 && count_ < max_modifiers) {
        active_[count_++] = {depth, m.eta, m.width};
      }
    }
  }
  [[nodiscard]] bool empty() const { return count_ == 0; }
  // Height added (negative where metal is gone) and its derivatives with respect to eta.
  [[nodiscard]] Bell add(double eta) const {
    Bell sum;
    for (std::size_t i = 0; i < count_; ++i) {
      const Active& a = active_[i];
      if (a.width <= 0.0) {
        sum.value -= a.depth;
        continue;
      }
      const double s = 2.0 / a.width;
      const Bell b = bell((eta - a.eta) * s);
      sum.value -= a.depth * b.value;
      sum.first -= a.depth * s * b.first;
      sum.second -= a.depth * s * s * b.second;
    }
    return sum;
  }

private:
  struct Active {
    double depth, eta, width;
  };
  std::array<Active, max_modifiers> active_;
  std::size_t count_ = 0;
};

} // namespace wingnose::layout
