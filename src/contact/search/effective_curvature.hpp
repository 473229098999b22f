// Lateral curvature a loaded contact feels, from the gap between wheel and section over the width the load closes.
//
// The curvature at the touching point alone jumps where the contact moves to another place or crosses from one arc to
// the next, and with it the contact stiffness and the force would jump. A loaded patch is millimetres wide and feels
// the gap across that width; where two places are nearly level it feels both.
#pragma once

#include "section.hpp"

#include "wingnose/words/constants.hpp"

#include <algorithm>
#include <cmath>

namespace wingnose::contact {

// The curvature k of the parabola g = k y^2 / 2 that encloses the same area S = integral of (h - g(y)) where positive,
// h the closing depth: S = (4/3) h sqrt(2 h / k), so k = 32 h^3 / (9 S^2). Exact where the gap is a parabola; varies
// continuously as the gap does.
template <class Slice>
[[nodiscard]] double effective_lateral_curvature(const Slice& slice, const SampledWheel& wheel,
                                                 const LateralContact& top) {
  constexpr double fine = 0.0001; // m, a 5 mm edge closes over 1.5 mm
  const double from = std::max(slice.edge, wheel.low()), to = std::min(slice.edge + slice.width, wheel.high());
  const auto closed = [&](double y, double wheel_height) {
    return std::max(0.0, closing_depth - (top.level - slice.height(y - slice.edge) - wheel_height));
  };
  // Coarse intervals (the wheel's own samples) that may hold closed width are integrated finely. The gap changes by
  // less than `slack` within one of them unless it is far from closing.
  constexpr double slack = 0.0004; // m
  double area = 0.0;
  for (std::size_t i = 0; i + 1 < wheel.samples(); ++i) {
    const double a = std::max(wheel.sample(i), from), b = std::min(wheel.sample(i + 1), to);
    if (!(a < b)) {
      continue;
    }
    const bool near = std::abs(0.5 * (a + b) - top.y) < 0.003;
    const double middle = 0.5 * (wheel.sample(i) + wheel.sample(i + 1));
    if (!near &&
        (middle < from || middle > to ||
         top.level - slice.height(middle - slice.edge) - 0.5 * (wheel.sample_height(i) + wheel.sample_height(i + 1)) >
             closing_depth + slack)) {
      continue;
    }
    const bool whole = a == wheel.sample(i) && b == wheel.sample(i + 1);
    const int steps = whole ? SampledWheel::between : std::max(1, static_cast<int>(std::ceil((b - a) / fine - 1e-9)));
    const double width = (b - a) / steps;
    double before = closed(a, whole ? wheel.sample_height(i) : wheel.height(a));
    for (int k = 1; k <= steps; ++k) {
      const double at = a + width * k;
      const double here = closed(at, whole ? wheel.fine_height(i, k) : wheel.height(at));
      area += 0.5 * width * (before + here);
      before = here;
    }
  }
  return area > 0.0 ? 32.0 * closing_depth * closing_depth * closing_depth / (9.0 * area * area) : 1e6;
}

} // namespace wingnose::contact
