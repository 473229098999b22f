// Where a link's two ends stand: parts of the vehicle, points on them, coordinates among all.
#pragma once

#include "link_matrices.hpp"

#include "wingnose/vehicle/space/model.hpp"

#include <Eigen/Core>

#include <array>
#include <vector>

namespace wingnose::vehicle::space {

struct Ends {
  int upper, lower;                       // parts
  Eigen::Vector3d from_upper, from_lower; // m, the link's point from their centres of gravity
};
[[nodiscard]] std::vector<Ends> ends_of(const SpatialVehicle& vehicle);

// Where the twelve coordinates of two ends stand among all, -1 where the end knows no such motion.
[[nodiscard]] std::array<int, 12> places(const SpatialModel& model, const Ends& ends);
void scatter(const EndMatrix& of_ends, const std::array<int, 12>& at, Eigen::MatrixXd& to);

// What carries the vehicle at rest on level track: displacements, preloads and what they add to the stiffness, wheel
// loads. Throws InputError where a motion is not carried or a wheel would hang in the air.
void rest(SpatialModel& model, const std::vector<Ends>& ends);

} // namespace wingnose::vehicle::space
