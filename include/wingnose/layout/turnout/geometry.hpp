// Where the two routes of a turnout lie, and where their gauge lines meet. Closed forms for an arc that runs through:
// length 2 R tan(alpha/2), meeting of the gauge lines sqrt(2 R g) from the start, angle there asin(that / (R + g/2));
// with a transition or given curvature, or behind the arc, the same is found along the route. Widening is put to the
// inner rail and moves nothing of this.
#pragma once

#include "wingnose/layout/turnout/route.hpp"
#include "wingnose/layout/turnout/turnout.hpp"

#include <optional>

namespace wingnose::layout::turnout {

struct Geometry {
  double angle;                         // rad, between the routes behind the curve
  double tangent_length;                // m, start of the turnout to the meeting of the tangents
  double two_tangents;                  // m, and from there to the end of the curve
  std::optional<double> overall_length; // m; absent where the nose lies behind the curve and no end is given
  double nose_from_start;               // m, theoretical intersection, along the through route
  bool nose_in_curve;                   // or behind it
  double angle_at_nose;                 // rad, between the gauge lines there
  double rate_at_nose;                  // N of 1:N, of that angle
  Route through, diverging;             // s = 0 at the theoretical intersection
};
[[nodiscard]] Geometry geometry(const Turnout& turnout); // throws InputError on one that cannot be built
[[nodiscard]] inline const Route& route(const Geometry& g, Way way) {
  return way == Way::through ? g.through : g.diverging;
}

// Where a wheelset that ran along the straight meets the rail of the arc, and at what angle: s = sqrt(2 R c),
// sqrt(2 c / R) for the play c of its flange. The switch has no blades here.
struct Entry {
  double distance, attack; // m, rad
};
[[nodiscard]] Entry switch_entry(const Route& diverging, double play);

} // namespace wingnose::layout::turnout
