// Rides in space that tests of more than one kind take.
#pragma once

#include "wingnose/passage/space/history.hpp"
#include "wingnose/vehicle/space/presets.hpp"

#include <cmath>
#include <vector>

namespace space_rides {

using namespace wingnose::passage::space;
using wingnose::layout::turnout::Route;

inline Ground plain_60e1() { return plain_track(wingnose::profile::rail_head("60E1", std::atan(1.0 / 40.0))); }
// Straight, then through a transition into a curve that goes on, towards +y where the curvature (1/m) is positive.
inline Ground curve(double curvature, double cant = 0.0, double transition = 30.0) {
  Ground ground = plain_60e1();
  ground.route = Route(30.0, {{transition, 0.0, curvature, 0.0, cant}, {1e4, curvature, curvature, cant, cant}});
  return ground;
}
inline Rolling coach() { return rolling(wingnose::vehicle::space::preset("coach_1998"), wingnose::profile::s1002()); }
// One wheelset of the coach under an axle's share of its weight, which guides it neither sideways nor in yaw.
inline Rolling free_wheelset(const wingnose::profile::WheelProfile& wheel) {
  wingnose::vehicle::space::SpatialVehicle vehicle = wingnose::vehicle::space::preset("wheelset");
  for (auto& link : vehicle.links) {
    link.along[0] = link.along[1] = {};
  }
  return rolling(vehicle, wheel);
}
inline Eigen::Index last(const SpaceHistory& history) { return history.shift.rows() - 1; }

} // namespace space_rides
