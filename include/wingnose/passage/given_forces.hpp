// Forces that are known before the steps are taken. SI; frame.hpp.
#pragma once

#include <cmath>
#include <cstddef>
#include <vector>

namespace wingnose::passage {

// Contact forces (N) of every wheel at samples `step` seconds apart: a stepper that is given them meets no body, so the
// track can be followed once more in other steps than those that found the forces.
struct GivenForces {
  double step = 0.0;
  std::vector<std::vector<double>> of; // [wheel][sample]
  [[nodiscard]] double at(int wheel, double time) const {
    return of[static_cast<std::size_t>(wheel)][static_cast<std::size_t>(std::lround(time / step))];
  }
};

} // namespace wingnose::passage
