// The overlap of wheel and body along the surface, and the ellipse that stands for it.
#pragma once

#include "wingnose/contact/search/patches.hpp"

#include <algorithm>
#include <array>
#include <cstddef>

namespace wingnose::contact {

// Nodes across where the shapes overlap, and one beyond on either side of each overlap.
struct Overlap {
  static constexpr std::size_t capacity = GapLine::capacity;
  int count = 0;
  double approach = 0.0;                   // m, at the deepest point, normal to the surface
  std::array<double, capacity> t, y;       // m, along the surface; across the track
  std::array<double, capacity> nearby;     // m, approach of the deepest point nearby, normal to the surface
  std::array<double, capacity> separation; // m, normal, from that point, >= 0
  std::array<double, capacity> dx, curvature_x, cosine;

  // Overlap at node i when every place is laid in by `share` of the approach nearby; negative outside.
  [[nodiscard]] double laid(int i, double share) const { return share * nearby[i] - separation[i]; }
  // Part of the interval i, i + 1 (straight between nodes) that this closes.
  struct Part {
    double area, width; // m2, m along the surface
    double centre;      // share of the interval
  };
  [[nodiscard]] Part closed(int i, double share) const {
    const double a = laid(i, share), b = laid(i + 1, share), w = t[i + 1] - t[i];
    if (a > 0.0 && b > 0.0) {
      return {0.5 * (a + b) * w, w, 0.5};
    }
    if (a > 0.0) {
      const double u = a / (a - b);
      return {0.5 * a * u * w, u * w, 0.5 * u};
    }
    if (b > 0.0) {
      const double u = b / (b - a);
      return {0.5 * b * u * w, u * w, 1.0 - 0.5 * u};
    }
    return {0.0, 0.0, 0.5};
  }
  [[nodiscard]] double closed_area(double share) const {
    double sum = 0.0;
    for (int i = 0; i + 1 < count; ++i) {
      const double a = laid(i, share), b = laid(i + 1, share), w = t[i + 1] - t[i];
      const double p = std::max(a, 0.0), q = std::max(b, 0.0);
      const double trapezium = 0.5 * (p + q) * w;
      // Where only one end is closed the straight line ends inside: p * p / (p - b) instead of p.
      sum += p > 0.0 && q > 0.0 ? trapezium : (p + q > 0.0 ? trapezium * (p + q) / std::max(a - b, b - a) : 0.0);
    }
    return sum;
  }
};

// Fills `overlap` for a wheel `depth` (m) below its first touch; false when nothing overlaps. apart: patches
// centimetres apart each count from their own deepest point, not from the deepest of all.
[[nodiscard]] bool lay(const GapLine& line, double depth, bool apart, Overlap& overlap);

// Parabolas A x^2 + B t^2 whose Hertz contact stands for the overlap.
struct EquivalentEllipse {
  double A, B;      // 1/m
  double share;     // of the approach that is laid in: Hertz's width is that of the parabola B t^2 at this height
  double A_strip;   // 1/m: Hertz's length is that of A_strip x^2 at the same height
  double stiffness; // 1/E* times C of F = C approach^1.5 (m^0.5)
  double slope;     // 1/E* times peak pressure over half length (1/m)
  double skew;      // factor on the stiffness for a patch whose middle line runs askew to the track
};
[[nodiscard]] EquivalentEllipse equivalent_ellipse(const Overlap& overlap);
// The same with the closed width taken at a fixed depth (m, up to the approach) instead of that of the load.
[[nodiscard]] EquivalentEllipse equivalent_ellipse_at(const Overlap& overlap, double depth);

} // namespace wingnose::contact
