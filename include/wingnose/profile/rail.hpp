// Rail heads (plane cross-section of the running surface) and rail section properties (area, inertia).
//
// Frame: y across, positive to the field side, 0 on the rail axis; z up, 0 at the top of the upright head. SI (m).
// Heads 60E1 and 54E1 by tangent arcs (closing on their published widths); others carry their trust in `status`.
#pragma once

#include "wingnose/profile/curve.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace wingnose::profile {

struct RailHead {
  std::string name;
  Curve curve;        // z over y, after inclination, from the gauge side to the field side
  std::string status; // "verified" (tangent construction closes) or "from memory"
};

// name: "60E1", "54E1" (verified), "60E2", "56E1", "49E1" (from memory). inclination: rad, e.g. atan(1/40), positive
// leans the head towards the track centre (-y). Throws InputError for an unknown name, listing the known ones.
[[nodiscard]] RailHead rail_head(std::string_view name, double inclination = 0.0);

// Bending properties of one rail about its horizontal axis, for the track model.
struct RailSection {
  std::string name;
  double area;       // m2
  double mass_per_m; // kg/m
  double inertia;    // m4, vertical bending (Ixx)
  std::string status;
};
[[nodiscard]] RailSection rail_section(std::string_view name); // 60E1 60E2 54E1 54E2 54E3 56E1 49E1; throws InputError
[[nodiscard]] std::vector<std::string> rail_section_names();

} // namespace wingnose::profile
