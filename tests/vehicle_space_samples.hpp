// Vehicles in space that tests of more than one kind run.
#pragma once

#include "wingnose/vehicle/space/presets.hpp"
#include "wingnose/vehicle/space/rolling.hpp"

#include <string>

namespace space_samples {

using namespace wingnose::vehicle::space;

inline constexpr Terms bare{.geometric = false, .gyroscopic = false, .series = false};
inline constexpr Freedom none_free{false, false, false, false, false, false};

// A wheelset alone: nothing above, nothing beside it.
inline Wheelset lone_wheelset(double mass = 1813.0, double yaw_inertia = 1120.0) {
  Wheelset w;
  w.name = "wheelset";
  w.mass = mass;
  w.roll_inertia = w.yaw_inertia = yaw_inertia;
  w.spin_inertia = 112.0;
  return w;
}
// It, held sideways and in yaw by springs to something that runs along beside the track.
inline SpatialVehicle sprung_wheelset(double lateral, double yaw) {
  SpatialVehicle vehicle;
  vehicle.name = "sprung wheelset";
  vehicle.wheelsets = {lone_wheelset()};
  vehicle.bodies = {{.name = "guide",
                     .mass = 100,
                     .roll_inertia = 1,
                     .pitch_inertia = 1,
                     .yaw_inertia = 1,
                     .z = 0.46,
                     .free = none_free}};
  for (const double y : {1.0, -1.0}) {
    Link link{.upper = "guide", .lower = "wheelset", .y = y, .z = 0.46};
    link.along[0].stiffness = yaw / 2.0;
    link.along[1].stiffness = lateral / 2.0;
    vehicle.links.push_back(link);
  }
  return vehicle;
}

// Frame and wheelsets of one bogie of the coach, nothing above. yaw: of one wheelset against the frame (N m/rad).
inline SpatialVehicle bare_bogie(double yaw = 62.782e6, double lateral = 7.768e6) {
  SpatialVehicle vehicle = preset("bogie");
  std::erase_if(vehicle.bodies, [](const RigidBody& body) { return body.name == "body"; });
  std::erase_if(vehicle.links, [](const Link& link) { return link.upper == "body"; });
  for (Link& link : vehicle.links) {
    link.along[0] = {.stiffness = yaw / 2.0};
    link.along[1] = {.stiffness = lateral / 2.0};
  }
  return vehicle;
}

// The bogie of Cooperrider (1972) with the numbers Kaas-Petersen (1986) used, recalled; half wheelbase b (m): wheelsets
// shift and yaw, the frame shifts, rolls and yaws, the body above is held.
inline SpatialVehicle cooperrider_bogie(double b) {
  constexpr double axle = 0.4572, d1 = 0.62, d2 = 0.68, h1 = 0.0762, h2 = 0.6584;
  SpatialVehicle vehicle;
  vehicle.name = "Cooperrider bogie";
  vehicle.bodies = {{.name = "body",
                     .mass = 100,
                     .roll_inertia = 1,
                     .pitch_inertia = 1,
                     .yaw_inertia = 1,
                     .x = -b,
                     .z = 2.0,
                     .free = none_free},
                    {.name = "frame",
                     .mass = 2918,
                     .roll_inertia = 6780,
                     .pitch_inertia = 6780,
                     .yaw_inertia = 6780,
                     .x = -b,
                     .z = axle + h1,
                     .free = {false, true, false, true, false, true}}};
  for (const char* name : {"front", "rear"}) {
    Wheelset w = lone_wheelset(1022.0, 678.0);
    w.name = name;
    w.x = vehicle.wheelsets.empty() ? 0.0 : -2.0 * b;
    w.half_spacing = 0.7163;
    w.wheel[0].radius = w.wheel[1].radius = axle;
    w.free = {false, true, false, false, false, true};
    vehicle.wheelsets.push_back(w);
  }
  for (const double side : {1.0, -1.0}) {
    for (const Wheelset& w : vehicle.wheelsets) {
      Link primary{.upper = "frame", .lower = w.name, .x = w.x, .y = side * d1, .z = axle};
      primary.along = {LinkDirection{.stiffness = 3.646e6}, LinkDirection{.stiffness = 1.823e6},
                       LinkDirection{.stiffness = 3.646e6}};
      vehicle.links.push_back(primary);
    }
    Link secondary{.upper = "body", .lower = "frame", .x = -b, .y = side * d2, .z = axle + h1 + h2};
    secondary.along[1] = {.stiffness = 182.3e3, .damping = 29.2e3};
    secondary.along[2] = {.stiffness = 333.3e3, .damping = 20e3};
    secondary.about[2] = {.stiffness = 2.71e6 / 2.0};
    vehicle.links.push_back(secondary);
  }
  return vehicle;
}
inline AnalyticContact cooperrider_contact() {
  constexpr double stiffness = 6.563e6, along = 0.54219, across = 0.60252; // N; -: G pi a b, psi, phi of the paper
  return {.conicity = 0.05,
          .f11 = stiffness / along,
          .f22 = stiffness / across,
          .flange_stiffness = 14.6e6,
          .flange_clearance = 9.1e-3,
          .friction_limit = 10e3};
}

} // namespace space_samples
