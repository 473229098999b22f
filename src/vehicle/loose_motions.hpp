// Which coordinates of a vehicle nothing holds.
#pragma once

#include <Eigen/Core>

#include <span>
#include <string>

namespace wingnose::vehicle::detail {

// Names of the coordinates that move where the stiffness [n x n] holds a motion of them by nothing, joined by commas;
// "" where every motion is held. Scaled to a unit diagonal, so that metres and radians, soft and stiff springs weigh
// alike; what is held stays many decades above the threshold, rounding many below.
[[nodiscard]] std::string loose_motions(const Eigen::MatrixXd& K, std::span<const std::string> names);

} // namespace wingnose::vehicle::detail
