// A vehicle in space over crossings on two rails that bend on their bearers.
#pragma once

#include "chain_samples.hpp"
#include "space_samples.hpp"

#include "wingnose/layout/surface.hpp"
#include "wingnose/words/constants.hpp"

#include <memory>
#include <utility>

namespace space_on_bays {

using namespace space_rides;
using wingnose::layout::Side;

// Two rails that do not feel each other: a lumped bearer under each seat, as today's track has it.
inline wingnose::track::chain::Model apart(double from, double to) {
  using namespace wingnose::track::chain;
  Model m;
  m.rails.resize(2);
  for (double x = 0.6 * std::floor(from / 0.6); x < to + 0.6; x += 0.6) {
    Bearer b;
    b.x = x;
    b.body = LumpedBearer{};
    b.seat = {{-0.75, {}}, {0.75, {}}};
    b.ballast = {60e6, 80e3};
    m.bearers.push_back(b);
  }
  return m;
}
// Two rails on bearers that bend, shift and lean.
inline wingnose::track::chain::Model on_bearers(double from, double to) {
  wingnose::track::chain::Model m = chain_samples::plain(static_cast<int>((to - from) / 0.6) + 2);
  for (wingnose::track::chain::Bearer& b : m.bearers) {
    b.x += from;
  }
  return chain_samples::sideways(m);
}
inline std::shared_ptr<const wingnose::track::chain::Chain> bays(const wingnose::track::chain::Model& m) {
  return wingnose::track::chain::make_chain(m);
}

// The usual crossing at +y, and at -y its mirror image or plain rail.
inline Ground crossing(bool on_both_sides) {
  Ground ground;
  ground.bodies = wingnose::layout::generate(wingnose::layout::CrossingShape{}).bodies;
  if (on_both_sides) {
    for (wingnose::layout::Body body : std::vector(ground.bodies)) {
      body.side = Side::opposite;
      ground.bodies.push_back(std::move(body));
    }
  } else {
    wingnose::layout::Body rail =
        wingnose::layout::plain_rail(wingnose::profile::rail_head("60E1", std::atan(1.0 / 40.0)));
    rail.side = Side::opposite;
    ground.bodies.push_back(std::move(rail));
  }
  ground.short_steps = {{-0.3, 1.0}};
  return ground;
}

// One wheelset under its springs, all free or, but for its heave, held. Springs in series with dampers are left out, as
// in the vertical plane.
inline wingnose::vehicle::space::SpatialVehicle wheelset(bool held) {
  wingnose::vehicle::space::SpatialVehicle vehicle = wingnose::vehicle::space::preset("wheelset");
  if (held) {
    vehicle.wheelsets[0].free = {false, false, true, false, false, false};
  }
  return vehicle;
}
inline Rolling rolled(const wingnose::vehicle::space::SpatialVehicle& vehicle, double friction = 0.3) {
  Rolling out = rolling(vehicle, wingnose::profile::s1002());
  out.terms.series = false;
  out.law = wingnose::contact::Cubic{{friction}};
  return out;
}

} // namespace space_on_bays
