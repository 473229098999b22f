// The coach of the 1998 benchmark and what is made of it.
#include "wingnose/vehicle/space/presets.hpp"

#include "wingnose/words/names.hpp"

namespace wingnose::vehicle::space {
namespace {

constexpr double body_mass = 32000.0, frame_mass = 2615.0;   // kg
constexpr double wheel_radius = 0.46;                        // m
constexpr double axle_spacing = 2.56, bogie_distance = 19.0; // m
constexpr double across = 1.0;                               // m, of both stages of springs
constexpr double body_height = 1.8, frame_height = 0.6;      // m
constexpr double secondary_height = 0.83, lateral_damper_height = 0.70, rod_height = 0.60; // m

constexpr const char* coach_source =
    "Iwnicki, The Manchester benchmarks for rail vehicle simulation, Vehicle System Dynamics 30, 1998, vehicle 1, from "
    "memory: masses, inertias, heights of the centres of gravity, spacings, stiffness high; dampers along and across, "
    "lateral dampers, springs in series, roll bar, traction rod's stiffness, heights of springs medium; traction rod's "
    "damping and height low. The secondary springs reach from 0.525 to 1.13 m and are sheared at 0.83 m. Left out: "
    "their bending stiffness (10.5 kN m/rad, low), the lateral stops (not recalled)";

Wheelset wheelset(const std::string& name, double x) {
  Wheelset out;
  out.name = name;
  out.mass = 1813.0;
  out.roll_inertia = out.yaw_inertia = 1120.0;
  out.spin_inertia = 112.0;
  out.x = x;
  out.wheel[0].radius = out.wheel[1].radius = wheel_radius;
  return out;
}

RigidBody frame(const std::string& name, double x) {
  return {.name = name,
          .mass = frame_mass,
          .roll_inertia = 1722.0,
          .pitch_inertia = 1476.0,
          .yaw_inertia = 3067.0,
          .x = x,
          .z = frame_height};
}

void add_primary(SpatialVehicle& vehicle, const std::string& upper, const Wheelset& lower) {
  for (const double y : {across, -across}) {
    Link link{.upper = upper, .lower = lower.name, .x = lower.x, .y = y, .z = wheel_radius};
    link.along = {LinkDirection{.stiffness = 31.391e6, .damping = 15e3},
                  LinkDirection{.stiffness = 3.884e6, .damping = 2e3},
                  LinkDirection{.stiffness = 1.22e6, .damping = 4e3, .series_stiffness = 1e6}};
    vehicle.links.push_back(link);
  }
}

// Springs and vertical dampers stand first, so that the vertical half has them in the order of that room's presets.
void add_secondary(SpatialVehicle& vehicle, const std::string& upper, const RigidBody& lower) {
  for (const double y : {across, -across}) {
    Link link{.upper = upper, .lower = lower.name, .x = lower.x, .y = y, .z = secondary_height};
    link.along = {LinkDirection{.stiffness = 160e3}, LinkDirection{.stiffness = 160e3},
                  LinkDirection{.stiffness = 430e3, .damping = 20e3, .series_stiffness = 6e6}};
    vehicle.links.push_back(link);
  }
}

void add_guidance(SpatialVehicle& vehicle, const std::string& upper, const RigidBody& lower) {
  for (int damper = 0; damper < 2; ++damper) {
    Link link{.upper = upper, .lower = lower.name, .x = lower.x, .z = lateral_damper_height};
    link.along[1] = {.damping = 32e3, .series_stiffness = 6e6};
    vehicle.links.push_back(link);
  }
  Link rod{.upper = upper, .lower = lower.name, .x = lower.x, .z = rod_height};
  rod.along[0] = {.stiffness = 5e6, .damping = 25e3};
  vehicle.links.push_back(rod);
  Link bar{.upper = upper, .lower = lower.name, .x = lower.x, .z = rod_height};
  bar.about[0] = {.stiffness = 940e3};
  vehicle.links.push_back(bar);
}

void add_bogie(SpatialVehicle& vehicle, const std::string& name, double centre, const std::string& carried) {
  const RigidBody body = frame(name, centre);
  for (const double x : {centre + axle_spacing / 2.0, centre - axle_spacing / 2.0}) {
    vehicle.wheelsets.push_back(wheelset("wheelset " + std::to_string(vehicle.wheelsets.size() + 1), x));
    add_primary(vehicle, name, vehicle.wheelsets.back());
  }
  vehicle.bodies.push_back(body);
  add_secondary(vehicle, carried, body);
}

SpatialVehicle coach() {
  SpatialVehicle vehicle;
  vehicle.name = "coach_1998";
  vehicle.source = coach_source;
  const double front = -axle_spacing / 2.0, rear = front - bogie_distance;
  vehicle.bodies.push_back({.name = "body",
                            .mass = body_mass,
                            .roll_inertia = 56800.0,
                            .pitch_inertia = 1.97e6,
                            .yaw_inertia = 1.97e6,
                            .x = (front + rear) / 2.0,
                            .z = body_height});
  add_bogie(vehicle, "front bogie", front, "body");
  add_bogie(vehicle, "rear bogie", rear, "body");
  add_guidance(vehicle, "body", vehicle.bodies[1]);
  add_guidance(vehicle, "body", vehicle.bodies[2]);
  return vehicle;
}

// What lies above, reduced to a weight that only heaves: all else of it is held beside the track.
RigidBody weight_above(double mass, double x, double z) {
  return {.name = "body",
          .mass = mass,
          .roll_inertia = mass,
          .pitch_inertia = mass,
          .yaw_inertia = mass,
          .x = x,
          .z = z,
          .free = {false, false, true, false, false, false}};
}

SpatialVehicle bogie() {
  SpatialVehicle vehicle;
  vehicle.name = "bogie";
  vehicle.source =
      std::string("One bogie of the coach under half of its body, which heaves and is held in all else. ") +
      coach_source;
  const double centre = -axle_spacing / 2.0;
  vehicle.bodies.push_back(weight_above(body_mass / 2.0, centre, body_height));
  add_bogie(vehicle, "bogie", centre, "body");
  add_guidance(vehicle, "body", vehicle.bodies[1]);
  return vehicle;
}

SpatialVehicle one_wheelset() {
  SpatialVehicle vehicle;
  vehicle.name = "wheelset";
  vehicle.source = std::string("One wheelset of the coach under its springs and an axle's share of frames and body, "
                               "which heaves and is held in all else. ") +
                   coach_source;
  vehicle.bodies.push_back(weight_above((body_mass + 2.0 * frame_mass) / 4.0, 0.0, frame_height));
  vehicle.wheelsets.push_back(wheelset("wheelset 1", 0.0));
  add_primary(vehicle, "body", vehicle.wheelsets.front());
  return vehicle;
}

} // namespace

std::vector<std::string> preset_names() { return {"wheelset", "bogie", "coach_1998"}; }

SpatialVehicle preset(std::string_view name) {
  if (name == "wheelset") {
    return one_wheelset();
  }
  if (name == "bogie") {
    return bogie();
  }
  if (name == "coach_1998") {
    return coach();
  }
  refuse_name("a vehicle in space", name, preset_names());
}

} // namespace wingnose::vehicle::space
