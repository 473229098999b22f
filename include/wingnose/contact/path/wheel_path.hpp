// The path of a wheel that is held in one attitude over the bodies of a crossing, or along a prescribed shape: the
// search of contact/search tabulated over stations.
//
// Rolling envelope: at every station the maximum over the wheel's circle is taken: the wheel touches ahead of or behind
// its axle where the surface changes along x. heights are those of the wheel's taping-circle bottom (centre minus
// nominal radius) over z = 0. Roll and yaw turn the wheel about its taping point (touching the plane z = height there)
// and stay the same along the path; in yaw the touching point of an inclined contact moves ahead by R yaw tan(angle),
// so transfer and dip angle move too. Of second order in roll and, in the curvatures, in yaw nothing is kept. What the
// columns mean: Touch in contact/search/patches.hpp. Frame: wingnose/words/frame.hpp.
#pragma once

#include "wingnose/contact/search/held_wheel.hpp"
#include "wingnose/layout/prescribed.hpp"
#include "wingnose/layout/role.hpp"
#include "wingnose/layout/surface.hpp"
#include "wingnose/profile/rail.hpp"
#include "wingnose/profile/wheel.hpp"
#include "wingnose/words/column.hpp"
#include "wingnose/words/frame.hpp"

#include <limits>
#include <optional>
#include <string>
#include <vector>

namespace wingnose::contact {

// Rolling of one wheel on one body, tabulated over stations (same `station` array for all bodies of a path). Where the
// wheel cannot touch the body at all, height is -infinity and the other columns are NaN.
struct BodyPath {
  std::string name;
  std::vector<double> height;              // m
  std::vector<double> contact_y;           // m, from the track centre line
  std::vector<double> contact_dx;          // m, contact point ahead (+x) of the axle
  std::vector<double> wheel_y;             // m, contact on the wheel from its taping line
  std::vector<double> angle;               // rad, contact angle (slope of the common tangent in the cross-section)
  std::vector<double> curvature_x;         // 1/m, relative longitudinal curvature (wheel + body), > 0
  std::vector<double> curvature_y;         // 1/m, relative lateral curvature (wheel + body), >= 0.5
  layout::Role role = layout::Role::stock; // of the body; stock: plain rail, on which prescribed paths run
};
inline constexpr auto body_path_columns = std::to_array<ListColumn<BodyPath>>(
    {{"height_mm", "height", "wheel on this body alone: taping-circle bottom over rail level", &BodyPath::height, 4},
     {"contact_y_mm", "contact y", "contact from the track centre line", &BodyPath::contact_y, 2},
     {"contact_dx_mm", "contact ahead", "contact ahead (+x) of the axle", &BodyPath::contact_dx, 2},
     {"wheel_y_mm", "contact on wheel", "contact on the wheel from its taping line", &BodyPath::wheel_y, 2},
     {"angle_mrad", "contact angle", "contact angle in the cross-section", &BodyPath::angle, 1},
     {"curvature_x_1_m", "curvature along", "sum of curvatures along the track", &BodyPath::curvature_x, 3},
     {"curvature_y_1_m", "curvature across", "sum of curvatures across the track", &BodyPath::curvature_y, 3}});

struct WheelPath {
  std::vector<double> station;   // m, strictly increasing (x), finer near kinks and transfer
  std::vector<BodyPath> bodies;  // one or two
  std::string excitation;        // "crossing", "kink", "quadratic", "sine", "given path", "plain line"
  std::optional<double> landing; // m, station where a prescribed path has its kink (no transfer between bodies)
  double wheel_radius = 0.46;    // m
  // How the wheel is held all along; not used by prescribed paths.
  double lateral_offset = 0.0;  // m
  double roll = 0.0, yaw = 0.0; // rad
  // m, stations between which a given path was given; level beyond.
  double given_from = -std::numeric_limits<double>::infinity(), given_to = std::numeric_limits<double>::infinity();
};
[[nodiscard]] inline Attitude attitude_of(const WheelPath& path) {
  return {path.wheel_radius, path.lateral_offset, path.roll, path.yaw};
}

// Height of the wheel over all bodies at each station (m), -infinity where there is none.
[[nodiscard]] std::vector<double> upper_envelope(const WheelPath& path);

struct PathOptions {
  double lateral_offset = 0.0; // m, shift of the wheelset, + towards +y
  double from, to;             // m, stations covered
  double pitch = 0.001;        // m, regular spacing of stations
  double wheel_radius = 0.46;  // m
  double roll = 0.0;           // rad, -0.03 .. 0.03, positive lifts the field side of the wheel
  double yaw = 0.0;            // rad, -0.03 .. 0.03, positive turns the wheel from x towards y
};

[[nodiscard]] inline Stretch stretch_of(const PathOptions& o) { return {o.from, o.to, o.pitch}; }

// The wheel over the bodies of the crossing. Throws InputError for options out of range or a crossing without bodies.
[[nodiscard]] HeldWheel hold(const layout::Crossing& crossing, const profile::WheelProfile& wheel,
                             const PathOptions& options);
// Its path over the stretch it was made for. Throws ComputeError where it touches nothing.
[[nodiscard]] WheelPath roll(const HeldWheel& wheel);
[[nodiscard]] WheelPath roll(const layout::Crossing& crossing, const profile::WheelProfile& wheel,
                             const PathOptions& options);

// Prescribed paths: the excitations the closed forms were made for. Contact curvatures: the given plain-line values.
struct PlainContact {
  double curvature_x, curvature_y, angle;
};
[[nodiscard]] WheelPath dipped_joint(const layout::DippedJoint&, const PlainContact&, const PathOptions&);
[[nodiscard]] WheelPath given_path(const layout::GivenPath&, const PlainContact&, const PathOptions&);

// Curvatures where a wheel runs on plain rail (for prescribed paths): S1002 on 60E1 1:40 etc.
[[nodiscard]] PlainContact plain_contact(const profile::WheelProfile& wheel, const profile::RailHead& rail,
                                         double wheel_radius);

} // namespace wingnose::contact
