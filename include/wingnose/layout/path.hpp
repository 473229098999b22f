// Kinematic passage: where a rigid wheel's centre goes over a crossing, body by body and combined.
//
// For each station the rolling envelope is taken: the wheel touches ahead of or behind its axle where the surface
// changes along x. heights are those of the wheel's taping-circle bottom (centre minus nominal radius) over z = 0.
// Roll and yaw turn the wheel about its taping point (touching the plane z = height there) and stay the same along the
// path; in yaw the touching point of an inclined contact moves ahead by R yaw tan(angle), so transfer and dip angle
// move too. Of second order in roll and, in the curvatures, in yaw nothing is kept. Frame: wingnose/words/frame.hpp.
// Outputs follow the definitions: transfer = the two bodies' heights cross; dip angle = slope after - slope before in
// the sense of travel, which is |slope before| + |slope after| where the wheel falls up to the transfer and rises
// behind it (on a lifted wing or a sunken nose the sum of magnitudes would mislead).
//
// Curvatures are what a Hertz contact needs. Along the track: the wheel's circle in the plane of the contact normal,
// less the upward bend of the body along its contact line. Across: the curvature of the parabola that encloses as much
// closed width as the true gap does at a closing depth of 55 um, not below 0.5 1/m; it equals the sum of the local
// curvatures inside one arc and stays continuous where the contact moves to another place.
#pragma once

#include "wingnose/layout/surface.hpp"
#include "wingnose/profile/rail.hpp"
#include "wingnose/profile/wheel.hpp"
#include "wingnose/words/frame.hpp"
#include "wingnose/words/names.hpp"
#include "wingnose/words/range.hpp"

#include <array>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace wingnose::layout {

// Rolling of one wheel on one body, tabulated over stations (same `station` array for all bodies of a path). Where the
// wheel cannot touch the body at all, height is -infinity and the other columns are NaN.
struct BodyPath {
  std::string name;
  std::vector<double> height;      // m
  std::vector<double> contact_y;   // m, from the track centre line
  std::vector<double> contact_dx;  // m, contact point ahead (+x) of the axle
  std::vector<double> wheel_y;     // m, contact on the wheel from its taping line
  std::vector<double> angle;       // rad, contact angle (slope of the common tangent in the cross-section)
  std::vector<double> curvature_x; // 1/m, relative longitudinal curvature (wheel + body), > 0
  std::vector<double> curvature_y; // 1/m, relative lateral curvature (wheel + body), >= 0.5
  Role role = Role::stock;         // of the body; stock: plain rail, on which prescribed paths run
};

struct WheelPath {
  std::vector<double> station;   // m, strictly increasing (x), finer near kinks and transfer
  std::vector<BodyPath> bodies;  // one or two
  std::string excitation;        // "crossing", "kink", "quadratic dip", "given path", "plain line"
  std::optional<double> landing; // m, station where a prescribed path has its kink (no transfer between bodies)
  double wheel_radius = 0.46;    // m
  // How the wheel is held all along; not used by prescribed paths.
  double lateral_offset = 0.0;  // m
  double roll = 0.0, yaw = 0.0; // rad
};

struct PathOptions {
  double lateral_offset = 0.0; // m, shift of the wheelset, + towards +y
  double from, to;             // m, stations covered
  double pitch = 0.001;        // m, regular spacing of stations
  double wheel_radius = 0.46;  // m
  double roll = 0.0;           // rad, -0.03 .. 0.03, positive lifts the field side of the wheel
  double yaw = 0.0;            // rad, -0.03 .. 0.03, positive turns the wheel from x towards y
};
[[nodiscard]] WheelPath roll(const Crossing& crossing, const profile::WheelProfile& wheel, const PathOptions& options);

// Prescribed paths: the excitations the closed forms were made for. Contact curvatures: the given plain-line values.
struct PlainContact {
  double curvature_x, curvature_y, angle;
};
struct DippedJoint {
  enum class Shape { kink, quadratic };
  double dip_angle;   // rad, total (sum of both ramps), > 0
  double half_length; // m, ramp length each side; for kink it may exceed the window ("endless kink")
  Shape shape = Shape::kink;
  double at = 0.0; // m, station of the joint
  [[nodiscard]] friend bool operator==(const DippedJoint&, const DippedJoint&) = default;
};
constexpr auto ranges(const DippedJoint*) {
  return std::array{InRange{&DippedJoint::dip_angle, "dip_angle", "rad", 1e-5, 0.1},
                    InRange{&DippedJoint::half_length, "half_length", "m", 0.01, 100},
                    InRange{&DippedJoint::at, "at", "m", -10, 10}};
}
constexpr auto names(DippedJoint::Shape) {
  return std::array{Name{DippedJoint::Shape::kink, "kink", "two straight ramps"},
                    Name{DippedJoint::Shape::quadratic, "quadratic", "ramps that steepen towards the joint"}};
}
[[nodiscard]] WheelPath dipped_joint(const DippedJoint&, const PlainContact&, const PathOptions&);
struct GivenPath {
  std::vector<double> station, height;
  [[nodiscard]] friend bool operator==(const GivenPath&, const GivenPath&) = default;
}; // m; joined by straight lines; landing = largest slope change
[[nodiscard]] WheelPath given_path(const GivenPath&, const PlainContact&, const PathOptions&);

// Curvatures where a wheel runs on plain rail (for prescribed paths): S1002 on 60E1 1:40 etc.
[[nodiscard]] PlainContact plain_contact(const profile::WheelProfile& wheel, const profile::RailHead& rail,
                                         double wheel_radius);

// What the path means before any force acts.
struct Kinematics {
  std::optional<double> transfer_station;               // m
  std::optional<double> nose_thickness;                 // m, at transfer
  std::optional<double> contact_y_wing, contact_y_nose; // m, at transfer
  std::optional<double> zone_begin, zone_end;           // m, transfer zone: bodies' heights within `zone_tolerance`
  double dip_depth = 0.0; // m, reference height ahead minus lowest height of the combined path, >= 0
  double slope_before = 0.0, slope_after = 0.0; // rad, in the sense of travel
  double dip_angle = 0.0;                       // rad
  std::vector<std::string> warnings;            // rim contact, flange contact, unsupported wheel, sharp edge, ...
};
struct KinematicsOptions {
  Direction direction = Direction::facing;
  double slope_length = 0.020;    // m, length of the straight fits before and after transfer
  double zone_tolerance = 100e-6; // m, about one Hertz approach
  double rim_margin = 0.005;      // m from the field face that counts as rim contact
  [[nodiscard]] friend bool operator==(const KinematicsOptions&, const KinematicsOptions&) = default;
};
constexpr auto ranges(const KinematicsOptions*) {
  using O = KinematicsOptions;
  return std::array{InRange{&O::slope_length, "slope_length", "m", 1e-3, 1},
                    InRange{&O::zone_tolerance, "zone_tolerance", "m", 1e-6, 2e-3},
                    InRange{&O::rim_margin, "rim_margin", "m", 0, 0.05}};
}
[[nodiscard]] Kinematics kinematics(const WheelPath& path, const Crossing* crossing, const profile::WheelProfile& wheel,
                                    const KinematicsOptions& options);

} // namespace wingnose::layout
