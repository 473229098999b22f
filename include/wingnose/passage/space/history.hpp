// What a ride in space leaves behind. Rows are instants, columns wheelsets or wheels (wheelset 1 at +y, at -y, wheelset
// 2 at +y, ...). Y and Q are what the wheels give the rails: Y towards +y, Q downwards; the check rail's share is not
// in them. SI.
#pragma once

#include "wingnose/contact/tangential/creepage.hpp"
#include "wingnose/passage/history.hpp"
#include "wingnose/passage/space/ride.hpp"

#include <Eigen/Core>

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace wingnose::passage::space {

// A wheel that has run into a body instead of onto it: a flange into the tip of a nose. Grave; the ride ends there with
// what is known, for no force could be told.
struct RunInto {
  int wheelset, wheel, body; // body: index among Ground::bodies
  double station;            // m, of the contact
  double wheel_y;            // m, on the wheel, from its taping line
};

struct SpaceHistory {
  std::vector<double> time, station; // s; m, of the leading wheelset
  Eigen::MatrixXd shift;             // m, of a wheelset's axle
  Eigen::MatrixXd shift_at_rail;     // m, where it rolls: axle + radius roll
  Eigen::MatrixXd yaw, roll;         // rad; yaw against the track: the angle of attack of the rail at +y
  Eigen::MatrixXd height;            // m, of the axle over its height at rest
  // Of every part, wheelsets first, then bodies: m/s, across and up, and rad/s, absolute ones along the axes of the
  // track at its place; rad, against the track.
  Eigen::MatrixXd shift_rate, rise_rate, roll_rate, part_roll;
  Eigen::MatrixXd Y, Q;          // N, of a wheel on its rail
  Eigen::MatrixXd on_nose;       // N, of Q, what noses carry
  Eigen::MatrixXd creep_power;   // W, of a wheel
  Eigen::MatrixXd check_force;   // N, of the back of a wheelset's wheel on the check rail
  Eigen::MatrixXd check_station; // m, where it was met last
  Eigen::MatrixXd contact_y;     // m, of a wheel's heaviest contact on the wheel, from its taping line
  Eigen::MatrixXd contact_angle; // rad, there
  Eigen::MatrixXd contacts;      // -, regions in contact of a wheel
  // Where Ride::energy asks for them.
  std::vector<double> drive_power;   // W, that keeps the wheelsets at their speed
  std::vector<double> damping_power; // W, of links and rails
  std::vector<double> stored;        // J, energy of vehicle, rails and contacts, but for a constant
  std::optional<RunInto> run_into;
  bool rails_bend = false;           // else they run along as masses, and there are no P1, P2 and peaks
  double evaluations_per_step = 0.0; // searches of a wheelset a step, in the mean
  [[nodiscard]] Eigen::Index wheelsets() const { return shift.cols(); }
  // N, sum of both wheels of every wheelset.
  [[nodiscard]] Eigen::MatrixXd sum_of_Y() const;
  // Rows without an instant are left out.
  void shorten();
};

// Mean over a length that has been run (m), at every instant over what lies before it; shorter where the history
// begins. The 2 m mean of EN 14363 is sliding_mean(history, values, 2.0).
[[nodiscard]] Eigen::MatrixXd sliding_mean(const SpaceHistory& history, const Eigen::MatrixXd& values, double length);

// What one wheelset did to the check rail; absent where it never touched it.
struct CheckRailBlow {
  double first, last; // m, stations of the axle
  double peak, at;    // N; m, station of the face there
  double impulse;     // N s
  double attack;      // rad, yaw of the wheelset at the first touch
};
[[nodiscard]] std::optional<CheckRailBlow> check_rail_blow(const SpaceHistory& history, const Rolling& rolling,
                                                           Eigen::Index wheelset);

// One wheel of a ride (0 at +y, 1 at -y) as the vertical passage tells its own, so that the same measures can be taken:
// at equal steps, straight between the instants kept; Q as force, what noses carry and what all else does as those of
// nose and wing, touch and lift-off where the approach begins and ends by the samples nearest to it. What the rail does
// is not in it. Throws InputError for a wheel that is not there.
[[nodiscard]] History of_wheel(const SpaceHistory& ride, const Rolling& rolling, const Ground& ground,
                               Eigen::Index wheelset, int wheel);

// One contact at one instant, for those who look closely.
struct ContactRecord {
  int wheelset, wheel, body;     // body: index among Ground::bodies, -1: check rail
  double station, y;             // m, of the contact; y from the track centre line
  double wheel_y, angle, radius; // m, rad (outward), m
  double normal;                 // N
  contact::Creepage creepage;
  contact::CreepForce creep; // N, N m, on the wheel
  double power;              // W
};

// Throws InputError for values out of range, bodies missing on a side, wheels that do not fit the vehicle; ComputeError
// where a wheelset leaves the track or is thrown beyond what the search knows.
[[nodiscard]] SpaceHistory simulate(const Rolling& rolling, const Ground& ground, const Ride& ride);
// The same, with every contact of every kept instant.
[[nodiscard]] SpaceHistory simulate(const Rolling& rolling, const Ground& ground, const Ride& ride,
                                    std::vector<std::vector<ContactRecord>>& contacts);

} // namespace wingnose::passage::space
