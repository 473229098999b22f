// Crossings from sections: the loft keeps what the sections say and nothing else; bad input is named.
#include "catch.hpp"
#include "unit/layout_samples.hpp"

#include <random>

using namespace samples;

namespace {

// A strip of rail with a rounded edge of 13 mm, level across, running out at 1:N and rising at `slope`.
Section strip(double x, double edge, double slope, double width, int points) {
  Section s{x, {}, {}};
  for (int j = 0; j <= points; ++j) {
    const double eta = 0.5 * width * (1.0 - std::cos(std::numbers::pi * j / points)), a = std::max(0.0, 0.013 - eta);
    s.y.push_back(edge + eta);
    s.z.push_back(slope * x - 0.013 + std::sqrt(0.013 * 0.013 - a * a));
  }
  return s;
}

SectionedShape two_strips(double slope, int wing_points = 80) {
  SectionedShape s;
  s.noise = 0.0;
  s.bodies = {{"wing", {}}, {"nose", {}}};
  for (const double x : {-0.2, 0.0, 0.07, 0.2, 0.31, 0.5}) {
    s.bodies[0].sections.push_back(strip(x, 0.762 + x / 15.0, slope, 0.040, wing_points));
    s.bodies[1].sections.push_back(strip(x, 0.7205, -0.004 + slope * x, 0.020, 60));
  }
  return s;
}

bool refused(const SectionedShape& s, const char* word) {
  try {
    (void)from_sections(s);
  } catch (const InputError& e) {
    INFO(e.what());
    CHECK(std::string(e.what()).find(word) != std::string::npos);
    return true;
  }
  return false;
}

} // namespace

TEST_CASE("A straight ramp given as sections stays straight to a nanometre between the stations") {
  const Crossing c = from_sections(two_strips(0.005));
  const auto& wing = std::get<LoftedBody>(c.bodies[0].surface);
  const double eta = 0.025;
  const double z0 = wing.height(0.0, eta);
  for (double x = -0.2; x <= 0.5; x += 0.0137) {
    CAPTURE(x);
    CHECK(wing.height(x, eta) - z0 == Approx(0.005 * x).margin(1e-9));
    CHECK(wing.edge(x) - wing.edge(0.0) == Approx(x / 15.0).margin(1e-9));
  }
}

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

TEST_CASE("Points may run from the field side to the edge as well") {
  SectionedShape turned = two_strips(0.005);
  for (Section& s : turned.bodies[0].sections) {
    std::reverse(s.y.begin(), s.y.end());
    std::reverse(s.z.begin(), s.z.end());
  }
  const Crossing a = from_sections(two_strips(0.005)), b = from_sections(turned);
  const auto& wa = std::get<LoftedBody>(a.bodies[0].surface);
  const auto& wb = std::get<LoftedBody>(b.bodies[0].surface);
  CHECK(wa.edge(0.1) == Approx(wb.edge(0.1)).margin(1e-9));
  CHECK(wa.height(0.1, 0.02) == Approx(wb.height(0.1, 0.02)).margin(1e-9));
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

TEST_CASE("Mistakes in sections are named one by one") {
  const SectionedShape good = two_strips(0.0);
  const auto with = [&](auto change) {
    SectionedShape s = good;
    change(s);
    return s;
  };
  REQUIRE_NOTHROW(from_sections(good));
  CHECK(refused(with([](auto& s) { s.bodies.pop_back(); }), "nose"));
  CHECK(refused(with([](auto& s) { s.bodies.erase(s.bodies.begin()); }), "wing"));
  CHECK(refused(with([](auto& s) { s.bodies[1].name = "frog"; }), "frog"));
  CHECK(refused(with([](auto& s) { s.bodies[0].sections.resize(1); }), "at least 2 sections"));
  CHECK(refused(with([](auto& s) { std::swap(s.bodies[0].sections[1], s.bodies[0].sections[2]); }), "increasing"));
  CHECK(refused(with([](auto& s) {
                  s.bodies[0].sections[1].y.resize(5);
                  s.bodies[0].sections[1].z.resize(5);
                }),
                "at least 8 points"));
  CHECK(refused(with([](auto& s) { s.bodies[0].sections[1].z.pop_back(); }), "as many y as z"));
  CHECK(refused(with([](auto& s) { s.bodies[0].sections[1].z[4] = std::nan(""); }), "finite"));
  CHECK(refused(with([](auto& s) { s.bodies[0].sections[1].station = std::nan(""); }), "station"));
  CHECK(refused(with([](auto& s) {
                  for (double& y : s.bodies[0].sections[1].y) {
                    y *= 1000.0; // metres read as millimetres of millimetres
                  }
                }),
                "unit"));
  CHECK(refused(with([](auto& s) {
                  for (double& y : s.bodies[0].sections[1].y) {
                    y -= 0.7535; // measured from the rail axis
                  }
                }),
                "track centre line"));
  CHECK(refused(with([](auto& s) {
                  s.bodies[0].sections[1].y[4] = s.bodies[0].sections[1].y[3];
                  s.bodies[0].sections[1].z[4] = s.bodies[0].sections[1].z[3];
                }),
                "repeats"));
  CHECK(refused(with([](auto& s) {
                  for (Section& section : s.bodies[1].sections) {
                    for (double& y : section.y) {
                      y += 0.045;
                    }
                  }
                }),
                "overlap"));
  CHECK(refused(with([](auto& s) { s.rate = 1.0; }), "rate"));
  CHECK(refused(with([](auto& s) { s.noise = -1.0; }), "noise"));
}
