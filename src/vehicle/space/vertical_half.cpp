// From the vehicle in space to one side of it in the vertical plane.
#include "sound.hpp"

#include "wingnose/vehicle/space/presets.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>

namespace wingnose::vehicle::space {
namespace {

constexpr auto heave = static_cast<std::size_t>(Motion::z), pitch = static_cast<std::size_t>(Motion::pitch);

std::string wheel_name(std::size_t i) { return "wheel " + std::to_string(i + 1); }

std::string name_in_plane(const SpatialVehicle& vehicle, const std::string& part) {
  for (std::size_t i = 0; i < vehicle.wheelsets.size(); ++i) {
    if (vehicle.wheelsets[i].name == part) {
      return wheel_name(i);
    }
  }
  return part;
}

void add_suspension(vehicle::Vehicle& half, const vehicle::Suspension& one) {
  const auto same = std::find_if(half.suspensions.begin(), half.suspensions.end(), [&](const vehicle::Suspension& s) {
    return s.upper == one.upper && s.lower == one.lower && s.x == one.x;
  });
  if (same == half.suspensions.end()) {
    half.suspensions.push_back(one);
  } else {
    same->stiffness += one.stiffness;
    same->damping += one.damping;
  }
}

} // namespace

vehicle::Vehicle vertical_half(const SpatialVehicle& vehicle) {
  check(vehicle);
  vehicle::Vehicle half;
  half.name = vehicle.name;
  half.source = "One side of the vehicle in space, in the vertical plane. " + vehicle.source;
  for (const RigidBody& body : vehicle.bodies) {
    if (!body.free[heave]) {
      throw InputError("vertical half: body \"" + body.name + "\"", "its z held", "a body that heaves",
                       "A body held beside the track carries nothing in the vertical plane: remove it first.");
    }
    half.bodies.push_back({body.name, body.mass / 2.0, body.free[pitch] ? body.pitch_inertia / 2.0 : 0.0, body.x});
  }
  for (std::size_t i = 0; i < vehicle.wheelsets.size(); ++i) {
    const Wheelset& w = vehicle.wheelsets[i];
    half.wheels.push_back({wheel_name(i), w.mass / 2.0, w.x, w.height()});
  }
  for (const Link& link : vehicle.links) {
    const LinkDirection& up = link.along[static_cast<std::size_t>(Motion::z)];
    if (up.stiffness > 0.0 || up.damping > 0.0) {
      add_suspension(half, {name_in_plane(vehicle, link.upper), name_in_plane(vehicle, link.lower), link.x,
                            up.stiffness / 2.0, up.damping / 2.0});
    }
  }
  return half;
}

} // namespace wingnose::vehicle::space
