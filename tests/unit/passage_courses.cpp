// What the wheels of a vehicle cover and run along.
#include "catch.hpp"

#include "wingnose/passage/courses.hpp"
#include "wingnose/words/error.hpp"

using namespace wingnose;
using namespace wingnose::passage;

namespace {

const layout::Excitation joint = layout::DippedJoint{.dip_angle = 0.010, .at = 0.0};

Rolling over_joint(const profile::WheelProfile& wheel) {
  return {joint, "60E1", 0.025, wheel, 0.0, 0.0, 0.0, contact::Ellipse{}, contact::SearchAt::path, {-1.0, 1.0}};
}

} // namespace

TEST_CASE("The wheels ahead of and behind the reported one cover more than its window, by the sense of travel") {
  std::vector<vehicle::Wheel> wheels(3);
  wheels[1].x = -2.5;
  wheels[2].x = -9.0;
  const Span window{-4.0, 4.0};
  const Span facing = covered(wheels, 1, Direction::facing, window);
  CHECK(facing.from == -4.0 - 6.5);
  CHECK(facing.to == 4.0 + 2.5);
  const Span trailing = covered(wheels, 1, Direction::trailing, window);
  CHECK(trailing.from == -4.0 - 2.5);
  CHECK(trailing.to == 4.0 + 6.5);
  CHECK_THROWS_AS(covered(wheels, 3, Direction::facing, window), InputError);
}

TEST_CASE("Wheels of one radius share their course, and another radius has its own") {
  const auto wheel = profile::s1002();
  const std::vector<double> radii{0.46, 0.50, 0.46};
  const Geometry g = geometry(over_joint(wheel), radii, 1, {});
  const auto& all = g.courses;
  REQUIRE(all.size() == 3);
  CHECK(g.path == all[1].path);
  CHECK(landing_station(g) == 0.0);
  CHECK(all[0].path == all[2].path);
  CHECK(all[0].path != all[1].path);
  CHECK(all[0].path->station.front() == Approx(-1.1));
  CHECK(all[0].law == nullptr); // the ellipses of the path
}

TEST_CASE("A joint has no surface on which a turned wheel or a search could be told") {
  const auto wheel = profile::s1002();
  const std::vector<double> radius{0.46};
  Rolling turned = over_joint(wheel), searched = over_joint(wheel);
  turned.yaw = 0.003;
  searched.search = contact::SearchAt::step;
  CHECK_THROWS_AS(geometry(turned, radius, 0, {}), InputError);
  CHECK_THROWS_AS(geometry(searched, radius, 0, {}), InputError);
}
