// Creepage: how fast the wheel's surface slides over the rail's at the contact, over the speed of travel.
//
// Kalker 1990, "Three-Dimensional Elastic Bodies in Rolling Contact": with rigid bodies meeting at
// the contact, v the velocity of the wheel's material there (the rail rests) and omega the wheel's angular velocity,
//   longitudinal  xi  = v . t_x / V       lateral  eta = v . t_y / V       spin  phi = omega . n / V  (1/m)
// V the speed of travel. So a positive creepage means the wheel slides forward (or to +y) over the rail, the tangential
// force ON THE WHEEL opposes it (Fx = -G a b C11 xi), and a braked wheel has xi > 0, a driven one xi < 0.
//
// Contact frame, right-handed: t_x along the sense of travel (rolling direction), n the normal from the rail into the
// wheel, t_y = n x t_x. In a facing move this is the frame of wingnose/words/frame.hpp turned about x by the contact
// angle; in a trailing move t_x and t_y point along -x and -y. SI, rad.
#pragma once

#include "wingnose/words/frame.hpp"

#include <array>

namespace wingnose::contact {

struct Creepage {
  double longitudinal = 0.0; // xi, -
  double lateral = 0.0;      // eta, -
  double spin = 0.0;         // phi, 1/m
  [[nodiscard]] friend bool operator==(const Creepage&, const Creepage&) = default;
};

// Tangential force on the wheel in the contact frame, and the moment on it about the normal.
struct CreepForce {
  double longitudinal = 0.0; // N, along t_x
  double lateral = 0.0;      // N, along t_y
  double moment = 0.0;       // N m, about n
  [[nodiscard]] friend bool operator==(const CreepForce&, const CreepForce&) = default;
};

// Motion of a wheelset and where one of its wheels touches. Angles and velocities in the frame of frame.hpp whatever
// the sense of travel.
struct WheelMotion {
  double speed = 0.0;                      // m/s, > 0, of the wheelset's centre along the route, in the sense of travel
  Direction direction = Direction::facing; // sense of travel
  double angular_speed = 0.0;              // rad/s, about the axle, positive when rolling in the sense of travel
  double rolling_radius = 0.0;             // m, > 0, from the axle to the contact, square to the axle
  double contact_angle = 0.0;              // rad, in (-pi/2, pi/2): slope dz/dy of the common tangent plane
  double offset_y = 0.0;                   // m, contact from the wheelset's centre along the axle, + towards +y
  double offset_x = 0.0;                   // m, contact ahead (+x) of the axle
  double yaw = 0.0;                        // rad, about z, positive from x towards y
  double lateral_speed = 0.0;              // m/s, of the wheelset's centre, + towards +y
  double vertical_speed = 0.0;             // m/s, + up
  double yaw_rate = 0.0;                   // rad/s, about z
  double roll_rate = 0.0;                  // rad/s, about x, positive from y towards z
  [[nodiscard]] friend bool operator==(const WheelMotion&, const WheelMotion&) = default;
};

// Exact rigid-body kinematics, nothing linearised; the axle is level (roll enters through its rate and the contact
// angle). Throws InputError for members out of range.
[[nodiscard]] Creepage creepage(const WheelMotion& motion);

// The usual closed form, linear in yaw, rates and the difference of radii (facing, offset_x = 0, pure rolling of the
// centre at angular speed V / nominal_radius): for hand checks. Same range checks.
[[nodiscard]] Creepage creepage_linearised(const WheelMotion& motion, double nominal_radius);

// Force on the wheel of a contact whose normal force is `normal` (N), as (Fx, Fy, Fz) in the frame of frame.hpp.
[[nodiscard]] std::array<double, 3> track_force(const CreepForce& force, double normal, double contact_angle,
                                                Direction direction);

} // namespace wingnose::contact
