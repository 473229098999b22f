// Measured wheels: what the points themselves show.
#include "catch.hpp"

#include "wingnose/numeric/dice.hpp"
#include "wingnose/profile/measured_findings.hpp"
#include "wingnose/profile/wheel.hpp"

#include <algorithm>
#include <random>
#include <string>
#include <vector>

using namespace wingnose;

namespace {

constexpr double stated = 5e-6; // m

struct Points {
  std::vector<double> y, height;
};

// S1002 every 0.25 mm with normal noise (m).
Points sampled(double noise = stated) {
  const profile::WheelProfile wheel = profile::s1002();
  std::mt19937 dice(7);
  std::normal_distribution<double> normal(0.0, noise);
  Points p;
  for (double y = -0.068; y <= 0.058; y += 0.25e-3) {
    p.y.push_back(y);
    p.height.push_back(wheel.height(y) + normal(dice));
  }
  return p;
}

Findings found(const Points& p) { return profile::measured_findings(p.y, p.height, stated, "shop 7"); }

const Finding* find(const Findings& all, FindingKind kind) {
  const auto f = std::find_if(all.begin(), all.end(), [kind](const Finding& one) { return one.kind == kind; });
  return f == all.end() ? nullptr : &*f;
}

} // namespace

TEST_CASE("A well measured wheel finds nothing, in either order") {
  Points p = sampled();
  CHECK(found(p).empty());
  std::reverse(p.y.begin(), p.y.end());
  std::reverse(p.height.begin(), p.height.end());
  CHECK(found(p).empty());
}

TEST_CASE("A lateral datum that slipped by 20 mm is grave, by 5 mm within what flanges can be") {
  for (const double slip : {0.020, -0.020, 0.0}) {
    Points p = sampled();
    for (double& y : p.y) {
      y += slip;
    }
    const Findings all = found(p);
    const Finding* f = find(all, FindingKind::wheel_datum);
    CAPTURE(slip);
    CHECK((f != nullptr) == (slip != 0.0));
    CHECK(any_grave(all) == (slip != 0.0));
  }
}

TEST_CASE("Heights from another zero are told with how much") {
  Points p = sampled();
  for (double& z : p.height) {
    z += 0.020;
  }
  const Findings all = found(p);
  const Finding* f = find(all, FindingKind::height_datum);
  REQUIRE(f != nullptr);
  CHECK(f->what.find("20 mm") != std::string::npos);
}

TEST_CASE("Noise beyond the noise stated is told with its size") {
  const Findings all = found(sampled(0.5e-3));
  const Finding* f = find(all, FindingKind::noise_understated);
  REQUIRE(f != nullptr);
  const double told = std::stod(f->what.substr(f->what.find("scatter by ") + 11)); // mm
  CHECK(told > 0.35); // faces of the flange take their share of it, heights are not normals
  CHECK(told < 0.55);
  CHECK(find(found(sampled(2.0 * stated)), FindingKind::noise_understated) == nullptr);
}

TEST_CASE("Points that lie off their neighbours are told with the place and the size of the farthest") {
  Points p = sampled();
  p.height[300] += 5e-3;
  p.height[400] -= 0.2e-3;
  const Findings all = found(p);
  const Finding* f = find(all, FindingKind::point_off);
  REQUIRE(f != nullptr);
  CHECK(f->what.find("2 points") == 0);
  CHECK(std::stod(f->what.substr(f->what.find("farthest by ") + 12)) == Approx(5.0).margin(0.02)); // mm
  CHECK(f->where == "y = 7 mm");
  CHECK(find(all, FindingKind::noise_understated) == nullptr);
}
