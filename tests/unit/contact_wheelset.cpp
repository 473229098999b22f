// Contacts of one wheelset on both rails: ellipse from the table, creepages, forces in the mirror.
#include "catch.hpp"

#include "wingnose/contact/space/conicity.hpp"
#include "wingnose/contact/space/wheelset_contact.hpp"

#include <Eigen/Geometry>

#include <cmath>

using namespace wingnose;
using namespace wingnose::contact;

namespace {

WheelsetOnBodies s1002_on_60e1() {
  const WheelSurface wheel(profile::s1002(), 0.46);
  layout::Body left = layout::plain_rail(profile::rail_head("60E1", std::atan(1.0 / 40.0))), right = left;
  right.side = layout::Side::opposite;
  return {.wheel = {wheel, wheel}, .bodies = {left, right}};
}
const AxleMotion rolling{
    .forward = 20.0, .lateral = 0.03, .vertical = -0.01, .roll_rate = 0.02, .yaw_rate = 0.05, .spin = 20.0 / 0.46};

SpaceContacts found(const WheelsetOnBodies& set, const AxlePlace& place) {
  SpaceSearch search = make_search(set);
  SpaceContacts out;
  find_contacts(set, place, {}, search, out);
  return out;
}

} // namespace

TEST_CASE("The table of ellipses gives Hertz's axes and Kalker's coefficients") {
  const EllipseTable table;
  for (const double ratio : {1e-4, 0.03, 0.4, 1.0, 3.3, 70.0, 2e4}) {
    const double A = 1.1, B = A * ratio, force = 7e4;
    const HertzEllipse e = table.at(A, B);
    CHECK(e.stiffness == Approx(hertz_stiffness(2 * A, 2 * B)).epsilon(2e-5));
    const HertzPatch patch = hertz_patch(force, 2 * A, 2 * B);
    const RollingContact c = e.under(force, table.shear_modulus()),
                         exact = rolling_contact(patch.a_x, patch.a_y, force);
    CHECK(c.a == Approx(exact.a).epsilon(2e-5));
    CHECK(c.b == Approx(exact.b).epsilon(2e-5));
    CHECK(c.linear.C11 == Approx(exact.linear.C11).epsilon(1e-4));
    CHECK(c.linear.C22 == Approx(exact.linear.C22).epsilon(1e-4));
    CHECK(c.linear.C23 == Approx(exact.linear.C23).epsilon(1e-4));
    CHECK(c.linear.C33 == Approx(exact.linear.C33).epsilon(1e-4));
    CHECK(c.shear_modulus == Approx(exact.shear_modulus));
  }
}

TEST_CASE("A pressed wheelset carries a load where the stand under load has it") {
  const WheelsetOnBodies set = s1002_on_60e1();
  const double load = 54.5e3;
  for (const double shift : {0.0, 1e-3, 3e-3}) {
    const Stand stand =
        standing(alike(profile::s1002(), profile::rail_head("60E1", std::atan(1.0 / 40.0))), shift, load);
    const SpaceContacts contacts = found(set, {.y = stand.axle_shift, .z = stand.axle_height, .roll = stand.roll});
    AxleForce sum;
    double radius = 0.0, carried = 0.0; // of wheel 0
    for (const SpaceContact& c : contacts.list()) {
      ContactForce f;
      f.normal = normal_force(c);
      sum.add(c, f, axes({.roll = stand.roll}));
      if (c.wheel == 0) {
        radius += c.radius * f.normal * c.n.z();
        carried += f.normal * c.n.z();
      }
    }
    CHECK(sum.force.z() == Approx(2.0 * load).epsilon(5e-3)); // of second order in roll nothing is kept there
    CHECK(radius / carried == Approx(stand.rolling_radius[0]).epsilon(1e-5));
  }
}

TEST_CASE("Normal forces never turn a wheel about its axle") {
  for (const double y : {0.0, 4e-3, -6.5e-3}) {
    const AxlePlace place{.y = y, .z = 0.4602, .roll = -1e-3, .yaw = 8e-3};
    const AxleAxes a = axes(place);
    const SpaceContacts contacts = found(s1002_on_60e1(), place);
    for (const SpaceContact& c : contacts.list()) {
      CHECK(std::abs(c.arm.cross(c.n).dot(a.axle)) < 1e-12);
      CHECK(c.n.norm() == Approx(1.0));
      CHECK(std::abs(c.n.x()) < 2e-3); // plain rail has no slope along
    }
  }
}

TEST_CASE("Creepages of a level axle are those of the wheel alone") {
  const AxlePlace place{.y = 2e-3, .z = 0.4596, .yaw = 4e-3};
  const WheelsetOnBodies set = s1002_on_60e1();
  SpaceSearch search = make_search(set);
  const SpaceContacts contacts = found(set, place);
  REQUIRE(contacts.count >= 2);
  for (const SpaceContact& c : contacts.list()) {
    const double side = c.wheel == 0 ? 1.0 : -1.0;
    const double yaw = place.yaw, along = c.arm.x() * std::cos(yaw) + c.arm.y() * std::sin(yaw);
    const Creepage alone = creepage({.speed = rolling.forward,
                                     .angular_speed = rolling.spin,
                                     .rolling_radius = -c.arm.z(),
                                     .contact_angle = side * c.angle,
                                     .offset_y = c.arm.y() * std::cos(yaw) - c.arm.x() * std::sin(yaw),
                                     .offset_x = along,
                                     .yaw = yaw,
                                     .lateral_speed = rolling.lateral,
                                     .vertical_speed = rolling.vertical,
                                     .yaw_rate = rolling.yaw_rate,
                                     .roll_rate = 0.0});
    AxleMotion motion = rolling;
    motion.roll_rate = 0.0; // about another axis there
    const ContactForce here = contact_force(set, c, 50e3, axes(place), motion, {}, rolling.forward, search);
    CHECK(here.creepage.longitudinal == Approx(alone.longitudinal).margin(2e-5));
    CHECK(here.creepage.lateral == Approx(alone.lateral).margin(2e-5));
    CHECK(here.creepage.spin == Approx(alone.spin).margin(3e-3));
    CHECK(here.power(rolling.forward) >= 0.0);
  }
}

TEST_CASE("In the mirror forces are mirrored") {
  const WheelsetOnBodies set = s1002_on_60e1();
  SpaceSearch search = make_search(set);
  const auto sum = [&](double sign) {
    const AxlePlace place{.y = sign * 5.6e-3, .z = 0.4601, .roll = sign * -0.6e-3, .yaw = sign * 3e-3};
    AxleMotion motion = rolling;
    motion.lateral *= sign;
    motion.roll_rate *= sign;
    motion.yaw_rate *= sign;
    AxleForce out;
    const SpaceContacts contacts = found(set, place);
    for (const SpaceContact& c : contacts.list()) {
      out.add(c, contact_force(set, c, normal_force(c), axes(place), motion, {}, 20.0, search), axes(place));
    }
    return out;
  };
  const AxleForce left = sum(1.0), right = sum(-1.0);
  CHECK(left.force.z() > 0.0);
  CHECK(left.force.x() == Approx(right.force.x()).epsilon(1e-9));
  CHECK(left.force.y() == Approx(-right.force.y()).epsilon(1e-9));
  CHECK(left.force.z() == Approx(right.force.z()).epsilon(1e-9));
  CHECK(left.roll == Approx(-right.roll).epsilon(1e-9));
  CHECK(left.axle == Approx(right.axle).epsilon(1e-9));
  CHECK(left.yaw == Approx(-right.yaw).epsilon(1e-9));
}

TEST_CASE("Bodies met backwards are the mirror image of bodies met as they lie") {
  const WheelSurface wheel(profile::s1002(), 0.46);
  WheelsetOnBodies set{.wheel = {wheel, wheel}, .bodies = layout::generate(layout::CrossingShape{}).bodies};
  layout::Body stock = layout::plain_rail(profile::rail_head("60E1", std::atan(1.0 / 40.0)));
  stock.side = layout::Side::opposite;
  set.bodies.push_back(stock);
  WheelsetOnBodies other = set;
  other.backwards = true;
  int on_crossing = 0; // stations at which its wheel touches
  for (const double station : {-2.0, 0.1, 0.3, 0.8}) {
    AxlePlace place{.station = station, .y = 1e-3, .z = 0.4592, .roll = 1e-4, .yaw = 6e-3};
    const SpaceContacts as_laid = found(set, place);
    place.station = -station;
    place.yaw = -place.yaw;
    const SpaceContacts backwards = found(other, place);
    INFO(station);
    on_crossing += as_laid.list().front().wheel == 0 ? 1 : 0;
    REQUIRE(backwards.count == as_laid.count);
    for (std::size_t i = 0; i < as_laid.count; ++i) {
      const SpaceContact &a = as_laid.contact[i], &b = backwards.contact[i];
      CHECK(b.body == a.body);
      CHECK(b.dx == Approx(-a.dx).margin(1e-12));
      CHECK(b.y == Approx(a.y).margin(1e-12));
      CHECK(b.approach == Approx(a.approach).margin(1e-12));
      CHECK(b.n.x() == Approx(-a.n.x()).margin(1e-9));
      CHECK(b.n.y() == Approx(a.n.y()).margin(1e-9));
      CHECK(b.arm.x() == Approx(-a.arm.x()).margin(1e-12));
      CHECK(b.ellipse.stiffness == Approx(a.ellipse.stiffness));
    }
  }
  CHECK(on_crossing >= 3);
}
