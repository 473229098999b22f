#include "wingnose/contact/space/wheelset_contact.hpp"

#include "wingnose/contact/space/rubbing.hpp"

#include "wingnose/words/constants.hpp"
#include "wingnose/words/range.hpp"

#include <Eigen/Geometry>

#include <cmath>
#include <string>
#include <utility>

namespace wingnose::contact {
namespace {

using Eigen::Vector3d;

double outward_sign(std::size_t wheel) { return wheel == 0 ? 1.0 : -1.0; }

// A wheel of the set: middle of its taping circle from the axle's middle, and that circle's lowest point.
struct WheelMiddle {
  Vector3d middle, bottom; // m, from the axle's middle
};
WheelMiddle wheel_middle(const WheelsetOnBodies& set, std::size_t wheel, const AxleAxes& a) {
  const Vector3d middle = outward_sign(wheel) * set.half_spacing * a.axle;
  return {middle, middle - set.wheel[wheel].radius() * a.roll.cross(a.axle)};
}

// Is the body within reach of an axle?
bool in_reach(const layout::Body& body, double station) {
  return std::visit(
      [&](const auto& s) { return station > s.x_begin() - wheel_reach && station < s.x_end() + wheel_reach; },
      body.surface);
}

// The point of the wheel's surface at (x, y) from the axle's middle on a circle of this radius, below the axle.
Vector3d on_wheel(double x, double y, double radius, const Vector3d& axle) {
  Vector3d p(x, y, -radius);
  for (int pass = 0; pass < 3; ++pass) { // the axle is all but level: each pass gains four digits
    const Vector3d foot = p.dot(axle) * axle;
    const double beside_x = x - foot.x(), beside_y = y - foot.y();
    p.z() = foot.z() - std::sqrt(radius * radius - beside_x * beside_x - beside_y * beside_y);
  }
  return p;
}

SpaceContact contact_of(const WheelsetOnBodies& set, const Region& region, std::size_t wheel, double outward,
                        const WheelMiddle& at, const AxlePlace& place, const RailPlace& rail, const AxleAxes& a) {
  const double out = outward_sign(wheel);
  SpaceContact c;
  c.wheel = static_cast<int>(wheel);
  c.y = out * (region.y + outward) + rail.y;
  c.dx = region.dx;
  c.wheel_y = region.wheel_y;
  c.angle = std::atan(region.slope);
  c.radius = region.radius;
  c.arm = on_wheel(at.bottom.x() + region.dx, c.y - place.y, region.radius, a.axle);
  // Across the slope is known; along, the normal passes through the axle.
  const Vector3d g = a.axle.cross(c.arm);
  c.n = Vector3d(-(-out * region.slope * g.y() + g.z()) / g.x(), -out * region.slope, 1.0).normalized();
  c.t_x = (Vector3d::UnitX() - c.n.x() * c.n).normalized();
  c.t_y = c.n.cross(c.t_x);
  const double across = region.half_width / std::cos(c.angle);
  c.approach = region.penetration * std::cos(c.angle);
  // The parabola of this depth and width; an ellipse needs twice its coefficient as curvature.
  c.ellipse = set.ellipse.at(region.A, c.approach / (across * across));
  return c;
}

} // namespace

SpaceSearch make_search(const WheelsetOnBodies& set) {
  check(set.law);
  if (!set.lie.empty() && set.lie.size() != set.bodies.size()) {
    throw InputError("how bodies lie", std::to_string(set.lie.size()) + " values", "none, or one for each body",
                     "There are " + std::to_string(set.bodies.size()) + " bodies.");
  }
  demand_within("half of the distance of the taping lines", set.half_spacing, {0.2, 1.5}, "m");
  return {std::vector<double>(set.bodies.size(), 0.0), {}, make_workspace(set.law)};
}

AxleAxes axes(const AxlePlace& place) {
  const double c = std::cos(place.yaw), s = std::sin(place.yaw), cr = std::cos(place.roll), sr = std::sin(place.roll);
  return {{-s * cr, c * cr, sr}, {c, s, 0.0}, Vector3d::UnitZ()};
}

void find_contacts(const WheelsetOnBodies& set, const AxlePlace& place, const std::array<RailPlace, 2>& rails,
                   SpaceSearch& search, SpaceContacts& found) {
  found.count = 0;
  found.complete = true;
  const AxleAxes a = axes(place);
  const std::array<WheelMiddle, 2> wheels{wheel_middle(set, 0, a), wheel_middle(set, 1, a)};
  for (std::size_t body = 0; body < set.bodies.size(); ++body) {
    const std::size_t wheel = set.bodies[body].side == layout::Side::crossing ? 0 : 1;
    const WheelMiddle& at = wheels[wheel];
    const double along = set.backwards ? -1.0 : 1.0; // a body met backwards is its mirror image
    const double station = along * (place.station + at.bottom.x());
    const Lie lie = set.lie.empty() ? Lie{} : set.lie[body];
    if (!in_reach(set.bodies[body], station) || !(station >= lie.within.least && station < lie.within.most)) {
      search.ahead[body] = 0.0;
      continue;
    }
    const RailPlace& rail = rails[wheel];
    const double lateral = place.y + at.bottom.y() - rail.y - outward_sign(wheel) * lie.outward;
    const WheelPlace here{.station = station,
                          .lateral = lateral,
                          .roll = place.roll,
                          .yaw = along * place.yaw,
                          .height = place.z + at.bottom.z() - rail.z};
    look_near(set.wheel[wheel], set.bodies[body], here, search.ahead[body], search.gap);
    if (search.gap.count == 0) {
      continue;
    }
    search.ahead[body] = search.gap.dx[static_cast<std::size_t>(search.gap.top)];
    const Regions regions = find_regions(search.gap, here.height);
    found.complete = found.complete && regions.complete;
    for (Region region : regions.list()) {
      region.dx *= along;
      if (!(region.half_width > 0.0 && region.A > 0.0)) {
        continue;
      }
      if (found.count == SpaceContacts::capacity) {
        found.complete = false;
        break;
      }
      found.contact[found.count] = contact_of(set, region, wheel, lie.outward, at, place, rail, a);
      found.contact[found.count++].body = static_cast<int>(body);
    }
  }
}

Vector3d slip_velocity(const SpaceContact& contact, const AxleAxes& a, const AxleMotion& m, const RailMotion& rail) {
  const Vector3d omega = m.roll_rate * a.roll + m.yaw_rate * a.yaw + m.spin * a.axle;
  return Vector3d(m.forward, m.lateral - rail.y, m.vertical - rail.z) + omega.cross(contact.arm);
}

double spin_velocity(const SpaceContact& contact, const AxleAxes& a, const AxleMotion& m) {
  return (m.roll_rate * a.roll + m.yaw_rate * a.yaw + m.spin * a.axle).dot(contact.n);
}

ContactForce contact_force(const WheelsetOnBodies& set, const SpaceContact& contact, double normal, const AxleAxes& a,
                           const AxleMotion& motion, const RailMotion& rail, double speed, SpaceSearch& search) {
  const Vector3d slip = slip_velocity(contact, a, motion, rail);
  ContactForce out;
  out.normal = normal;
  out.creepage = {slip.dot(contact.t_x) / speed, slip.dot(contact.t_y) / speed,
                  spin_velocity(contact, a, motion) / speed};
  if (normal > 0.0) {
    out.creep = creep_on(set, contact.body, contact.ellipse.under(normal, set.ellipse.shear_modulus()), out.creepage,
                         speed, search.strips);
  }
  return out;
}

void AxleForce::add(const SpaceContact& at, const ContactForce& given, const AxleAxes& about) {
  const Vector3d f = given.on_wheel(at), moment = at.arm.cross(f) + given.creep.moment * at.n;
  force += f;
  roll += moment.dot(about.roll);
  axle += moment.dot(about.axle);
  yaw += moment.dot(about.yaw);
}

} // namespace wingnose::contact
