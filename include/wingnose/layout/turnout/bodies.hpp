// What lies on the ground along one way of a turnout: both rails, with the role and the side of each body, and the
// stretch it covers. Stations: s of the way, 0 at the theoretical intersection.
#pragma once

#include "wingnose/layout/surface.hpp"
#include "wingnose/layout/turnout/check_face.hpp"
#include "wingnose/layout/turnout/geometry.hpp"
#include "wingnose/profile/rail.hpp"

#include <string>
#include <vector>

namespace wingnose::layout::turnout {

struct Laid {
  Route route;
  std::vector<Body> bodies; // stock rail opposite the crossing; run-in with wing, and nose
  Guide guide;              // the check rail, before the stock rail
};
// The crossing is the shape given, at the rate at which the rails of the turnout cross, with its gauge and flangeway:
// a nose in the curve is flatter than the turnout's name. The stock rail stands at half the standard gauge, as plain
// rails do. Throws InputError.
[[nodiscard]] Laid lay(const Turnout& turnout, Way way, CrossingShape crossing, const profile::RailHead& rail);

// The same as a list, for people.
struct Lying {
  std::string name;
  Role role;
  Side side;
  double begin, end; // m
};
[[nodiscard]] std::vector<Lying> lying(const Laid& laid);

} // namespace wingnose::layout::turnout
