// What a wheel path means before any force acts: transfer, dip, slopes, and what a designer or measurer should look at.
//
// Outputs follow the definitions: transfer = the two bodies' heights cross; dip angle = slope after - slope before in
// the sense of travel, which is |slope before| + |slope after| where the wheel falls up to the transfer and rises
// behind it (on a lifted wing or a sunken nose the sum of magnitudes would mislead). Frame: wingnose/words/frame.hpp.
#pragma once

#include "wingnose/contact/path/wheel_path.hpp"
#include "wingnose/words/finding.hpp"
#include "wingnose/words/frame.hpp"
#include "wingnose/words/range.hpp"

#include <array>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace wingnose::contact {

struct Kinematics {
  std::optional<double> transfer_station;               // m
  std::optional<double> nose_thickness;                 // m, at transfer
  std::optional<double> contact_y_wing, contact_y_nose; // m, at transfer
  std::optional<double> zone_begin, zone_end;           // m, transfer zone: bodies' heights within `zone_tolerance`
  double dip_depth = 0.0; // m, reference height ahead minus lowest height of the combined path, >= 0
  double slope_before = 0.0, slope_after = 0.0; // rad, in the sense of travel
  double dip_angle = 0.0;                       // rad
  std::optional<double> rim_margin; // m, least distance of the carrying contact from the wheel's field face; absent on
                                    // prescribed paths
  Findings findings;                // of the wheel path: rim, flange, unsupported wheel, sharp edge, ...
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
[[nodiscard]] Kinematics kinematics(const WheelPath& path, const layout::Crossing* crossing,
                                    const profile::WheelProfile& wheel, const KinematicsOptions& options);

// Where the wheel is expected to land: the transfer, or the kink of a prescribed path (m). Throws ComputeError when
// there is neither.
[[nodiscard]] double landing_station(const WheelPath& path, const Kinematics& kinematics);

// Where a given path ends between stations from .. to (m) that the wheel covers: it runs level from there.
[[nodiscard]] Findings ends_in_window(const WheelPath& path, double from, double to);

} // namespace wingnose::contact
