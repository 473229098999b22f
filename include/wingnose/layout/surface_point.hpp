// Local shape of a body's surface across the track. Frame and units: wingnose/words/frame.hpp.
#pragma once

#include <cmath>

namespace wingnose::layout {

struct SurfacePoint {
  double z;           // m
  double slope_y;     // -, dz/dy
  double curvature_y; // 1/m, signed, negative = convex (a normal rail head)
};

// Signed plane curvature from first and second derivative.
[[nodiscard]] inline double signed_curvature(double slope, double second) {
  const double g = 1.0 + slope * slope;
  return second / (g * std::sqrt(g));
}

} // namespace wingnose::layout
