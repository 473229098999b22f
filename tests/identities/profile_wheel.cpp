// What wheel profiles must satisfy, exact or measured.
#include "catch.hpp"

#include "wingnose/profile/rail.hpp"
#include "wingnose/profile/wheel.hpp"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <random>
#include <sstream>
#include <string>
#include <vector>

using namespace wingnose;
using profile::CurvePoint;
using profile::WheelProfile;

namespace {

struct Points {
  std::vector<double> y, height;
};

// A device that looks at the wheel with noise normal to the surface.
Points measure(const WheelProfile& wheel, double pitch, double noise, unsigned seed) {
  std::mt19937_64 random(seed);
  std::normal_distribution<double> normal(0.0, noise);
  Points p;
  for (double y = -0.068; y < 0.058; y += pitch) {
    const CurvePoint c = wheel.at(y);
    p.y.push_back(y);
    p.height.push_back(c.value + normal(random) * std::hypot(1.0, c.slope));
  }
  return p;
}

struct Error {
  double height = 0.0, slope = 0.0, curvature = 0.0; // root mean square
};

Error error_on_tread(const WheelProfile& a, const WheelProfile& b) {
  Error e;
  int n = 0;
  for (double y = -0.025; y < 0.050; y += 0.1e-3, ++n) {
    const CurvePoint p = a.at(y), q = b.at(y);
    e.height += std::pow(p.value - q.value, 2);
    e.slope += std::pow(p.slope - q.slope, 2);
    e.curvature += std::pow(p.curvature - q.curvature, 2);
  }
  return {std::sqrt(e.height / n), std::sqrt(e.slope / n), std::sqrt(e.curvature / n)};
}

} // namespace

TEST_CASE("Slope and curvature of every profile are the derivatives of its height") {
  const auto s1002 = profile::s1002();
  const Points p = measure(s1002, 0.4e-3, 3e-6, 2);
  const profile::Curve curves[] = {s1002.curve, profile::hollow_worn(s1002, {0.002, 0.060, 0.003}).curve,
                                   profile::measured_wheel(p.y, p.height, 3e-6, "measured").curve,
                                   profile::rail_head("60E1", 0.025).curve, profile::rail_head("49E1").curve};
  const double h = 2e-6;
  for (const auto& curve : curves) {
    int compared = 0;
    for (double y = curve.front() + 0.0021; y < curve.back() - 0.002; y += 0.137e-3) {
      bool joint = false; // differences across a jump of curvature, or of published digits, mean nothing
      for (const auto& piece : curve.pieces()) {
        joint = joint || (curve.pieces().size() < 20 && std::abs(piece.from - y) < 2.0 * h);
      }
      if (joint) {
        continue;
      }
      const CurvePoint a = curve.at(y - h), b = curve.at(y), c = curve.at(y + h);
      // two ways to sum the same terms; those of zone C reach 100 m and cancel to millimetres: 4 * 2^-53 * 100 m
      REQUIRE(b.value == Approx(curve.value(y)).epsilon(0).margin(5e-14));
      CHECK((c.value - a.value) / (2.0 * h) == Approx(b.slope).epsilon(1e-5).margin(1e-7));
      const double second = (c.slope - a.slope) / (2.0 * h);
      CHECK(second / std::pow(1.0 + b.slope * b.slope, 1.5) == Approx(b.curvature).epsilon(1e-4).margin(0.02));
      ++compared;
    }
    CHECK(compared > 400);
  }
}

TEST_CASE("Fitting a measured wheel gives its curvature, where raw differences give noise") {
  const double noise = 2e-6, pitch = 0.25e-3;
  const auto truth = profile::hollow_worn(profile::s1002(), {0.002, 0.060, 0.0});
  for (const unsigned seed : {1u, 2u, 3u}) {
    const Points p = measure(truth, pitch, noise, seed);
    const auto fit = profile::measured_wheel(p.y, p.height, noise, "measured");
    const Error e = error_on_tread(fit, truth);
    CHECK(e.height < noise);
    CHECK(e.slope < 1e-3);
    CHECK(e.curvature < 1.0); // 1/m; tread and hollow bend by 3 to 20 /m

    double raw = 0.0;
    int n = 0;
    for (std::size_t i = 1; i + 1 < p.y.size(); ++i) {
      if (p.y[i] < -0.025 || p.y[i] > 0.050) {
        continue;
      }
      const double second = (p.height[i - 1] - 2.0 * p.height[i] + p.height[i + 1]) / (pitch * pitch);
      const CurvePoint t = truth.at(p.y[i]);
      raw += std::pow(second / std::pow(1.0 + t.slope * t.slope, 1.5) - t.curvature, 2);
      ++n;
    }
    raw = std::sqrt(raw / n);
    CHECK(raw == Approx(std::sqrt(6.0) * noise / (pitch * pitch)).epsilon(0.2)); // the known noise of differences
    CHECK(e.curvature < raw / 50.0);
  }
}

TEST_CASE("A quieter device gives a truer wheel") {
  const auto truth = profile::hollow_worn(profile::s1002(), {0.002, 0.060, 0.0});
  Error before{1.0, 1.0, 1e9};
  for (const double noise : {50e-6, 10e-6, 2e-6}) {
    const Points p = measure(truth, 0.25e-3, noise, 5);
    const Error e = error_on_tread(profile::measured_wheel(p.y, p.height, noise, "measured"), truth);
    CHECK(e.height < noise);
    CHECK(e.height < before.height);
    CHECK(e.curvature < before.curvature);
    before = e;
  }
}

TEST_CASE("The demonstration file of a hollow wheel is read back as the hollow it was made from") {
  std::ifstream file(std::string(WINGNOSE_SOURCE_DIR) + "/profiles/s1002_hollow_measured.csv");
  REQUIRE(file.good());
  std::string line;
  std::getline(file, line);
  REQUIRE(line == "y_mm,height_mm");
  Points p;
  while (std::getline(file, line)) {
    std::istringstream row(line);
    double y = 0.0, height = 0.0;
    char comma = ' ';
    row >> y >> comma >> height;
    p.y.push_back(y / 1000.0);
    p.height.push_back(height / 1000.0);
  }
  const auto truth = profile::hollow_worn(profile::s1002(), {0.002, 0.064, 0.004}); // as its sidecar says
  const auto fit = profile::measured_wheel(p.y, p.height, 2e-6, "demonstration");
  const Error e = error_on_tread(fit, truth);
  CHECK(e.height < 2e-6);
  CHECK(e.curvature < 1.0);
}
