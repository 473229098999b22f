// Contact stiffness after Hertz from a table: for paths with thousands of stations, where exact elliptic integrals
// would cost more than the passage itself. F = C approach^1.5 with C = (4/3) E* / (r^1.5 sqrt(A + B)); r depends on the
// ratio of the curvatures alone, so one table serves every material and size. SI.
#pragma once

#include "wingnose/contact/normal/hertz.hpp"

#include <vector>

namespace wingnose::contact {

class HertzTable {
public:
  HertzTable(); // about 1000 exact values

  // As hertz_stiffness(), within 1e-7 relative. Curvature ratios beyond 1e6 are computed exactly. Throws InputError as
  // it does.
  [[nodiscard]] double stiffness(double curvature_x, double curvature_y, const Elastic& material = {}) const;

private:
  std::vector<double>
      value_; // r^-1.5 over ln(B/A), uniform from one step below 0 so that every interval has two neighbours
};

} // namespace wingnose::contact
