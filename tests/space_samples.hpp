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

// J, from a thirtieth of a ride to its end: what keeps the wheelsets at their speed puts in, and where it goes.
struct EnergyBalance {
  double drive = 0.0, creep = 0.0, damping = 0.0, stored = 0.0;
  [[nodiscard]] double residual() const { return drive - creep - damping - stored; }
};
inline EnergyBalance energy_balance(const SpaceHistory& run) {
  EnergyBalance sum;
  const auto first = static_cast<std::size_t>(last(run) / 30);
  for (std::size_t i = first + 1; i < run.time.size(); ++i) {
    const double half = 0.5 * (run.time[i] - run.time[i - 1]);
    const auto row = static_cast<Eigen::Index>(i);
    sum.drive += half * (run.drive_power[i] + run.drive_power[i - 1]);
    sum.creep += half * (run.creep_power.row(row).sum() + run.creep_power.row(row - 1).sum());
    sum.damping += half * (run.damping_power[i] + run.damping_power[i - 1]);
  }
  sum.stored = run.stored.back() - run.stored[first];
  return sum;
}

} // namespace space_rides
