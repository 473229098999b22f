#include "wingnose/passage/space/ride.hpp"

#include "wingnose/layout/turnout/bodies.hpp"
#include "wingnose/layout/turnout/functional.hpp"

#include <algorithm>
#include <functional>
#include <memory>
#include <tuple>
#include <utility>
#include <variant>

namespace wingnose::passage::space {

namespace plan = layout::turnout;

namespace {

// Ahead of this station (m) the wing is the plain rail itself, or it begins there.
double plain_until(const layout::Body& wing, const layout::CrossingShape& shape, const profile::RailHead& rail) {
  constexpr double clear = 0.2; // m, ahead of the knuckle
  return std::visit(
      [&](const auto& s) {
        if (!(shape.wing_head == rail.name && shape.wing_inclination == rail.inclination &&
              shape.gauge == standard_gauge && shape.modifiers.empty())) {
          return s.x_begin();
        }
        double first = s.x_end(); // change of the wing behind its begin: the knuckle, or its lift
        for (const double kink : s.kinks()) {
          first = kink > s.x_begin() ? std::min(first, kink) : first;
        }
        return std::max(s.x_begin(), first - clear);
      },
      wing.surface);
}

// Where wheels go over to a nose: from before it begins to where it has come to its height.
Range landing_on(const layout::Body& nose) {
  constexpr double before = 0.3, behind = 0.2; // m
  return std::visit(
      [&](const auto& s) {
        double last = s.x_begin();
        for (const double kink : s.kinks()) {
          last = kink < s.x_end() ? std::max(last, kink) : last;
        }
        return Range{s.x_begin() - before, last + behind};
      },
      nose.surface);
}

} // namespace

Ground plain_track(const profile::RailHead& rail) {
  layout::Body left = layout::plain_rail(rail), right = left;
  right.side = layout::Side::opposite;
  Ground out;
  out.bodies = {std::move(left), std::move(right)};
  return out;
}

Rolling rolling(const vehicle::space::SpatialVehicle& vehicle, const profile::WheelProfile& wheel) {
  Rolling out;
  out.model = vehicle::space::assemble(vehicle);
  for (const vehicle::space::Wheelset& set : vehicle.wheelsets) {
    out.wheels.push_back(
        {contact::WheelSurface(wheel, set.wheel[0].radius), contact::WheelSurface(wheel, set.wheel[1].radius)});
  }
  return out;
}

Ground over_turnout(const plan::Turnout& turnout, plan::Way way, layout::CrossingShape crossing,
                    const profile::RailHead& rail, double behind, Laying laying) {
  crossing.nose_length = behind;
  plan::Laid laid = plan::lay(turnout, way, crossing, rail);
  crossing.gauge = plan::found(turnout, way).gauge;
  Ground out;
  const bool built_at_left = plan::crossing_at_left(turnout, way);
  const bool lies_at_left = built_at_left || laying == Laying::crossing_at_left;
  const auto at = [&](layout::Side side) {
    return (side == layout::Side::crossing) == lies_at_left ? layout::Side::crossing : layout::Side::opposite;
  };
  out.route = built_at_left == lies_at_left ? laid.route : laid.route.mirrored();
  // Wing and nose stand at half of the gauge found, plain rails at half of the standard one.
  const double wider = 0.5 * (crossing.gauge - standard_gauge);
  out.check = MetCheckRail{.face = laid.guide.face, .outward = wider, .side = at(laid.guide.side)};
  double wing_begin = 0.0;
  for (layout::Body& body : laid.bodies) {
    contact::Lie lie;
    if (body.role == layout::Role::wing) {
      wing_begin = lie.within.least = plain_until(body, crossing, rail);
    }
    if (body.role == layout::Role::stock) {
      lie.outward = wider;
    }
    if (body.role == layout::Role::nose) {
      out.short_steps.push_back(landing_on(body));
    }
    body.side = at(body.side);
    out.bodies.push_back(std::move(body));
    out.lie.push_back(lie);
  }
  out.bodies.push_back(layout::plain_rail(rail));
  out.bodies.back().side = at(layout::Side::crossing);
  out.lie.push_back({{.most = wing_begin}, wider});
  return out;
}

Ground trailing(Ground ground) {
  ground.backwards = !ground.backwards;
  ground.route = ground.route.backwards();
  if (ground.check) {
    plan::CheckFace& face = ground.check->face;
    std::reverse(face.x.begin(), face.x.end());
    std::reverse(face.width.begin(), face.width.end());
    std::transform(face.x.begin(), face.x.end(), face.x.begin(), std::negate());
  }
  for (Range& range : ground.short_steps) {
    range = {-range.most, -range.least};
  }
  if (ground.irregularity) {
    ground.irregularity = std::make_shared<const layout::Irregularity>(ground.irregularity->backwards());
  }
  if (ground.bends) {
    track::chain::Model model = ground.bends->model;
    std::reverse(model.bearers.begin(), model.bearers.end());
    for (track::chain::Bearer& bearer : model.bearers) {
      bearer.x = -bearer.x;
    }
    const auto turn = [](auto& zones) { // what holds where two overlap stays
      for (auto& zone : zones) {
        std::tie(zone.begin, zone.end) = std::pair(-zone.end, -zone.begin);
      }
    };
    for (track::chain::Rail& rail : model.rails) {
      turn(rail.zones);
      turn(rail.lateral_zones);
    }
    ground.bends = track::chain::make_chain(model);
  }
  return ground;
}

} // namespace wingnose::passage::space
