// What a vehicle in space gives the rails sideways and down on its way through a turnout, read from its history:
// guiding forces, what the check rail takes, how near flanges come to the nose, where wheels change over, what is worn.
//
// Means are sliding ones over 2 m of travel (EN 14363), named so. None of these numbers is a verdict on derailment.
#pragma once

#include "wingnose/assess/ride_accelerations.hpp"
#include "wingnose/passage/space/history.hpp"
#include "wingnose/profile/wheel.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace wingnose::assess {

// Largest and least over the range stated for the stiffness of a check rail.
struct Band {
  double least, most;
};

struct GuidedWheelset {
  std::string name;
  double static_load = 0.0;                       // N, of a wheel, mean of both
  double sum_of_Y = 0.0;                          // N, largest 2 m mean of both wheels together, without sign
  double prudhomme = 0.0;                         // N, 10 kN and a third of the axle load (Prud'homme 1967), beside it
  double outward_over_Q = 0.0;                    // -, largest 2 m mean of Y outward over that of Q, of either wheel
  double most_Q = 0.0, least_Q = 0.0;             // N, of both wheels: 2 m means
  double unloading = 0.0;                         // -, what the least of these lacks of the load at rest
  double most_shift = 0.0;                        // m, without sign, where it rolls
  double most_attack = 0.0;                       // rad, yaw without sign
  double flange_power = 0.0, flange_energy = 0.0; // W, largest 2 m mean; J: creep where the wheel is steep
  double check_power = 0.0, check_energy = 0.0;   // W, J: of its back on the check rail
  std::optional<double> transfer;                 // m, of the axle, where the nose carries more than the wing
  std::optional<double> nose_margin;              // m, see nose_margin()
  std::optional<passage::space::CheckRailBlow> check;
  std::optional<Band> check_peak, check_impulse; // N, N s
};

struct Guidance {
  std::vector<GuidedWheelset> wheelsets;
  std::vector<PartAcceleration> accelerations; // of bodies and axle boxes, see ride_accelerations.hpp
  double nadal = 0.0;                          // -, see nadal()
};

// What a ride is read with: a facing move, its crossing at +y.
struct RideRead {
  const passage::space::SpaceHistory& history;
  const std::vector<std::vector<passage::space::ContactRecord>>& contacts; // of every instant of the history
  const passage::space::Rolling& rolling;
  const passage::space::Ground& ground;
  const profile::WheelProfile& wheel;
  double friction;  // -
  double nose_face; // m, of the nose from the track's middle, at the gauge point
  double nose_end;  // m, station from which the nose is wide enough not to be feared for
};
[[nodiscard]] Guidance guidance(const RideRead& read);
// The same ride over a check rail of another stiffness: its band grows.
void widen(Guidance& guidance, const passage::space::SpaceHistory& other, const passage::space::Rolling& rolling);

// Steepest angle of a flange's front (rad), from its profile; 0 where it has no flange.
[[nodiscard]] double flange_angle(const profile::WheelProfile& wheel);
// Y/Q at which a flange of that angle may begin to climb (Nadal 1896): (tan a - mu) / (1 + mu tan a).
[[nodiscard]] double nadal(double angle, double friction);

} // namespace wingnose::assess
