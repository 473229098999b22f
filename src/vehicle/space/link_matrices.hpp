// One link over the twelve coordinates of its two ends: upper x, y, z, roll, pitch, yaw, then those of the lower.
#pragma once

#include "wingnose/vehicle/space/vehicle.hpp"

#include <Eigen/Core>

namespace wingnose::vehicle::space {

using EndRows = Eigen::Matrix<double, 3, 12>;
using EndMatrix = Eigen::Matrix<double, 12, 12>;

// How far the upper end moves away from the lower one, and turns against it. upper, lower: the link's point from their
// centres of gravity (m).
[[nodiscard]] EndRows stretch_rows(const Eigen::Vector3d& upper, const Eigen::Vector3d& lower);
[[nodiscard]] EndRows turning_rows();

// What a preload adds to the stiffness; tension: force of the link on its lower end at rest (N).
[[nodiscard]] EndMatrix geometric_matrix(const Eigen::Vector3d& tension, const Eigen::Vector3d& upper,
                                         const Eigen::Vector3d& lower, double axes_with_upper);

} // namespace wingnose::vehicle::space
