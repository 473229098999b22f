// What must hold for any crossing, whatever its shape.
#include "catch.hpp"
#include "path_samples.hpp"

using namespace samples;

namespace {

// The same crossing seen from the other end: station x becomes -x.
SectionedShape mirrored(SectionedShape s) {
  for (SectionedBody& body : s.bodies) {
    std::reverse(body.sections.begin(), body.sections.end());
    for (Section& section : body.sections) {
      section.station = -section.station;
    }
  }
  return s;
}

} // namespace

TEST_CASE("A trailing move over the same table transfers at the same place with slopes exchanged") {
  const Crossing c = generate(worn());
  const profile::WheelProfile wheel = profile::s1002();
  const WheelPath path = roll(c, wheel, around_transfer());
  const Kinematics f = kinematics(path, &c, wheel, {.direction = Direction::facing});
  const Kinematics t = kinematics(path, &c, wheel, {.direction = Direction::trailing});
  REQUIRE(f.transfer_station);
  REQUIRE(t.transfer_station);
  CHECK(*t.transfer_station == Approx(*f.transfer_station).epsilon(1e-12));
  CHECK(t.slope_before == Approx(-f.slope_after).epsilon(1e-9));
  CHECK(t.slope_after == Approx(-f.slope_before).epsilon(1e-9));
  CHECK(t.dip_angle == Approx(f.dip_angle).epsilon(1e-9));
  CHECK(*t.contact_y_wing == *f.contact_y_wing);
  CHECK(*t.zone_begin == *f.zone_begin);
}

TEST_CASE("A crossing turned end for end gives the path turned end for end") {
  const SectionedShape s = sectioned(generate({}), 0.05, 120, -1.2, 1.6);
  const PathOptions there{.from = -1.0, .to = 1.3}, back{.from = -1.3, .to = 1.0};
  const WheelPath a = roll(from_sections(s), profile::s1002(), there);
  const WheelPath b = roll(from_sections(mirrored(s)), profile::s1002(), back);
  REQUIRE(a.station.size() == b.station.size());
  for (std::size_t body = 0; body < 2; ++body) {
    for (std::size_t i = 0; i < a.station.size(); i += 7) {
      const double x = a.station[i], left = a.bodies[body].height[i];
      if (left < -0.006) {
        continue; // running off an end: interpolated readings are steep there
      }
      CAPTURE(body, x);
      CHECK(read(b, b.bodies[body].height, -x) == Approx(left).margin(1e-7));
    }
  }
}

TEST_CASE("Raising both bodies by a height raises every path by that height and moves nothing else") {
  const SectionedShape s = sectioned(generate({}), 0.05, 120, -0.8, 1.2);
  SectionedShape raised = s;
  for (SectionedBody& body : raised.bodies) {
    for (Section& section : body.sections) {
      for (double& z : section.z) {
        z += 0.003;
      }
    }
  }
  const PathOptions o{.from = -0.7, .to = 1.1};
  const Crossing ca = from_sections(s), cb = from_sections(raised);
  const WheelPath a = roll(ca, profile::s1002(), o), b = roll(cb, profile::s1002(), o);
  for (double x = -0.69; x < 1.1; x += 0.0171) {
    for (std::size_t body = 0; body < 2; ++body) {
      const double low = read(a, a.bodies[body].height, x), high = read(b, b.bodies[body].height, x);
      if (low > -0.006) {
        CAPTURE(x, body);
        CHECK(high - low == Approx(0.003).margin(1e-8));
      }
    }
  }
  const Kinematics ka = kinematics(a, &ca, profile::s1002(), {}), kb = kinematics(b, &cb, profile::s1002(), {});
  CHECK(*ka.transfer_station == Approx(*kb.transfer_station).margin(1e-7));
  CHECK(ka.dip_angle == Approx(kb.dip_angle).margin(1e-7));
}

TEST_CASE("With no gap between wing and nose the wheel does not notice the transfer (the limit of a movable nose)") {
  // One crowned head, split along a line running out at 1:15 without a flangeway.
  SectionedShape s;
  s.noise = 0.0;
  s.bodies = {{"wing", {}}, {"nose", {}}};
  const auto head = [](double y) { return -(y - 0.757) * (y - 0.757) / (2.0 * 0.2); };
  const auto strip = [&](double x, double from, double to) {
    Section section{x, {}, {}};
    for (int j = 0; j <= 60; ++j) {
      const double y = from + (to - from) * j / 60.0;
      section.y.push_back(y);
      section.z.push_back(head(y));
    }
    return section;
  };
  for (int i = 0; i <= 16; ++i) {
    const double x = 0.05 * i, split = 0.725 + x / 15.0;
    s.bodies[0].sections.push_back(strip(x, split, 0.795));
    s.bodies[1].sections.push_back(strip(x, 0.718, split));
  }
  const Crossing c = from_sections(s);
  const WheelPath path = roll(c, profile::s1002(), {.from = 0.1, .to = 0.7});
  const std::vector<double> top = combined(path);
  const auto [low, high] = std::minmax_element(top.begin(), top.end());
  CHECK(*high - *low < 1e-7);
  const Kinematics k = kinematics(path, &c, profile::s1002(), {});
  CHECK(k.dip_depth < 1e-7);
}

TEST_CASE("The wheel radius shifts where the wheel touches but hardly the height of a straight ramp") {
  const Crossing c = generate({});
  const PathOptions small{.from = 0.3, .to = 0.5, .wheel_radius = 0.30};
  const PathOptions large{.from = 0.3, .to = 0.5, .wheel_radius = 0.60};
  const WheelPath a = roll(c, profile::s1002(), small), b = roll(c, profile::s1002(), large);
  const double sa = read(a, named(a, "wing").contact_dx, 0.35), sb = read(b, named(b, "wing").contact_dx, 0.35);
  CHECK(sb / sa == Approx(2.0).epsilon(0.01)); // both behind the axle by R times the slope
  // Heights differ by the rolling term R s^2 / 2 only.
  const double slope = sa / 0.30;
  CHECK(read(b, named(b, "wing").height, 0.35) - read(a, named(a, "wing").height, 0.35) ==
        Approx(0.5 * slope * slope * 0.30).epsilon(0.02));
}

TEST_CASE("A wheel moved across together with the whole crossing follows the same path") {
  SectionedShape s = sectioned(generate({}), 0.05, 120, -0.4, 1.0);
  const WheelPath a = roll(from_sections(s), profile::s1002(), {.from = -0.3, .to = 0.9});
  for (SectionedBody& body : s.bodies) {
    for (Section& section : body.sections) {
      for (double& y : section.y) {
        y += 0.005;
      }
    }
  }
  const WheelPath b = roll(from_sections(s), profile::s1002(), {.lateral_offset = 0.005, .from = -0.3, .to = 0.9});
  for (double x = -0.29; x < 0.9; x += 0.0137) {
    CHECK(read(a, combined(a), x) == Approx(read(b, combined(b), x)).margin(1e-8));
  }
}
