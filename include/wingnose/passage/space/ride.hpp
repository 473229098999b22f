// A vehicle in space over two rails through time: what is needed for it.
//
// Every part of the vehicle has its coordinates in the track's frame at its own place along the route; its velocities
// are the absolute ones in that frame, so that a step of curvature gives no impulse. Links feel the frames' offsets
// against each other. Rails are masses that run along under the wheels, one a wheel, on springs and dampers up and
// across: the cheap track, good for guiding forces and not for impacts; or two rails that bend on their bearers, which
// P1, P2 and peaks need.
//
// Frame: words/frame.hpp; the route's curvature is positive towards +y, where wheel 0 of every wheelset runs. Moves are
// facing; a trailing one is a facing one on the ground as it is met then, see trailing(). SI.
#pragma once

#include "wingnose/contact/space/wheelset_contact.hpp"
#include "wingnose/layout/irregularity.hpp"
#include "wingnose/layout/turnout/check_face.hpp"
#include "wingnose/layout/turnout/route.hpp"
#include "wingnose/layout/turnout/turnout.hpp"
#include "wingnose/track/chain/chain.hpp"
#include "wingnose/vehicle/space/model.hpp"
#include "wingnose/words/range.hpp"

#include <array>
#include <memory>
#include <optional>
#include <vector>

namespace wingnose::passage::space {

// What a rail under one wheel does in one direction. The values are common practice, no source.
struct RailDirection {
  double mass, stiffness, damping; // kg, N/m, N s/m
  [[nodiscard]] friend bool operator==(const RailDirection&, const RailDirection&) = default;
};
constexpr auto ranges(const RailDirection*) {
  using R = RailDirection;
  return std::array{InRange{&R::mass, "mass", "kg", 1, 1e5}, InRange{&R::stiffness, "stiffness", "N/m", 1e5, 1e11},
                    InRange{&R::damping, "damping", "N s/m", 0, 1e8}};
}
struct CoRunningRail {
  RailDirection vertical{200.0, 60e6, 60e3};
  RailDirection lateral{120.0, 25e6, 50e3};
  [[nodiscard]] friend bool operator==(const CoRunningRail&, const CoRunningRail&) = default;
};

// A check rail that the back of a wheel touches: rigid shape on a spring, which pushes only.
struct MetCheckRail {
  layout::turnout::CheckFace face;
  double stiffness = 50e6;                    // N/m, an input: forces on it go with its root
  double friction = 0.3;                      // -
  double outward = 0.0;                       // m, of its stock rail, see contact::Lie
  layout::Side side = layout::Side::opposite; // as bodies have theirs: that of wheel 1
};
constexpr auto ranges(const MetCheckRail*) {
  using M = MetCheckRail;
  return std::array{InRange{&M::stiffness, "check_stiffness", "N/m", 1e5, 1e10},
                    InRange{&M::friction, "check_friction", "-", 0, 1}};
}

struct Ground {
  layout::turnout::Route route{0.0, {}};
  std::vector<layout::Body> bodies;   // Side::crossing: at +y, under wheel 0; opposite: at -y, under wheel 1
  std::vector<contact::Lie> lie = {}; // of every body; empty: everywhere, as drawn
  bool backwards = false;             // stations count against those of bodies and `lie`; all else counts as they do
  CoRunningRail rail;
  std::optional<MetCheckRail> check;
  // Two rails that bend, in place of `rail`; where the chain is vertical alone, across it is still `rail.lateral`. The
  // rail farther to +y lies under wheel 0. Its lateral plane is at the rail's own line: the height at which wheels
  // push.
  std::shared_ptr<const track::chain::Chain> bends = nullptr;
  std::vector<Range> short_steps = {}; // m, stations of wheelsets at which steps have to be short
  // Of the rails at +y and at -y, with all bodies of each; the check rail goes with its stock rail. Where a ride begins
  // on rails that deviate, wheelsets stand there in the middle of the track.
  std::shared_ptr<const layout::Irregularity> irregularity = nullptr;
};
// A straight track of plain rails.
[[nodiscard]] Ground plain_track(const profile::RailHead& rail);
// How a turnout lies: turned so that the crossing is at +y whatever its hand and way, or as it is built, where the
// crossing is at -y on the through route of a right-hand turnout and on the diverging route of a left-hand one.
enum class Laying { crossing_at_left, as_built };
// One way of a turnout in a facing move; station 0 is the theoretical intersection. The crossing is that of
// layout::turnout::lay(), its nose as long as `behind` (m); plain rail lies ahead of its wing. The switch is a step of
// curvature, without blades. Throws as lay() does.
[[nodiscard]] Ground over_turnout(const layout::turnout::Turnout& turnout, layout::turnout::Way way,
                                  layout::CrossingShape crossing, const profile::RailHead& rail, double behind = 60.0,
                                  Laying laying = Laying::crossing_at_left);

// The ground as a trailing move meets it: stations count the other way, from heel to switch, and what was met last is
// met first; the crossing stays on its side. All a ride tells is in these stations: -0.4 is 0.4 m behind the
// theoretical intersection, where the nose is. In place and time it is the mirror image of the move; sides and signs
// across are those of the facing one. Throws as track::chain::make_chain() does.
[[nodiscard]] Ground trailing(Ground facing);

struct Rolling {
  vehicle::space::SpatialModel model;
  std::vector<std::array<contact::WheelSurface, 2>> wheels; // of each wheelset
  vehicle::space::Terms terms;
  contact::CreepLaw law = contact::Cubic{};
};
// Every wheel with this profile and the radius its vehicle says.
[[nodiscard]] Rolling rolling(const vehicle::space::SpatialVehicle& vehicle, const profile::WheelProfile& wheel);

struct Ride {
  double speed = 30.0; // m/s
  double begin = 0.0; // m, station of the leading wheelset at the start, where the vehicle stands settled on rails that
                      // go on unchanged
  double length = 40.0; // m, run by it
  double step = 2e-4;   // s
  // s, steps are as long, in whole multiples of `step`, where no wheelset needs short ones (Ground::short_steps) and no
  // wheel's back is near a check rail; up to `step` there are no others. Instants kept are then not equally spaced. No
  // step damps what is faster than itself: from some 0.6 ms on wheels chatter on rails that bend.
  double longest_step = 0.0;
  int stride = 5;     // steps between what is kept
  double shift = 0.0; // m, of the whole vehicle at the start
  // Drive power, damping power and what is stored are kept too: up to a fifth of the time on rails that bend.
  bool energy = false;
};
constexpr auto ranges(const Ride*) {
  using R = Ride;
  return std::array{InRange{&R::speed, "speed", "m/s", 0.5, 150},
                    InRange{&R::begin, "begin", "m", -1e5, 1e5},
                    InRange{&R::length, "length", "m", 1e-3, 1e5},
                    InRange{&R::step, "step", "s", 1e-6, 1e-3},
                    InRange{&R::longest_step, "longest_step", "s", 0, 5e-4},
                    InRange{&R::stride, "stride", 1, 1000000},
                    InRange{&R::shift, "shift", "m", -0.02, 0.02}};
}

} // namespace wingnose::passage::space
