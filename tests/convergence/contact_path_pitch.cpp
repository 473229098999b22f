// Finer tables must not change the answer, and must do so at the order expected.
#include "catch.hpp"
#include "path_samples.hpp"

using namespace samples;

TEST_CASE("Halving the pitch moves the transfer by less than 0.01 mm and the dip angle by less than 0.01 mrad") {
  const Crossing c = generate(worn());
  const profile::WheelProfile wheel = profile::s1002();
  const auto at = [&](double pitch) {
    return kinematics(roll(c, wheel, {.from = -1.0, .to = 1.2, .pitch = pitch}), &c, wheel, {});
  };
  const Kinematics coarse = at(0.002), normal = at(0.001), fine = at(0.0005);
  CHECK(std::abs(*normal.transfer_station - *fine.transfer_station) < 1e-5);
  CHECK(std::abs(normal.dip_angle - fine.dip_angle) < 1e-5);
  CHECK(std::abs(*coarse.transfer_station - *fine.transfer_station) < 5e-5);
  CHECK(std::abs(normal.dip_depth - fine.dip_depth) < 1e-7);
}

TEST_CASE("Tabulated heights do not depend on the pitch of the table") {
  const Crossing c = generate({});
  const WheelPath a = roll(c, profile::s1002(), {.from = -0.5, .to = 1.0, .pitch = 0.001});
  const WheelPath b = roll(c, profile::s1002(), {.from = -0.5, .to = 1.0, .pitch = 0.00025});
  double worst = 0.0;
  for (std::size_t i = 0, j = 0; i < a.station.size(); ++i) {
    while (j + 1 < b.station.size() && b.station[j] < a.station[i] - 1e-12) {
      ++j;
    }
    if (std::abs(b.station[j] - a.station[i]) < 1e-12) {
      for (std::size_t body = 0; body < 2; ++body) {
        if (a.bodies[body].height[i] > -0.004) {
          worst = std::max(worst, std::abs(a.bodies[body].height[i] - b.bodies[body].height[j]));
        }
      }
    }
  }
  CHECK(worst < 1e-8);
}

TEST_CASE(
    "Reading the table by straight lines is second order in the pitch, below 0.1 micrometre at 1 mm on the ramp") {
  const Crossing c = generate({});
  const auto error = [&](double pitch) { // against the finest table, where the nose ramp is rounded
    const WheelPath fine = roll(c, profile::s1002(), {.from = 0.55, .to = 0.80, .pitch = 0.0001});
    const WheelPath path = roll(c, profile::s1002(), {.from = 0.55, .to = 0.80, .pitch = pitch});
    const std::vector<double>& z = named(path, "nose").height;
    double worst = 0.0;
    for (std::size_t i = 0; i < fine.station.size(); ++i) {
      const double x = fine.station[i];
      // Away from stations where the table is refined on purpose.
      const bool refined = std::abs(x - 0.575) < 0.02 || std::abs(x - 0.675) < 0.02 || std::abs(x - 0.775) < 0.02;
      if (!refined && x > 0.60 && x < 0.75) {
        worst = std::max(worst, std::abs(read(path, z, x) - named(fine, "nose").height[i]));
      }
    }
    return worst;
  };
  const double e8 = error(0.008), e4 = error(0.004), e2 = error(0.002);
  const double order = std::log2(e8 / e4);
  CAPTURE(e8, e4, e2);
  CHECK(order > 1.7);
  CHECK(order < 2.3);
  CHECK(std::log2(e4 / e2) > 1.7);
  CHECK(error(0.001) < 1e-7);
}

TEST_CASE("More sections bring the lofted path closer to the drawn one") {
  const Crossing drawn = generate({});
  const PathOptions o{.from = -0.8, .to = 1.2};
  const WheelPath a = roll(drawn, profile::s1002(), o);
  const auto error = [&](double spacing) {
    const WheelPath b = roll(from_sections(sectioned(drawn, spacing, 160, -1.0, 1.4)), profile::s1002(), o);
    const std::vector<double> ta = combined(a), tb = combined(b);
    double worst = 0.0;
    for (std::size_t i = 0; i < a.station.size(); ++i) {
      worst = std::max(worst, std::abs(ta[i] - read(b, tb, a.station[i])));
    }
    return worst;
  };
  const double e100 = error(0.100), e50 = error(0.050), e25 = error(0.025);
  CAPTURE(e100, e50, e25);
  CHECK(std::log2(e100 / e50) > 1.5);
  CHECK(std::log2(e50 / e25) > 1.0);
  CHECK(e25 < 5e-6);
}
