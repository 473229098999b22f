// Creepage of a wheel from the motion of its wheelset, and its signs in the frame of the crossing.
#include "catch.hpp"
#include "wingnose/contact/tangential/creepage.hpp"
#include "wingnose/contact/tangential/kalker.hpp"
#include "wingnose/words/error.hpp"

#include <cmath>

using namespace wingnose;
using namespace wingnose::contact;

namespace {

WheelMotion rolling_wheel() { // straight ahead, free rolling on the wheel over the crossing
  WheelMotion m;
  m.speed = 30.0;
  m.rolling_radius = 0.46;
  m.angular_speed = m.speed / m.rolling_radius;
  m.offset_y = 0.75;
  return m;
}

} // namespace

TEST_CASE("A wheel rolling freely and straight on a level rail has no creepage") {
  const Creepage c = creepage(rolling_wheel());
  CHECK(std::abs(c.longitudinal) < 1e-15);
  CHECK(c.lateral == 0.0);
  CHECK(c.spin == 0.0);
}

TEST_CASE("A braked wheel slides forward and is held back, a driven wheel the other way") {
  const RollingContact contact = rolling_contact(7e-3, 5e-3, 1e5);
  WheelMotion braked = rolling_wheel(), driven = rolling_wheel();
  braked.angular_speed *= 0.99;
  driven.angular_speed *= 1.01;
  CHECK(std::abs(creepage(braked).longitudinal - 0.01) < 1e-12);
  CHECK(std::abs(creepage(driven).longitudinal + 0.01) < 1e-12);
  for (const Direction way : {Direction::facing, Direction::trailing}) {
    braked.direction = way;
    const CreepForce force = linear_creep_force(contact, creepage(braked));
    CHECK(sense(way) * track_force(force, 1e5, 0.0, way)[0] < 0.0); // against the travel, whichever way
  }
}

TEST_CASE("A contact on a larger rolling radius drives its wheel backwards over the rail") {
  WheelMotion flange = rolling_wheel();
  flange.rolling_radius += 0.0046; // 1 % nearer the flange, the axle still turns for 0.46 m
  CHECK(std::abs(creepage(flange).longitudinal + 0.01) < 1e-12);
}

TEST_CASE("The force of the rail opposes a wheelset moving sideways, facing and trailing alike") {
  const RollingContact contact = rolling_contact(7e-3, 5e-3, 1e5);
  for (const Direction way : {Direction::facing, Direction::trailing}) {
    for (const double sideways : {0.1, -0.1}) {
      WheelMotion m = rolling_wheel();
      m.direction = way;
      m.lateral_speed = sideways;
      const Creepage c = creepage(m);
      CHECK(std::abs(c.lateral - sense(way) * sideways / m.speed) < 1e-15);
      CHECK(track_force(linear_creep_force(contact, c), 1e5, 0.0, way)[1] * sideways < 0.0);
    }
  }
}

TEST_CASE("A yawed wheelset creeps sideways against the yaw, steering it where its wheels point") {
  WheelMotion m = rolling_wheel();
  m.yaw = 0.002; // towards +y
  CHECK(std::abs(creepage(m).lateral + 0.002) < 1e-8);
  const RollingContact contact = rolling_contact(7e-3, 5e-3, 1e5);
  CHECK(linear_creep_force(contact, creepage(m)).lateral > 0.0);
}

TEST_CASE("Spin is the sine of the contact angle over the radius, with the sign of its frame") {
  WheelMotion m = rolling_wheel();
  m.contact_angle = 0.05; // conical tread: the plane rises outward
  CHECK(std::abs(creepage(m).spin + std::sin(0.05) / 0.46) < 1e-14);
  m.direction = Direction::trailing; // y of the contact frame now points inward, and the plane falls along it
  CHECK(std::abs(creepage(m).spin - std::sin(0.05) / 0.46) < 1e-14);
  m = rolling_wheel();
  m.yaw_rate = 0.3; // turning towards +y
  CHECK(std::abs(creepage(m).spin - 0.3 / 30.0) < 1e-15);
}

TEST_CASE(
    "Seen in a mirror along the track, lateral creepage and spin change sign and longitudinal creepage does not") {
  WheelMotion m = rolling_wheel();
  m.angular_speed *= 0.995;
  m.contact_angle = 0.1;
  m.yaw = 0.003;
  m.yaw_rate = 0.02;
  m.lateral_speed = 0.05;
  m.vertical_speed = -0.02;
  m.roll_rate = 0.04;
  m.offset_x = 0.004;
  WheelMotion mirror = m;
  for (double WheelMotion::*odd : {&WheelMotion::contact_angle, &WheelMotion::yaw, &WheelMotion::yaw_rate,
                                   &WheelMotion::lateral_speed, &WheelMotion::roll_rate, &WheelMotion::offset_y}) {
    mirror.*odd = -(m.*odd);
  }
  const Creepage c = creepage(m), d = creepage(mirror);
  CHECK(std::abs(c.longitudinal - d.longitudinal) < 1e-15);
  CHECK(std::abs(c.lateral + d.lateral) < 1e-15);
  CHECK(std::abs(c.spin + d.spin) < 1e-15);
}

TEST_CASE("A move the other way along the track has the creepages of the same move turned about") {
  WheelMotion m = rolling_wheel();
  m.angular_speed *= 1.003;
  m.contact_angle = 0.08;
  m.yaw = 0.004; // an axle turned with the vehicle keeps its yaw
  m.yaw_rate = 0.03;
  m.lateral_speed = 0.06;
  m.roll_rate = 0.05;
  m.offset_x = 0.003;
  WheelMotion turned = m; // everything turned half round about z
  turned.direction = Direction::trailing;
  for (double WheelMotion::*odd : {&WheelMotion::contact_angle, &WheelMotion::lateral_speed, &WheelMotion::roll_rate,
                                   &WheelMotion::offset_y, &WheelMotion::offset_x}) {
    turned.*odd = -(m.*odd);
  }
  const Creepage c = creepage(m), d = creepage(turned);
  CHECK(std::abs(c.longitudinal - d.longitudinal) < 1e-15);
  CHECK(std::abs(c.lateral - d.lateral) < 1e-15);
  CHECK(std::abs(c.spin - d.spin) < 1e-15);
}

TEST_CASE("For small yaw and rates the exact kinematics become the usual closed form") {
  double before = 0.0;
  for (const double size : {1e-2, 1e-3}) {
    WheelMotion m = rolling_wheel();
    m.contact_angle = 0.3;
    m.rolling_radius = 0.46 * (1.0 + size);
    m.yaw = size;
    m.yaw_rate = 3.0 * size;
    m.lateral_speed = 10.0 * size;
    m.vertical_speed = -5.0 * size;
    m.roll_rate = 2.0 * size;
    const Creepage exact = creepage(m), linear = creepage_linearised(m, 0.46);
    const double error = std::abs(exact.longitudinal - linear.longitudinal) + std::abs(exact.lateral - linear.lateral) +
                         std::abs(exact.spin - linear.spin);
    CHECK(error < 3.0 * size * size); // what is left is of second order
    if (before > 0.0) {
      CHECK(before / error > 90.0);
    }
    before = error;
  }
}

TEST_CASE("The force of a contact in the track frame keeps its size and stands on the contact plane") {
  const CreepForce force{-3e3, 4e3, 0.0};
  const auto track = track_force(force, 12e3, 0.4, Direction::facing);
  CHECK(std::abs(std::hypot(track[0], track[1], track[2]) - 13e3) < 1e-8);
  const auto normal = track_force({}, 1.0, 0.4, Direction::trailing);
  CHECK(std::abs(normal[1] + std::sin(0.4)) < 1e-15); // a plane that rises outward pushes the wheel inward
  CHECK(std::abs(normal[2] - std::cos(0.4)) < 1e-15);
}

TEST_CASE("Motions without a creepage are refused with advice") {
  WheelMotion m = rolling_wheel();
  m.speed = 0.0;
  CHECK_THROWS_WITH(creepage(m), Catch::Contains("speed of the wheelset") && Catch::Contains("above 0"));
  m = rolling_wheel();
  m.rolling_radius = -0.46;
  CHECK_THROWS_WITH(creepage(m), Catch::Contains("rolling radius"));
  m = rolling_wheel();
  m.contact_angle = 1.6;
  CHECK_THROWS_WITH(creepage(m), Catch::Contains("contact angle"));
  CHECK_THROWS_AS(track_force({}, 1.0, 1.6, Direction::facing), InputError);
  m = rolling_wheel();
  m.yaw_rate = std::nan("");
  CHECK_THROWS_AS(creepage(m), InputError);
  CHECK_THROWS_AS(creepage_linearised(rolling_wheel(), 0.0), InputError);
}
