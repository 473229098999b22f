// Wheelsets on an analytic contact, given by a few numbers instead of profiles: conicity, creep coefficients, a flange
// spring. What is known of a vehicle's running is known of such a contact in closed form; it stands beside the search
// for contact between true shapes, never in its place.
//
// Lateral shift y is that of the wheelset at rail level: where it rolls as it shifts, y = axle + height * roll.
#pragma once

#include "wingnose/vehicle/space/modes.hpp"
#include "wingnose/words/range.hpp"

#include <optional>
#include <string>
#include <vector>

namespace wingnose::vehicle::space {

// Creep forces on a wheel after Kalker (1967), linear: along -f11 v_x, across -f22 v_y - f23 w, turning f23 v_y - f33
// w, where creepages v and spin w are those of the wheel against the rail. Of both wheels alike.
struct AnalyticContact {
  double conicity = 0.1;         // -, half the rolling radius difference over the shift
  double f11 = 1e7, f22 = 1e7;   // N a wheel
  double f23 = 0.0, f33 = 0.0;   // N m, N m2 a wheel
  double roll_per_shift = 0.0;   // rad/m, of the wheelset on the rails, per shift of its axle
  double centring = 0.0;         // 1/m, gravitational stiffness: lateral force per axle load and shift of the axle
  double contact_angle = 0.0;    // rad, in the middle position: the axle load turns a yawed wheelset further by it
  double flange_stiffness = 0.0; // N/m, lateral, against one rail; 0: no flange
  double flange_clearance = 0.0; // m
  double friction_limit = 0.0;   // N a wheel, which creep forces do not exceed; 0: linear
  [[nodiscard]] friend bool operator==(const AnalyticContact&, const AnalyticContact&) = default;
};
constexpr auto ranges(const AnalyticContact*) {
  using A = AnalyticContact;
  return std::array{InRange{&A::conicity, "conicity", "-", 1e-4, 2},
                    InRange{&A::f11, "f11", "N", 1, 1e9},
                    InRange{&A::f22, "f22", "N", 1, 1e9},
                    InRange{&A::f23, "f23", "N m", 0, 1e7},
                    InRange{&A::f33, "f33", "N m2", 0, 1e5},
                    InRange{&A::roll_per_shift, "roll_per_shift", "rad/m", -2, 2},
                    InRange{&A::centring, "centring", "1/m", -100, 1000},
                    InRange{&A::contact_angle, "contact_angle", "rad", 0, 0.5},
                    InRange{&A::flange_stiffness, "flange_stiffness", "N/m", 0, 1e10},
                    InRange{&A::flange_clearance, "flange_clearance", "m", 0, 0.1},
                    InRange{&A::friction_limit, "friction_limit", "N", 0, 1e6}};
}

inline constexpr Range speed_range{0.05, 300.0}; // m/s

// Small motion of the vehicle running straight at a speed (m/s): wheelsets shift and yaw, held down on the rails; their
// turning about the axle is that of pure rolling in the mean, which small lateral motion does not change. The vehicle's
// y of a wheelset is at its axle. Friction limit and flange take no part. Throws InputError for values out of range.
[[nodiscard]] LinearSystem running(const SpatialModel& model, const AnalyticContact& contact, double speed,
                                   const Terms& terms = {});

// From where on small swings grow: the least speed in the range at which the largest real part of the eigenvalues
// crosses zero upwards; the range's own least where they grow already there; nothing where they never do. Looked for in
// steps of 1 m/s, then to 1e-9 of it.
struct CriticalSpeed {
  double speed;         // m/s
  double frequency;     // Hz, there
  std::string dominant; // coordinates that hold most of the kinetic energy
};
[[nodiscard]] std::optional<CriticalSpeed> critical_speed(const SpatialModel& model, const AnalyticContact& contact,
                                                          Range speeds = {1.0, 150.0}, const Terms& terms = {});

// A steady run in a curve towards +y, with linear creep: where wheelsets and bodies stand, each seen from the track at
// its own place. Uncompensated acceleration in m/s2 (V^2 / R less what cant takes), which the creep forces hold.
struct CurveRun {
  Eigen::VectorXd displacement; // m, rad, over the model's coordinates
};
[[nodiscard]] CurveRun steady_curve(const SpatialModel& model, const AnalyticContact& contact, double curvature,
                                    double lateral_acceleration = 0.0, const Terms& terms = {});

// Running in time with all of the contact: creep forces that saturate (Vermeulen, Johnson 1964: of the resultant's
// linear value, over the limit, u: u - u^2/3 + u^3/27, 1 from u = 3 on), the flange spring, stops of links and dampers
// that give way. Classical Runge-Kutta.
struct Hunting {
  double speed = 30.0;            // m/s
  double duration = 10.0;         // s
  double step = 0.5e-3;           // s
  double shift = 1e-3;            // m, of all wheelsets at the start, the rest of the vehicle with them
  int stride = 20;                // steps between what is kept
  std::vector<double> start = {}; // where an earlier run of the same vehicle ended, to follow a swing; empty: the shift
};
constexpr auto ranges(const Hunting*) {
  using H = Hunting;
  return std::array{InRange{&H::speed, "speed", "m/s", speed_range.least, speed_range.most},
                    InRange{&H::duration, "duration", "s", 1e-3, 1e4}, InRange{&H::step, "step", "s", 1e-7, 1e-2},
                    InRange{&H::shift, "shift", "m", -0.1, 0.1}, InRange{&H::stride, "stride", 1, 1000000}};
}
struct HuntingHistory {
  std::vector<double> time; // s
  Eigen::MatrixXd shift;    // m at rail level, a row an instant, a column a wheelset
  std::vector<double> end;  // state at the end: coordinates, rates, places inside dampers
};
// Throws InputError for values out of range and a start of another size, ComputeError where the motion grows beyond 1
// m.
[[nodiscard]] HuntingHistory hunt(const SpatialModel& model, const AnalyticContact& contact, const Hunting& run,
                                  const Terms& terms = {});

} // namespace wingnose::vehicle::space
