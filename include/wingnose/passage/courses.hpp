// What the wheels of a vehicle run along: made from what lies on the ground, the profile all wheels have and the way
// they are held. Frame: wingnose/words/frame.hpp. SI.
#pragma once

#include "wingnose/contact/path/kinematics.hpp"
#include "wingnose/layout/excitation.hpp"
#include "wingnose/passage/plan.hpp"
#include "wingnose/vehicle/vehicle.hpp"
#include "wingnose/words/finding.hpp"

#include <cstddef>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace wingnose::passage {

struct Span {
  double from, to; // m
};
// Stations covered by any of the wheels while the reported one (index) covers `window`. Throws InputError where there
// is no such wheel.
[[nodiscard]] Span covered(std::span<const vehicle::Wheel> wheels, std::size_t reported, Direction direction,
                           const Span& window);

// What is rolled over what.
struct Rolling {
  const layout::Excitation& excitation;
  std::string rail;                 // the head of the plain rail that prescribed paths lie on ...
  double inclination;               // rad, ... and its inclination
  profile::WheelProfile wheel;      // as rolled
  double lateral_offset, roll, yaw; // m, rad: as contact::PathOptions
  contact::NormalLaw law;
  contact::SearchAt search;
  Span span; // any wheel covers
};

// The courses of all wheels, and what that of the reported one means before any force acts.
struct Geometry {
  std::shared_ptr<const contact::WheelPath> path;
  std::shared_ptr<const contact::PathLaw> law;       // of the contact along the path for E* = 1 Pa; null: ellipses
  std::shared_ptr<const contact::StepSearch> search; // of the contact at every step; null: the law along the path
  std::vector<Course> courses;                       // of every wheel; the three above are those of the reported one
  std::optional<layout::Crossing> crossing;
  profile::WheelProfile wheel; // as rolled
  // m, height of the reported wheel ahead of the dip, in the sense of travel; absent where nothing is known of it: the
  // ramps of a kinked joint may begin anywhere, and a wheel runs down them as steadily as on the level.
  std::optional<double> level_ahead;
  contact::Kinematics kinematics;
  Findings findings;
};
// radii: of all wheels (m); wheels of one radius share their course. reported: index. Throws InputError for a turned
// wheel or a search at every step where there is no surface to be searched, and as the makers of crossings and paths
// do.
[[nodiscard]] Geometry geometry(const Rolling& rolling, std::span<const double> radii, std::size_t reported,
                                const contact::KinematicsOptions& options);

// Whether a window that begins at a station (m) begins inside the dip: what the wheel met before is then missing from
// the forces.
[[nodiscard]] Findings begins_in_dip(const Geometry& geometry, double begin);

// Where the wheel is expected to land: the kinematic transfer, or the kink of a prescribed path (m). Throws
// ComputeError when there is neither.
[[nodiscard]] inline double landing_station(const Geometry& g) {
  return contact::landing_station(*g.path, g.kinematics);
}

} // namespace wingnose::passage
