// The vehicle in space made ready for answers: matrices about the rest under its own weight, what the links carry
// there, wheel loads of every wheel.
#pragma once

#include "wingnose/vehicle/space/vehicle.hpp"

#include <Eigen/Core>

#include <array>
#include <string>
#include <string_view>
#include <vector>

namespace wingnose::vehicle::space {

// Every part has six coordinates in all matrices, wheelsets first, then bodies, in the vehicle's order; those that are
// held are told by `free`.
[[nodiscard]] constexpr int index(int part, Motion motion) { return motions * part + static_cast<int>(motion); }

// Force between a damper with a spring in series: stretch . u is how far its ends have moved apart.
struct SeriesDamper {
  Eigen::VectorXd stretch;
  double stiffness, damping; // N/m, N s/m
};
// One direction of a link that small motion does not tell all of: it has a stop, or its damper gives way.
struct BeyondSmall {
  Eigen::VectorXd stretch;
  LinkDirection law;
  int series; // its damper among those in series, -1 where it is none of them
};
// Effects that can be left out, to see what they do.
struct Terms {
  bool geometric = true;  // preloaded links turning and shearing: the weight of the swayed body
  bool gyroscopic = true; // of the wheelsets, which turn at forward speed over radius
  bool series = true;     // springs in series with dampers; otherwise their ends do not give
  [[nodiscard]] friend bool operator==(const Terms&, const Terms&) = default;
};

// Small motion about rest: M u'' + (C + V gyroscopic) u' + (K + geometric) u and the dampers in series. Stops are not
// met at rest, dampers are those of small speeds.
struct SpatialModel {
  SpatialVehicle vehicle;
  std::vector<std::string> coordinate; // names: "wheelset 1 y", "front bogie roll"
  std::vector<int> free;               // coordinates that may move, ascending
  Eigen::MatrixXd M, C, K;             // kg (kg m2), N s/m, N/m; symmetric, M diagonal
  Eigen::MatrixXd geometric;           // N/m (N m/rad), symmetric; of preloads along x, y, z, not of moments about them
  Eigen::MatrixXd gyroscopic;          // N s/m per m/s of forward speed, skew
  std::vector<SeriesDamper> series;
  std::vector<BeyondSmall> beyond;
  Eigen::VectorXd weight;                        // N, downward positive
  Eigen::VectorXd settled;                       // m, rad: displacement from unloaded to rest, wheels on level track
  std::vector<Eigen::Vector3d> preload;          // N, at rest, of each link: force on its upper body
  std::vector<std::array<double, 2>> wheel_load; // N, at rest, wheel at +y, wheel at -y of each wheelset

  [[nodiscard]] int wheelsets() const { return static_cast<int>(vehicle.wheelsets.size()); }
  [[nodiscard]] int parts() const { return wheelsets() + static_cast<int>(vehicle.bodies.size()); }
  [[nodiscard]] int size() const { return motions * parts(); }
  [[nodiscard]] int part(std::string_view name) const; // throws InputError listing the names
};

// Throws InputError: unknown or doubled names, values out of range, wheelsets out of order, a link that joins a body to
// itself or does nothing, a damper's series spring or blow-off without the damper, a motion that no link carries (the
// weight included), a wheel that would hang in the air.
[[nodiscard]] SpatialModel assemble(const SpatialVehicle& vehicle);

// Leaning under a lateral acceleration (m/s2, towards -y where positive: what a curve to +y leaves uncompensated), with
// the wheelsets held: displacements (m, rad) and the load of every wheel (N).
struct Lean {
  Eigen::VectorXd displacement;
  std::vector<std::array<double, 2>> wheel_load;
};
[[nodiscard]] Lean lean(const SpatialModel& model, double lateral_acceleration, const Terms& terms = {});

} // namespace wingnose::vehicle::space
