// Vehicle in the vertical plane: rigid bodies (bounce, pitch) and linear spring-damper elements, from a table.
//
// One side of the vehicle: masses and inertias are HALF those of the whole vehicle (per rail), so that each "wheel" is
// one wheel. Every x is measured ahead of the leading wheel, which stands at 0, so what follows it lies at x < 0.
// Coordinates: heave z up (m) and pitch phi (rad), nose of the body up: a point at distance a ahead of the body's
// centre moves up by z + a * phi. SI.
#pragma once

#include "wingnose/words/range.hpp"

#include <Eigen/Core>

#include <string>
#include <string_view>
#include <vector>

namespace wingnose::vehicle {

struct Body {
  std::string name;
  double mass = 0.0;          // kg, > 0, per rail
  double pitch_inertia = 0.0; // kg m2, per rail; 0 = the body cannot pitch (one coordinate only)
  double x = 0.0;             // m, centre ahead (+) of the leading wheel; usually <= 0
  [[nodiscard]] friend bool operator==(const Body&, const Body&) = default;
};
constexpr auto ranges(const Body*) {
  return std::array{InRange{&Body::mass, "mass", "kg", 1, 500e3},
                    InRange{&Body::pitch_inertia, "pitch_inertia", "kg m2", 0, 100e6},
                    InRange{&Body::x, "x", "m", -200, 50}};
}
// A spring and a damper side by side. On a body it acts at x; a wheel only heaves, so there x must lie within the
// wheel's radius of its centre.
struct Suspension {
  std::string upper, lower; // body or wheel names
  double x = 0.0;           // m, where it acts, same origin as Body::x
  double stiffness = 0.0;   // N/m, >= 0; the tangent at the static load where the real spring is not linear
  double damping = 0.0;     // N s/m, >= 0
  [[nodiscard]] friend bool operator==(const Suspension&, const Suspension&) = default;
};
constexpr auto ranges(const Suspension*) {
  return std::array{InRange{&Suspension::x, "x", "m", -200, 50},
                    InRange{&Suspension::stiffness, "stiffness", "N/m", 0, 1e9},
                    InRange{&Suspension::damping, "damping", "N s/m", 0, 10e6}};
}
struct Wheel {
  std::string name;
  double unsprung_mass = 0.0; // kg per wheel, > 0
  double x = 0.0;             // m, <= 0, 0 for the leading wheel; strictly decreasing
  double radius = 0.46;       // m, > 0
  [[nodiscard]] friend bool operator==(const Wheel&, const Wheel&) = default;
};
constexpr auto ranges(const Wheel*) {
  return std::array{InRange{&Wheel::unsprung_mass, "unsprung_mass", "kg", 10, 20e3},
                    InRange{&Wheel::x, "x", "m", -200, 0}, InRange{&Wheel::radius, "radius", "m", 0.15, 1}};
}
struct Vehicle {
  std::string name;
  std::vector<Body> bodies;
  std::vector<Wheel> wheels; // leading first
  std::vector<Suspension> suspensions;
  std::string source;
  [[nodiscard]] friend bool operator==(const Vehicle&, const Vehicle&) = default;
};

// What a coordinate of the model moves.
enum class Motion { wheel, heave, pitch };

// Matrices: coordinates ordered wheels first (one each), then bodies (heave, then pitch where it has inertia).
struct VehicleModel {
  Eigen::MatrixXd M, C, K;             // kg (kg m2), N s/m, N/m; symmetric, M diagonal
  Eigen::VectorXd weight;              // N, gravity forces in the coordinates, downward positive
  std::vector<double> wheel_x;         // m
  std::vector<double> static_load;     // N per wheel, from equilibrium on level track
  std::vector<double> wheel_radius;    // m
  std::vector<std::string> coordinate; // names, e.g. "wheel 1", "body heave"
  std::vector<Motion> motion;          // of each coordinate
  [[nodiscard]] int wheels() const { return static_cast<int>(wheel_x.size()); }
};
// Static loads follow from equilibrium on level track with all springs of such a length that the unloaded vehicle is
// level; where more supports carry a body than equilibrium can tell apart, the stiffnesses share the load.
// Throws InputError: unknown or doubled names, values out of range, wheels out of order, an element joining a body to
// itself, a body that hangs on too few supports, a wheel that would hang in the air.
[[nodiscard]] VehicleModel assemble(const Vehicle& vehicle);

// The same vehicle with everything above its wheels laden alike (masses and inertias by one factor), so that `wheel`
// (index) stands on level track under `load` (N). Throws InputError for a load not above the weight of the wheel itself
// or a wheel that carries nothing else.
[[nodiscard]] VehicleModel laden(const VehicleModel& model, int wheel, double load);

// One side of a vehicle whose masses, springs and dampers are given for both rails.
[[nodiscard]] Vehicle one_side_of(Vehicle both);

// Displacement of every coordinate under gravity (m or rad, up), level and rigid track: minus the static deflection.
[[nodiscard]] Eigen::VectorXd static_displacement(const VehicleModel& model);

struct Mode {
  double frequency;     // Hz, |lambda| / (2 pi), that is the undamped frequency; oscillates at sqrt(1 - zeta^2) of it
  double damping_ratio; // -, -Re(lambda) / |lambda|; an overdamped pair appears as two entries with ratio 1
  std::string dominant; // coordinates that hold most of the kinetic energy, joined by " + "
};
// Eigenvalues of the damped system, ascending frequency. wheels_held: wheels fixed to rigid track, else the vehicle
// floats free and its rigid motions appear with frequency 0. Throws ComputeError if the eigenvalues do not converge.
[[nodiscard]] std::vector<Mode> modes(const VehicleModel&, bool wheels_held);
[[nodiscard]] std::vector<double> undamped_frequencies(const VehicleModel&, bool wheels_held); // Hz ascending

// Presets: "wheel", "bogie", "coach" (published benchmark: Iwnicki 1998, doi:10.1080/00423119808969454), "wagon",
// "locomotive" (class values from memory).
// Vehicle::source says what each value rests on.
[[nodiscard]] Vehicle preset(std::string_view name); // throws InputError listing the names
[[nodiscard]] std::vector<std::string> preset_names();
// One wheel under its primary suspension carrying the rest of `static_load` (N). Throws InputError if the unsprung
// mass alone weighs as much as that.
[[nodiscard]] Vehicle single_wheel(double static_load, double unsprung_mass, double primary_stiffness,
                                   double primary_damping, double radius);

} // namespace wingnose::vehicle
