// Undamped modes of the whole track below a cut-off.
#pragma once

#include "wingnose/track/assembly.hpp"

namespace wingnose::track::detail {

struct RealModes {
  Eigen::VectorXd omega; // rad/s, increasing
  Eigen::MatrixXd shape; // [dofs x modes], normalised so that shape^T M shape = 1
};
[[nodiscard]] RealModes real_modes(const Assembly& a, double cut_off); // cut_off in Hz; throws ComputeError

} // namespace wingnose::track::detail
