// Forces of a wheelset on bodies: what its flange takes before it climbs.
#include "scoreboard.hpp"

#include "wingnose/contact/space/wheelset_contact.hpp"
#include "wingnose/numeric/roots.hpp"

#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>

using namespace wingnose;
using namespace wingnose::contact;

namespace {

WheelsetOnBodies s1002_on_60e1(double friction) {
  const WheelSurface wheel(profile::s1002(), 0.46);
  layout::Body left = layout::plain_rail(profile::rail_head("60E1", std::atan(1.0 / 40.0))), right = left;
  right.side = layout::Side::opposite;
  return {.wheel = {wheel, wheel}, .bodies = {left, right}, .law = Cubic{{friction, 1.0, 0.0}}};
}

} // namespace

TEST_CASE("A flange that slides up its rail takes the ratio of forces after Nadal") {
  const WheelsetOnBodies set = s1002_on_60e1(0.3);
  SpaceSearch search = make_search(set);
  SpaceContacts found;
  AxlePlace place{.y = 8.5e-3, .yaw = 5e-3};
  const double speed = 10.0;
  // The wheel hangs on its flange alone: raised until that carries the load, rolling without slip along.
  const auto flange = [&](double z) {
    place.z = z;
    find_contacts(set, place, {}, search, found);
    AxleForce force;
    for (const SpaceContact& c : found.list()) {
      if (c.wheel != 0) {
        continue;
      }
      const AxleAxes a = axes(place);
      AxleMotion motion{.forward = speed};
      motion.spin = slip_velocity(c, a, motion, {}).dot(c.t_x) / -Eigen::Vector3d(a.axle.cross(c.arm)).dot(c.t_x);
      force.add(c, contact_force(set, c, normal_force(c), a, motion, {}, speed, search), a);
    }
    return force;
  };
  // Shifted until it stands on its steepest part.
  double ratio = 0.0;
  for (double y = 7.0e-3; y < 8.55e-3; y += 0.1e-3) {
    place.y = y;
    const double z =
        numeric::root_in([&](double at) { return flange(at).force.z() - 54.5e3; }, 0.455, 0.475, 1e-12, "the height");
    const AxleForce at = flange(z);
    ratio = std::max(ratio, -at.force.y() / at.force.z());
  }
  score_abs("S1002 on 60E1 1:40, flange at 70 deg, friction 0.3, attack 5 mrad, Y/Q", ratio, 1.3408, 0.003,
            {Trust::worked, "a prototype of ours, another code; Nadal 1908 gives 1.3416"});
}
