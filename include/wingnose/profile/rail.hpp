// Rail heads (plane cross-section of the running surface) and rail section properties (area, inertia).
//
// Frame: y across, positive to the field side, 0 on the rail axis; z up, 0 at the highest point of the head as it lies
// (upright or inclined): the running surface. SI (m).
// Heads 60E1 and 54E1 by tangent arcs (closing on their published widths); others carry their trust in `status`.
#pragma once

#include "wingnose/profile/curve.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace wingnose::profile {

//        side | corner R3 | shoulder R2 | crown R1 | shoulder | corner | side
//              _______________________________________________________
//             /                     z = 0                              \      side faces lean 1:20,
//   gauge    |                        |                                 |     followed to 30 mm below the top
//   side    /                       axis, y = 0                          \    (deeper than a flange reaches)
//
struct RailHead {
  std::string name;
  Curve curve;              // z over y, after inclination, from the gauge side to the field side
  std::string status;       // starts with "verified" (tangent construction closes) or "from memory"
  double inclination = 0.0; // rad, as asked for
  double level_shift = 0.0; // m, added to z after turning about the top-centre, so that the highest point is z = 0
};

// name: "60E1", "54E1" (verified), "60E2", "56E1", "49E1" (from memory). inclination: rad, e.g. atan(1/40), positive
// leans the head towards the track centre (-y), |inclination| <= 0.2. The head is turned about the point where its axis
// meets its top, which stays at y = 0, then shifted in z only; its highest point therefore moves to the field side
// (7.5 mm for 60E1 at 1:40). A side face that becomes vertical or overhangs (the gauge face at 1:20 or more) is not a
// function of y: the curve then starts at the vertical tangent. Throws InputError for an unknown name, listing the
// known ones, and for an inclination out of range.
[[nodiscard]] RailHead rail_head(std::string_view name, double inclination = 0.0);
[[nodiscard]] std::vector<std::string> rail_head_names();

// Lateral place of the gauge point (m): where the gauge face passes the gauge depth below the top as it lies (words/
// constants.hpp), or the innermost point of a face that overhangs before it gets there.
[[nodiscard]] double gauge_point(const RailHead& head);

// Bending properties of one rail about its horizontal axis, for the track model.
struct RailSection {
  std::string name;
  double area;       // m2
  double mass_per_m; // kg/m
  double inertia;    // m4, vertical bending (Ixx)
  std::string status;
  double foot_modulus = 0.0; // m3, of the foot in vertical bending; 0: not known
};
[[nodiscard]] RailSection rail_section(std::string_view name); // 60E1 60E2 54E1 54E2 54E3 56E1 49E1; throws InputError
[[nodiscard]] std::vector<std::string> rail_section_names();

} // namespace wingnose::profile
