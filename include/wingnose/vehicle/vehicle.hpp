// Vehicle in the vertical plane: rigid bodies (bounce, pitch) and linear spring-damper elements, from a table.
//
// One side of the vehicle: masses and inertias are HALF those of the whole vehicle (per rail), so that each "wheel" is
// one wheel. Coordinates: heave z up (m), pitch phi about +y such that a point at +x (ahead) moves by z - x * phi is
// NOT used here: a point at longitudinal distance a ahead of the body's centre moves up by z + a * phi. SI.
#pragma once

#include <Eigen/Core>

#include <complex>
#include <string>
#include <string_view>
#include <vector>

namespace wingnose::vehicle {

struct Body {
  std::string name;
  double mass;          // kg, > 0, per rail
  double pitch_inertia; // kg m2; 0 = the body cannot pitch (one coordinate only)
  double x;             // m, centre ahead (+) of the leading wheel; usually <= 0
};
struct Suspension {
  std::string upper, lower; // body or wheel names
  double x;                 // m, where it acts, same origin as Body::x
  double stiffness;         // N/m
  double damping;           // N s/m
};
struct Wheel {
  std::string name;
  double unsprung_mass; // kg per wheel
  double x;             // m, <= 0, 0 for the leading wheel; strictly decreasing
  double radius;        // m
};
struct Vehicle {
  std::string name;
  std::vector<Body> bodies;
  std::vector<Wheel> wheels; // leading first
  std::vector<Suspension> suspensions;
  std::string source;
};

// Matrices: coordinates ordered wheels first (one each), then bodies (heave, then pitch where it has inertia).
struct VehicleModel {
  Eigen::MatrixXd M, C, K;
  Eigen::VectorXd weight;              // N, gravity forces in the coordinates, downward positive
  std::vector<double> wheel_x;         // m
  std::vector<double> static_load;     // N per wheel, from equilibrium on level track
  std::vector<std::string> coordinate; // names, e.g. "wheel 1", "body heave"
  [[nodiscard]] int wheels() const { return static_cast<int>(wheel_x.size()); }
};
[[nodiscard]] VehicleModel
assemble(const Vehicle& vehicle); // throws InputError (unknown names, no support, negative values, ...)

struct Mode {
  double frequency;
  double damping_ratio;
  std::string dominant;
};                                                                            // Hz, -
[[nodiscard]] std::vector<Mode> modes(const VehicleModel&, bool wheels_held); // damped eigenvalues, ascending frequency
[[nodiscard]] std::vector<double> undamped_frequencies(const VehicleModel&, bool wheels_held); // Hz ascending

// Presets: "wheel", "bogie", "coach" (published 1998 benchmark), "wagon", "locomotive" (class values from memory).
[[nodiscard]] Vehicle preset(std::string_view name); // throws InputError listing the names
[[nodiscard]] std::vector<std::string> preset_names();
// One wheel under its primary suspension carrying the rest of `static_load`.
[[nodiscard]] Vehicle single_wheel(double static_load, double unsprung_mass, double primary_stiffness,
                                   double primary_damping, double radius);

} // namespace wingnose::vehicle
