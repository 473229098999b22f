// A wheel at one station under a given load, which the bodies share as their shapes have it (contact_at), or under the
// forces each body is known to carry, as at an instant of a passage (contact_under): where it touches, and what each
// patch looks like after a fast law or the half-space solution. SI. Frame: wingnose/words/frame.hpp.
#pragma once

#include "wingnose/contact/normal/pressure_field.hpp"
#include "wingnose/words/column.hpp"
#include "wingnose/words/finding.hpp"

#include <limits>
#include <optional>
#include <string>
#include <vector>

namespace wingnose::contact {

// One patch: strips or loaded rows that lie side by side.
struct PatchSummary {
  std::string body;
  double y = 0.0;             // m, centre of its pressure from the track centre line
  double wheel_y = 0.0;       // m, the same on the wheel, from its taping line
  double dx = 0.0;            // m, ahead of the axle
  double angle = 0.0;         // rad, contact angle there
  double force = 0.0;         // N, normal
  double approach = 0.0;      // m, normal, at its deepest point
  double half_length = 0.0;   // m, along the track
  double half_width = 0.0;    // m, across, along the surface
  double area = 0.0;          // m2
  double peak_pressure = 0.0; // Pa
  double turn = 0.0;          // rad, change of the contact angle over what carries
};
inline constexpr auto patch_columns = std::to_array<Column<PatchSummary>>(
    {{"y_mm", "y", "centre of the pressure from the track centre line", &PatchSummary::y, 2},
     {"wheel_y_mm", "on wheel", "centre of the pressure from the wheel's taping line", &PatchSummary::wheel_y, 2},
     {"ahead_of_axle_mm", "ahead", "centre of the pressure ahead of the axle", &PatchSummary::dx, 2},
     {"contact_angle_mrad", "angle", "slope of the common tangent across the track", &PatchSummary::angle, 1},
     {"normal_force_kN", "force", "normal force", &PatchSummary::force, 2},
     {"approach_um", "approach", "normal approach at the deepest point", &PatchSummary::approach, 1},
     {"half_length_mm", "half length", "half length along the track", &PatchSummary::half_length, 2},
     {"half_width_mm", "half width", "half width across, along the surface", &PatchSummary::half_width, 2},
     {"area_mm2", "area", "area of contact", &PatchSummary::area, 1},
     {"peak_pressure_MPa", "peak", "largest pressure", &PatchSummary::peak_pressure, 0}});

struct BodyContact {
  std::string body;
  double vertical = 0.0;              // N, its share of the load, or the force given
  double height = 0.0;                // m, of the taping circle's bottom over z = 0 under which it carries that
  std::vector<Strip> strips;          // pressure over the width as the law has it
  std::optional<PressureField> field; // where asked for
};
inline constexpr auto body_columns = std::to_array<Column<BodyContact>>(
    {{"vertical_force_kN", "force", "vertical force on the body", &BodyContact::vertical, 2},
     {"wheel_height_mm", "height", "of the wheel under which it carries that", &BodyContact::height, 4}});

struct StationContact {
  double station = 0.0, lateral = 0.0; // m, axle; taping line
  double roll = 0.0, yaw = 0.0;        // rad, as the wheel was held
  double height = 0.0;                 // m, of the taping circle's bottom over z = 0; contact_under: by the most loaded
  double vertical = 0.0;               // N
  std::string law;                     // "ellipse", "strips" or "half-space"
  std::string instant;                 // of a passage, by name; empty: a wheel that stands
  double time = 0.0;                   // s, of that instant
  std::vector<PatchSummary> patches;   // by body, then across
  std::vector<BodyContact> bodies;     // those that carry
  Findings findings;                   // where the half-space is stretched
};
inline constexpr auto station_columns = std::to_array<Column<StationContact>>(
    {{"station_mm", "station", "of the axle", &StationContact::station, 1},
     {"force_kN", "force", "vertical load on the wheel", &StationContact::vertical, 2},
     {"roll_mrad", "roll", "of the wheel, + lifts its field side", &StationContact::roll, 2},
     {"yaw_mrad", "yaw", "of the wheel, + turns it from x towards y", &StationContact::yaw, 2},
     {"wheel_height_mm", "height",
      "of the taping circle's bottom over z = 0, by the fast law that shares the load; in a passage of the body that "
      "carries most",
      &StationContact::height, 4},
     {"time_ms", "time", "of the instant in the passage; none: a wheel that stands",
      [](const StationContact& s) { return s.instant.empty() ? std::numeric_limits<double>::quiet_NaN() : s.time; },
      3}});

struct StationOptions {
  NormalLaw law = Strips{};
  bool half_space = false; // patches from the half-space solution; the load is shared by the strips
  bool fields = false;     // pressure fields beside a fast law
  FieldSize cells{};       // of the pressure fields
};

// Throws InputError for a load that is not positive and finite, ComputeError where the wheel is over no body.
[[nodiscard]] StationContact contact_at(const WheelSurface& wheel, std::span<const layout::Body> bodies,
                                        const WheelPlace& place, double vertical, const Elastic& material = {},
                                        const StationOptions& options = {});

// What one body carries.
struct BodyLoad {
  std::string body;
  double vertical = 0.0; // N, >= 0
};
// Every body under a force of its own, whatever the others carry: in a passage the track below has moved, and forces
// are known from there. Each body has its own height of the wheel; where the fast law of the passage agrees with the
// law asked for, the heights agree. Bodies without a force are left out. Throws InputError for a load that is negative
// or not finite, or names no body, ComputeError where nothing is loaded or the wheel is not over a loaded body.
[[nodiscard]] StationContact contact_under(const WheelSurface& wheel, std::span<const layout::Body> bodies,
                                           const WheelPlace& place, std::span<const BodyLoad> loads,
                                           const Elastic& material = {}, const StationOptions& options = {});

} // namespace wingnose::contact
