#include "ends.hpp"

#include "sound.hpp"

namespace wingnose::vehicle::space {
namespace {

Eigen::Vector3d centre(const SpatialVehicle& vehicle, int part) {
  const auto sets = static_cast<int>(vehicle.wheelsets.size());
  if (part < sets) {
    const Wheelset& wheelset = vehicle.wheelsets[static_cast<std::size_t>(part)];
    return {wheelset.x, 0.0, wheelset.height()};
  }
  const RigidBody& body = vehicle.bodies[static_cast<std::size_t>(part - sets)];
  return {body.x, body.y, body.z};
}

} // namespace

std::vector<Ends> ends_of(const SpatialVehicle& vehicle) {
  std::vector<Ends> out;
  for (const Link& link : vehicle.links) {
    const int upper = part_called(vehicle, link.upper, "link"), lower = part_called(vehicle, link.lower, "link");
    const Eigen::Vector3d at(link.x, link.y, link.z);
    out.push_back({upper, lower, at - centre(vehicle, upper), at - centre(vehicle, lower)});
  }
  return out;
}

// Where the twelve coordinates of two ends stand among all; a link sits on axle boxes, which do not turn with the axle.
std::array<int, 12> places(const SpatialModel& model, const Ends& ends) {
  std::array<int, 12> out{};
  for (std::size_t k = 0; k < 12; ++k) {
    const int part = k < 6 ? ends.upper : ends.lower;
    const auto motion = static_cast<Motion>(k % 6);
    out[k] = part < model.wheelsets() && motion == Motion::pitch ? -1 : index(part, motion);
  }
  return out;
}

void scatter(const EndMatrix& of_ends, const std::array<int, 12>& at, Eigen::MatrixXd& to) {
  for (std::size_t i = 0; i < 12; ++i) {
    for (std::size_t j = 0; j < 12; ++j) {
      if (at[i] >= 0 && at[j] >= 0) {
        to(at[i], at[j]) += of_ends(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j));
      }
    }
  }
}

} // namespace wingnose::vehicle::space
