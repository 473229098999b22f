// Wheel paths over crossings from sections: what sections say of the path, and what they must not.
#include "catch.hpp"
#include "path_samples.hpp"

#include <random>

using namespace samples;

TEST_CASE("The loft does not depend on how many points each station was measured with") {
  SectionedShape mixed = two_strips(0.005);
  int n = 60;
  for (Section& s : mixed.bodies[0].sections) { // 60, 97, 134, ... points
    s = strip(s.station, 0.762 + s.station / 15.0, 0.005, 0.040, n);
    n += 37;
  }
  const Crossing even = from_sections(two_strips(0.005, 300)), uneven = from_sections(mixed);
  const PathOptions o{.from = -0.1, .to = 0.4};
  const WheelPath a = roll(even, profile::s1002(), o), b = roll(uneven, profile::s1002(), o);
  for (double x = -0.1; x < 0.4; x += 0.0131) {
    CHECK(read(a, named(a, "wing").height, x) == Approx(read(b, named(b, "wing").height, x)).margin(1e-6));
  }
}

TEST_CASE("Sections may be measured further across at some stations without bending the path") {
  SectionedShape s = two_strips(0.0);
  s.bodies[0].sections[2] = strip(0.07, 0.762 + 0.07 / 15.0, 0.0, 0.055, 120);
  const PathOptions o{.from = -0.1, .to = 0.4};
  const WheelPath a = roll(from_sections(two_strips(0.0)), profile::s1002(), o);
  const WheelPath b = roll(from_sections(s), profile::s1002(), o);
  for (double x = -0.1; x < 0.4; x += 0.0131) {
    CHECK(read(a, named(a, "wing").height, x) == Approx(read(b, named(b, "wing").height, x)).margin(2e-6));
  }
}

TEST_CASE("Sections every 50 mm of the default crossing give back its path, transfer and dip angle") {
  // Bars of accuracy on sampled sections: 0.01 mm, 2 mm, 0.5 mrad.
  const Crossing drawn = generate({});
  const PathOptions o{.from = -1.2, .to = 1.8};
  const WheelPath a = roll(drawn, profile::s1002(), o);
  const Crossing lofted = from_sections(sectioned(drawn, 0.05, 160, -1.4, 2.0));
  const WheelPath b = roll(lofted, profile::s1002(), o);
  const Kinematics ka = kinematics(a, &drawn, profile::s1002(), {}), kb = kinematics(b, &lofted, profile::s1002(), {});
  CHECK(std::abs(*ka.transfer_station - *kb.transfer_station) < 0.002);
  CHECK(std::abs(ka.dip_angle - kb.dip_angle) < 0.0005);
  const std::vector<double> ta = combined(a), tb = combined(b);
  double worst = 0.0;
  for (std::size_t i = 0; i < a.station.size(); ++i) {
    worst = std::max(worst, std::abs(ta[i] - read(b, tb, a.station[i])));
  }
  CHECK(worst < 1e-5);
}

TEST_CASE("Measurement noise of 5 micrometres moves the path by less than itself times three") {
  const Crossing drawn = generate({});
  SectionedShape s = sectioned(drawn, 0.05, 160, -1.2, 1.0);
  std::mt19937 random(7);
  std::normal_distribution<double> noise(0.0, 5e-6);
  for (SectionedBody& body : s.bodies) {
    for (Section& section : body.sections) {
      for (double& z : section.z) {
        z += noise(random);
      }
    }
  }
  s.noise = 5e-6;
  const PathOptions o{.from = -1.0, .to = 0.9};
  const WheelPath a = roll(drawn, profile::s1002(), o), b = roll(from_sections(s), profile::s1002(), o);
  const std::vector<double> ta = combined(a), tb = combined(b);
  double sum = 0.0;
  int n = 0;
  for (double x = -0.9; x < 0.8; x += 0.01) {
    sum += std::pow(read(a, ta, x) - read(b, tb, x), 2);
    ++n;
  }
  CHECK(std::sqrt(sum / n) < 15e-6);
}
