// Static equilibrium of vehicle, contact and track: where a passage starts. SI; frame.hpp.
#pragma once

#include "wingnose/passage/plan.hpp"

#include <Eigen/Core>

#include <array>
#include <vector>

namespace wingnose::passage {

struct Equilibrium {
  Eigen::VectorXd displacement; // m, vehicle coordinates, up, from static equilibrium on a rigid level track
  Eigen::VectorXd force;        // N per wheel
  std::vector<std::array<double, 2>> body_force; // N, [wheel][body]
  std::vector<double> rail;                      // m, deflection under each wheel, downward
};
// With the reported wheel at station x (m). Throws ComputeError when the wheels find no support.
[[nodiscard]] Equilibrium equilibrium(const Passage& passage, double x);

} // namespace wingnose::passage
