// Prescribed paths (dipped joint, polyline) and the reading of any path: transfer, zone, slopes, depth, findings.
#include "catch.hpp"
#include "path_samples.hpp"
#include "wingnose/profile/rail.hpp"

#include <cmath>
#include <numbers>

using namespace samples;

namespace {

const PlainContact plain{1.0 / 0.46, 5.0, 0.02};
const PathOptions window{.from = -2.0, .to = 2.0};

const Finding* find(const Findings& findings, FindingKind kind) {
  const auto it = std::find_if(findings.begin(), findings.end(), [&](const Finding& f) { return f.kind == kind; });
  return it == findings.end() ? nullptr : &*it;
}
bool finds(const Kinematics& k, FindingKind kind) { return find(k.findings, kind) != nullptr; }

// A path of two bodies from two functions of the station.
template <class Wing, class Nose> WheelPath two_bodies(Wing wing, Nose nose) {
  WheelPath p{{}, {{}, {}}, "crossing", std::nullopt, 0.46};
  p.bodies[0].name = "wing";
  p.bodies[1].name = "nose";
  p.bodies[0].role = Role::wing;
  p.bodies[1].role = Role::nose;
  for (int i = -1000; i <= 1000; ++i) {
    const double x = i * 0.001;
    p.station.push_back(x);
    const double heights[] = {wing(x), nose(x)};
    for (std::size_t b = 0; b < 2; ++b) {
      BodyPath& body = p.bodies[b];
      body.height.push_back(heights[b]);
      body.contact_y.push_back(0.75 + 0.01 * static_cast<double>(b));
      body.contact_dx.push_back(0.0);
      body.wheel_y.push_back(0.0);
      body.angle.push_back(0.02);
      body.curvature_x.push_back(2.0);
      body.curvature_y.push_back(5.0);
    }
  }
  return p;
}

} // namespace

TEST_CASE("A sharp dip has two straight ramps whose slopes add up to the total dip angle") {
  const WheelPath p = dipped_joint({.dip_angle = 0.010, .half_length = 0.5}, plain, window);
  REQUIRE(p.bodies.size() == 1);
  CHECK(p.bodies[0].name == "path");
  CHECK(p.excitation == "kink");
  CHECK(p.landing == 0.0);
  CHECK(read(p, p.bodies[0].height, 0.0) == Approx(-0.0025).epsilon(1e-12));
  CHECK(read(p, p.bodies[0].height, 0.2) == Approx(-0.005 * 0.3).epsilon(1e-12));
  CHECK(read(p, p.bodies[0].height, 0.6) == 0.0);
  CHECK(std::count(p.station.begin(), p.station.end(), 0.0) == 1); // the kink itself is a station
  const Kinematics k = kinematics(p, nullptr, profile::s1002(), {});
  CHECK(k.dip_angle == Approx(0.010).epsilon(1e-9));
  CHECK(k.slope_before == Approx(-0.005).epsilon(1e-9));
  CHECK(k.slope_after == Approx(0.005).epsilon(1e-9));
  CHECK(k.dip_depth == Approx(0.0025).epsilon(1e-9));
  CHECK_FALSE(k.transfer_station);
}

TEST_CASE("An endless kink keeps its slopes to the ends of the window") {
  const WheelPath p = dipped_joint({.dip_angle = 0.010, .half_length = 50.0}, plain, window);
  const std::vector<double>& z = p.bodies[0].height;
  CHECK((z[1] - z[0]) / (p.station[1] - p.station[0]) == Approx(-0.005).epsilon(1e-6));
}

TEST_CASE("A quadratic dip is level at its ends and has half the dip angle at the joint on each side") {
  const WheelPath p =
      dipped_joint({.dip_angle = 0.010, .half_length = 1.0, .shape = DippedJoint::Shape::quadratic}, plain, window);
  CHECK(p.excitation == "quadratic");
  CHECK(read(p, p.bodies[0].height, 0.0) == Approx(-0.0025).epsilon(1e-12)); // alpha L / 2
  CHECK(read(p, p.bodies[0].height, 0.5) == Approx(-0.0025 * 0.25).epsilon(1e-9));
  const Kinematics k = kinematics(p, nullptr, profile::s1002(), {.slope_length = 0.002});
  // The secant over the first 2 mm falls short of the slope at the joint by length / (2 L).
  CHECK(k.dip_angle == Approx(0.010 * (1.0 - 0.001)).epsilon(1e-4));
}

TEST_CASE("A sine dip is level at its ends, has half the dip angle at the joint on each side and lies deeper than a "
          "parabola") {
  const double alpha = 0.005, half = 1.0;
  const WheelPath p =
      dipped_joint({.dip_angle = 2.0 * alpha, .half_length = half, .shape = DippedJoint::Shape::sine}, plain, window);
  const std::vector<double>& z = p.bodies[0].height;
  CHECK(p.excitation == "sine");
  CHECK(read(p, z, 0.0) == Approx(-2.0 / std::numbers::pi * alpha * half).epsilon(1e-12));
  CHECK(read(p, z, -0.5) == Approx(-2.0 / std::numbers::pi * alpha * half * (1.0 - std::sqrt(0.5))).epsilon(1e-6));
  CHECK(read(p, z, 0.999) == Approx(0.0).margin(1e-8));
  // The sine leaves the tangent at the joint by the third power only: the secant over 2 mm is the slope.
  const Kinematics k = kinematics(p, nullptr, profile::s1002(), {.slope_length = 0.002});
  CHECK(k.dip_angle == Approx(2.0 * alpha).epsilon(1e-5));
}

TEST_CASE("A given path runs straight between its points and lands at its largest change of slope") {
  const GivenPath given{{-1.0, 0.0, 0.3, 1.0}, {0.0, -0.004, -0.001, 0.0}};
  const WheelPath p = given_path(given, plain, window);
  CHECK(p.excitation == "given path");
  CHECK(p.landing == 0.0);
  CHECK(read(p, p.bodies[0].height, 0.15) == Approx(-0.0025).epsilon(1e-12));
  CHECK(read(p, p.bodies[0].height, -1.5) == 0.0);
  CHECK(kinematics(p, nullptr, profile::s1002(), {}).dip_angle == Approx(0.014).epsilon(1e-9));
}

TEST_CASE("Unusable prescribed paths are refused") {
  CHECK_THROWS_AS(dipped_joint({.dip_angle = 0.0, .half_length = 1.0}, plain, window), InputError);
  CHECK_THROWS_AS(dipped_joint({.dip_angle = 20.0, .half_length = 1.0}, plain, window), InputError);
  CHECK_THROWS_AS(dipped_joint({.dip_angle = 0.01, .half_length = 0.0}, plain, window), InputError);
  CHECK_THROWS_AS(dipped_joint({.dip_angle = 0.01, .half_length = 1.0}, {0.0, 5.0, 0.0}, window), InputError);
  CHECK_THROWS_AS(given_path({{0.0}, {0.0}}, plain, window), InputError);
  CHECK_THROWS_AS(given_path({{0.0, 0.0}, {0.0, 0.0}}, plain, window), InputError);
  CHECK_THROWS_AS(given_path({{0.0, 1.0}, {0.0, std::nan("")}}, plain, window), InputError);
  CHECK_THROWS_AS(given_path({{0.0, 1.0}, {0.0, 4.0}}, plain, window), InputError);
}

TEST_CASE("Transfer, zone, slopes and depth of two straight lines are exact") {
  const WheelPath p = two_bodies([](double x) { return -0.004 * x; }, [](double x) { return -0.003 + 0.006 * x; });
  const Crossing c = generate({});
  const Kinematics k = kinematics(p, &c, profile::s1002(), {.zone_tolerance = 0.0002});
  CHECK(*k.transfer_station == Approx(0.3).epsilon(1e-12));
  CHECK(*k.nose_thickness == Approx(0.02).epsilon(1e-12));
  CHECK(*k.zone_begin == Approx(0.28).epsilon(1e-9)); // 0.2 mm apart at 10 mrad: 20 mm each side
  CHECK(*k.zone_end == Approx(0.32).epsilon(1e-9));
  CHECK(*k.contact_y_wing == 0.75);
  CHECK(*k.contact_y_nose == 0.76);
  CHECK(k.slope_before == Approx(-0.004).epsilon(1e-9));
  CHECK(k.slope_after == Approx(0.006).epsilon(1e-9));
  CHECK(k.dip_angle == Approx(0.010).epsilon(1e-9));
  CHECK(k.dip_depth == Approx(0.004 * 1.3).epsilon(1e-9));
  CHECK(k.findings.empty());
}

TEST_CASE("With several exchanges the last landing in the sense of travel counts, and a finding says so") {
  // The nose carries from -0.2 to 0.1 for a moment, then again from 0.4 on.
  const auto nose = [](double x) { return x < 0.25 ? 0.001 - std::abs(x + 0.05) * (0.001 / 0.15) : (x - 0.4) * 0.01; };
  const WheelPath p = two_bodies([](double) { return 0.0; }, nose);
  const Kinematics facing = kinematics(p, nullptr, profile::s1002(), {});
  CHECK(*facing.transfer_station == Approx(0.4).epsilon(1e-9));
  CHECK(finds(facing, FindingKind::several_transfers));
  const Kinematics trailing = kinematics(p, nullptr, profile::s1002(), {.direction = Direction::trailing});
  CHECK(*trailing.transfer_station == Approx(-0.2).epsilon(1e-9));
}

TEST_CASE("A gap without any support and a missing transfer are said in words") {
  const double none = -std::numeric_limits<double>::infinity();
  const WheelPath p = two_bodies([&](double x) { return x < -0.1 ? 0.0 : none; }, [&](double) { return none; });
  const Kinematics k = kinematics(p, nullptr, profile::s1002(), {});
  CHECK(finds(k, FindingKind::unsupported_wheel));
  CHECK(finds(k, FindingKind::no_transfer));
  CHECK_FALSE(k.transfer_station);
}

TEST_CASE("Rim, flange, steep, sharp and conformal contact are each found, with their place") {
  const auto falling = [](double x) { return -0.004 * x; };
  const auto rising = [](double x) { return 0.004 * x; };
  const auto with = [&](auto change) {
    WheelPath p = two_bodies(falling, rising);
    change(p.bodies[1]);
    return kinematics(p, nullptr, profile::s1002(), {});
  };
  CHECK(finds(with([](BodyPath& b) { b.wheel_y.back() = 0.0571; }), FindingKind::rim_contact));
  CHECK_FALSE(
      finds(with([](BodyPath& b) { b.wheel_y.front() = 0.0571; }), FindingKind::rim_contact)); // not carrying there
  CHECK(finds(with([](BodyPath& b) { b.wheel_y.back() = -0.036; }), FindingKind::flange_contact));
  CHECK(finds(with([](BodyPath& b) { b.angle.back() = -0.6; }), FindingKind::steep_contact));
  CHECK(finds(with([](BodyPath& b) { b.curvature_y.back() = 250.0; }), FindingKind::sharp_edge));
  CHECK(finds(with([](BodyPath& b) { b.curvature_y.back() = 0.5; }), FindingKind::conformal_contact));
  const Kinematics k = with([](BodyPath& b) { std::fill(b.wheel_y.end() - 101, b.wheel_y.end(), 0.0571); });
  const Finding& rim = *find(k.findings, FindingKind::rim_contact);
  CHECK(rim.where == "nose, stations 900 to 1000 mm");
  CHECK(rim.what.find("57.1 mm") != std::string::npos);
  CHECK(rim.what.find("stations") == std::string::npos);
}

TEST_CASE("A wheel that is lifted by the first metal of the nose is found, one that the nose comes up to is not") {
  const profile::WheelProfile wheel = profile::s1002();
  const auto found = [&](double start_depth, double offset, Direction direction = Direction::facing) {
    CrossingShape s;
    s.nose_start_depth = start_depth;
    s.nose_ramp_end_depth = std::min(s.nose_ramp_end_depth, start_depth);
    const Crossing c = generate(s);
    const WheelPath path = roll(c, wheel, {.lateral_offset = offset, .from = -0.5, .to = 1.0});
    return kinematics(path, &c, wheel, {.direction = direction});
  };
  const CrossingShape usual;
  CHECK_FALSE(finds(found(usual.nose_start_depth, 0.0), FindingKind::nose_point_hit)); // 6 mm below the top of rail
  const Kinematics high = found(0.0005, 0.0);                                          // hardly below it
  const Finding* hit = find(high.findings, FindingKind::nose_point_hit);
  REQUIRE(hit != nullptr);
  CHECK(hit->where == "nose, station 150 mm");
  CHECK(gravity_of(*hit) == Gravity::grave);
  // The wheel is lifted as high as the nose's end stands over where the wing would have carried it.
  CrossingShape s;
  s.nose_start_depth = 0.0005;
  s.nose_ramp_end_depth = 0.0005;
  const WheelPath path = roll(generate(s), wheel, {.from = -0.5, .to = 1.0});
  const double climb = read(path, named(path, "nose").height, 0.150) - read(path, named(path, "wing").height, 0.150);
  CHECK(climb > 50e-6);
  CHECK(hit->what.find(fixed(climb * 1e3, 2) + " mm") != std::string::npos);
  // Leaving the nose over its end the wheel falls: no hit.
  CHECK_FALSE(finds(found(0.0005, 0.0, Direction::trailing), FindingKind::nose_point_hit));
}

TEST_CASE("A given path that ends inside the stretch a wheel covers is found at the end where it does") {
  const WheelPath p = given_path({{-1.5, 0.0, 3.0}, {0.0, -0.001, 0.0}}, plain, window);
  CHECK(ends_in_window(p, -1.5, 2.0).empty());
  const Findings front = ends_in_window(p, -2.0, 2.0);
  REQUIRE(front.size() == 1);
  CHECK(front[0].kind == FindingKind::path_ends_in_window);
  CHECK(front[0].where == "stations -2000 to -1500 mm");
  CHECK(ends_in_window(p, -2.0, 4.0).size() == 2);
  CHECK(ends_in_window(dipped_joint({.dip_angle = 0.01, .half_length = 0.5}, plain, window), -9.0, 9.0).empty());
}

TEST_CASE("S1002 on 60E1 inclined 1:40 touches near the taping line on a slope of about 1:40") {
  const PlainContact c = plain_contact(profile::s1002(), profile::rail_head("60E1", std::atan(1.0 / 40.0)), 0.46);
  CHECK(c.curvature_x == Approx(1.0 / 0.46).epsilon(2e-3));
  CHECK(c.angle > 0.01); // plausibility band, from memory: running contact between 1:100 and 1:15
  CHECK(c.angle < 0.067);
  CHECK(c.curvature_y >= 0.5);
  // A cone 1:20 is straight across: the sum is the rail's own crown curvature where its slope is 1:20.
  const profile::RailHead head = profile::rail_head("60E1");
  const PlainContact cone = plain_contact(profile::cone(1.0 / 20.0), head, 0.46);
  CHECK(cone.angle == Approx(std::atan(1.0 / 20.0)).margin(1e-9));
  CHECK(
      (cone.curvature_y == Approx(1.0 / 0.300).epsilon(1e-6) || cone.curvature_y == Approx(1.0 / 0.080).epsilon(1e-6)));
}

TEST_CASE("What a body is called does not decide whether the wheel lands on it") {
  auto path = two_bodies([](double x) { return -0.004 * x; }, [](double x) { return 0.006 * x; });
  const Kinematics k = kinematics(path, nullptr, profile::s1002(), {});
  path.bodies[0].name = "nose";
  path.bodies[1].name = "point";
  const Kinematics renamed = kinematics(path, nullptr, profile::s1002(), {});
  REQUIRE(k.transfer_station);
  CHECK(renamed.transfer_station == k.transfer_station);
  CHECK(renamed.dip_angle == k.dip_angle);
  CHECK(*renamed.contact_y_wing == *k.contact_y_wing);
}

TEST_CASE("A condition met on wing and nose is told with the stretch of each") {
  const profile::WheelProfile wheel = profile::s1002();
  const Crossing c = generate({});
  const auto rolled = [&](double offset, Direction direction = Direction::facing) {
    return kinematics(roll(c, wheel, {.lateral_offset = offset, .from = -2.0, .to = 2.0}), &c, wheel,
                      {.direction = direction});
  };
  const Kinematics far = rolled(0.010);
  const Finding& flange = *find(far.findings, FindingKind::flange_contact);
  const auto wing = flange.where.find("wing, stations -2000 to "), nose = flange.where.find("; nose, stations ");
  REQUIRE(wing == 0);
  REQUIRE(nose != std::string::npos);
  CHECK(std::stod(flange.where.substr(nose + 17)) > 0.0); // the nose begins behind the theoretical point
}

TEST_CASE("A wheel whose flange stands on plain rail is grave") {
  const profile::WheelProfile wheel = profile::s1002();
  const Crossing c = generate({});
  const auto found = [&](double offset, FindingKind kind, Direction direction = Direction::facing) {
    const Kinematics k = kinematics(roll(c, wheel, {.lateral_offset = offset, .from = -2.0, .to = 2.0}), &c, wheel,
                                    {.direction = direction});
    const Finding* f = find(k.findings, kind);
    return f != nullptr && gravity_of(*f) == Gravity::grave;
  };
  for (const double offset : {0.010, 0.015, 0.020, 0.030}) {
    CAPTURE(offset);
    CHECK(found(offset, FindingKind::flange_on_plain_rail));
    CHECK(found(offset, FindingKind::flange_on_plain_rail, Direction::trailing));
  }
  for (const double offset : {-0.006, 0.0, 0.006}) {
    CAPTURE(offset);
    CHECK_FALSE(found(offset, FindingKind::flange_on_plain_rail));
  }
}

TEST_CASE(
    "A facing wheel that meets the nose ahead of its axle, and a trailing one that leaves it behind, are told so") {
  const profile::WheelProfile wheel = profile::s1002();
  const Crossing c = generate({});
  const auto found = [&](double offset, Direction direction) {
    const Kinematics k = kinematics(roll(c, wheel, {.lateral_offset = offset, .from = -2.0, .to = 2.0}), &c, wheel,
                                    {.direction = direction});
    const Finding* f = find(k.findings, FindingKind::axle_ahead_of_nose);
    const std::string by = "the axle is " + fixed(1e3 * (0.150 - *k.transfer_station), 1) + " mm "; // of station 150 mm
    return std::pair{f == nullptr ? std::string() : f->what, by};
  };
  for (const Direction direction : {Direction::facing, Direction::trailing}) {
    CHECK(found(0.0, direction).first.empty());
  }
  const auto [ahead, by] = found(0.008, Direction::facing);
  CAPTURE(ahead, by);
  CHECK(ahead.find(by + "ahead of the nose's first metal, which the wheel meets ahead of its axle") !=
        std::string::npos);
  const auto [past, too] = found(0.008, Direction::trailing);
  CAPTURE(past, too);
  CHECK(past.find(too + "past the nose's last metal, which the wheel leaves behind its axle") != std::string::npos);
}

TEST_CASE("The least distance from the field face is that of the outermost carrying contact") {
  WheelPath p = two_bodies([](double x) { return -0.004 * x; }, [](double x) { return 0.004 * x; });
  const profile::WheelProfile wheel = profile::s1002();
  p.bodies[1].wheel_y.back() = 0.050;  // carries there
  p.bodies[1].wheel_y.front() = 0.059; // does not
  CHECK(*kinematics(p, nullptr, wheel, {}).rim_margin == Approx(wheel.y_max() - 0.050).epsilon(1e-12));
  CHECK_FALSE(
      kinematics(dipped_joint({.dip_angle = 0.01, .half_length = 0.5}, plain, window), nullptr, wheel, {}).rim_margin);
}

TEST_CASE("A wheel lifted far above its level is grave, one that a raised wing lifts is not") {
  const profile::WheelProfile wheel = profile::s1002();
  const auto found = [&](double depth) {
    CrossingShape s;
    s.modifiers = {{"nose", 0.5, 0.4, depth}};
    const Crossing c = generate(s);
    const Kinematics k = kinematics(roll(c, wheel, {.from = -2.0, .to = 2.0}), &c, wheel, {});
    const Finding* f = find(k.findings, FindingKind::wheel_lifted);
    return f != nullptr && gravity_of(*f) == Gravity::grave;
  };
  CHECK(found(-0.020));
  CHECK_FALSE(found(-0.005));
  CHECK_FALSE(found(0.0));
}
