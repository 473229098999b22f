// The law of normal contact along the path of a wheel: what the passage needs of the search for contact, made once per
// crossing, wheel and the way it is held.
//
// Strips: at stations along each body the wheel is laid over its surface (rolling envelope, all patches;
// contact/search), the strips give the force at rising depths, and a ForceLaw is fitted. Stations are chosen by
// halving: where the law in the middle of two differs from their blend by more than a tolerance, it is kept and both
// halves are looked at. So the law is continuous along the track however patches move, split or merge. Only where a
// body may be reached is it searched this closely.
//
// Coefficients are those of E* = 1 Pa: forces of all laws here are proportional to E*. SI. Frame:
// wingnose/words/frame.hpp.
#pragma once

#include "wingnose/contact/normal/force_law.hpp"
#include "wingnose/contact/normal/hertz.hpp"
#include "wingnose/contact/path/wheel_path.hpp"
#include "wingnose/contact/search/held_wheel.hpp"
#include "wingnose/words/finding.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace wingnose::contact {

// Strips are searched within 0.6 mm of touching; beyond 0.55 mm the laws go straight on.
inline constexpr double strips_reach = 0.55e-3; // m

// E* = 1 Pa without lateral strain: young / (2 (1 - poisson^2)).
inline constexpr Elastic unit_elastic{2.0, 0.0};

// The wheel of a path with its axle at a station (m).
[[nodiscard]] inline WheelPlace place_on(const WheelPath& path, double station) {
  return {.station = station, .lateral = taping_line_y + path.lateral_offset, .roll = path.roll, .yaw = path.yaw};
}

struct PathLaw {
  std::vector<std::vector<ForceLaw>> body; // [body][station of the path], for E* = 1 Pa; zero where there is no contact
  double reach = std::numeric_limits<double>::infinity(); // m
  // How it was made; 0 for Hertz's law.
  std::size_t searched = 0;   // stations at which strips were solved, all bodies
  double worst_fit = 0.0;     // largest difference between fit and strips from 20 to 300 kN, share of the force,
  std::string worst_body;     // where a body can be reached: on this body
  double worst_station = 0.0; // m, here
};

struct PathLawOptions {
  double tolerance = 0.01;      // of the force, 1e-4 .. 0.1: between two stations
  double coarsest = 0.064;      // m, first stations; > 0
  double finest = 0.002;        // m, halving ends; > 0
  double within_reach = 0.0015; // m, > 0: bodies that lie this far below the highest are not searched closely
};

// That fit and strips differ by more than a reader should expect; elsewhere it is some percent.
[[nodiscard]] Findings findings_of(const PathLaw& law);

// One ellipse per body from the curvatures of the path (Hertz 1881).
[[nodiscard]] PathLaw ellipse_law(const WheelPath& path);

// The wheel is held as the path was rolled (shift, roll, yaw). Where a path touches a body but no column of the wheel
// finds it (its ends), the ellipse stands in. Throws InputError when path and crossing have different bodies or for
// options out of range.
[[nodiscard]] PathLaw strips_law(const WheelPath& path, const layout::Crossing& crossing,
                                 const profile::WheelProfile& wheel, const PathLawOptions& options = {});
// With the wheel the path was rolled with at hand.
[[nodiscard]] PathLaw strips_law(const WheelPath& path, const HeldWheel& wheel, const PathLawOptions& options = {});
// Prescribed paths: the wheel in the middle of the plain rail's gauge (contact::plain_contact), everywhere the same.
[[nodiscard]] PathLaw strips_law(const WheelPath& path, const profile::RailHead& rail,
                                 const profile::WheelProfile& wheel);

} // namespace wingnose::contact
