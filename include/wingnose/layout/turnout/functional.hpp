// Functional dimensions of a common crossing with check rails (the widths a wheelset finds across the track), held
// against the values of standards; and what is left for a wheelset between check rail and nose.
//
// y across the track is measured here from the gauge face of the rail opposite the crossing, towards the crossing. All
// is rigid: neither the bending of a wheelset nor the deflection of a check rail is in these numbers.
#pragma once

#include "wingnose/layout/turnout/turnout.hpp"
#include "wingnose/layout/turnout/wheelset.hpp"

#include <array>
#include <optional>
#include <string_view>
#include <vector>

namespace wingnose::layout::turnout {

// Where the faces stand.
struct Faces {
  double gauge;                   // m
  double check;                   // m, y of the check-rail face
  double nose;                    // m, y of the nose's face; the gauge where nothing is worn
  double wing;                    // m, y of the wing rail's guiding face
  double check_entry, wing_entry; // m, width of the flangeways at the open ends of the flares
  double depth, height;           // m, of the flangeway, of the check rail over the running surface
  [[nodiscard]] double nose_protection() const { return nose - check; }
  [[nodiscard]] double crossing_flangeway() const { return nose - wing; }
  [[nodiscard]] double passage_at_nose() const { return wing - check; }
  [[nodiscard]] double passage_at_check_entry() const { return gauge - check_entry; }
  [[nodiscard]] double passage_at_wing_entry() const { return gauge - wing_entry; }
};
[[nodiscard]] Faces drawn(const Turnout& turnout, Way way);
// With wear, or as read on site. A reading counts before the drawing and before wear; where gauge, protection and
// flangeway are all read, the nose stands where protection and flangeway say.
[[nodiscard]] Faces found(const Turnout& turnout, Way way);

// Gauge at which a track is closed or slowed at once, by the speed along it.
struct GaugeLimits {
  Standard least, most;
};
[[nodiscard]] GaugeLimits gauge_limits(double speed);

struct Dimension {
  std::string_view name, key;
  double (*of)(const Faces&);
  std::optional<Standard> standard;
  std::string_view what_to_do; // where it lies beyond
};
[[nodiscard]] std::span<const Dimension> dimensions();

// What is left for one wheelset, negative where it is beyond; rigid.
struct Margins {
  double at_nose;        // m, front of the flange to the nose while the other wheel's back is on the check rail
  double between_guides; // m, back to back over the passage between check and wing rail
  double at_check_entry; // m, wheel back past the end of the check rail while the other flange is on its rail
  double over_floor;     // m, flange tip over the floor of the flangeway
};
[[nodiscard]] Margins margins(const Faces& faces, const Wheelset& wheelset, double flange_height);
// The least any legal wheelset has, each.
[[nodiscard]] Margins least_margins(const Faces& faces, const WheelsetLimits& limits);

// Shift of a wheelset from the middle of the track at which it meets a face; towards the crossing where positive is
// said so.
struct Touches {
  double check, nose; // m, towards the crossing: back of the other wheel on the check rail; flange on the nose
  double stock, wing; // m, away from it: other flange on its rail; back of the crossing's wheel on the wing rail
  [[nodiscard]] bool guarded() const { return check < nose; } // the check rail comes before the nose
};
[[nodiscard]] Touches touches(const Faces& faces, const Wheelset& wheelset);

// Steepest part of a flare that the back of a legal wheelset can meet: where the flangeway has opened beyond the
// farthest a back can stand, nothing touches it.
struct MetFlares {
  double check, wing; // rad
};
[[nodiscard]] MetFlares met_flares(const Turnout& turnout, const Faces& faces, const WheelsetLimits& limits);

} // namespace wingnose::layout::turnout
