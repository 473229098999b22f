// Measured wheels: what is accepted, and one sentence for every mistake.
#include "catch.hpp"

#include "wingnose/profile/wheel.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

using namespace wingnose;

namespace {

struct Points {
  std::vector<double> y, height;
};

Points sampled(double from = -0.068, double to = 0.058, double pitch = 0.5e-3) {
  const auto wheel = profile::s1002();
  Points p;
  for (int i = 0; from + i * pitch <= to; ++i) {
    p.y.push_back(from + i * pitch);
    p.height.push_back(wheel.height(p.y.back()));
  }
  return p;
}

constexpr double noise = 5e-6; // m

std::string refusal(const Points& p, double level = noise) {
  try {
    (void)profile::measured_wheel(p.y, p.height, level, "shop 7");
  } catch (const InputError& e) {
    return e.what();
  }
  return "accepted";
}

bool says(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

} // namespace

TEST_CASE("A measured profile is the same in either order and with points measured twice") {
  const Points p = sampled();
  const auto wheel = profile::measured_wheel(p.y, p.height, noise, "shop 7");
  CHECK(wheel.name == "shop 7");
  CHECK(wheel.y_min() == p.y.front());
  CHECK(wheel.y_max() == p.y.back());

  Points back = p;
  std::reverse(back.y.begin(), back.y.end());
  std::reverse(back.height.begin(), back.height.end());
  const auto reversed = profile::measured_wheel(back.y, back.height, noise, "shop 7");

  Points twice;
  for (std::size_t i = 0; i < p.y.size(); ++i) {
    for (int k = 0; k < (i % 7 == 0 ? 3 : 1); ++k) {
      twice.y.push_back(p.y[i]);
      twice.height.push_back(p.height[i]);
    }
  }
  const auto merged = profile::measured_wheel(twice.y, twice.height, noise, "shop 7");
  for (double y = -0.067; y < 0.057; y += 0.0007) {
    CHECK(reversed.height(y) == wheel.height(y));
    CHECK(merged.height(y) == Approx(wheel.height(y)).epsilon(0).margin(1e-12));
  }
}

TEST_CASE("Two readings at one place count as their mean") {
  Points p = sampled();
  const auto at = static_cast<std::ptrdiff_t>(100);
  p.y.insert(p.y.begin() + at, p.y[100]);
  p.height.insert(p.height.begin() + at, p.height[100] + 2e-6);
  p.height[101] -= 2e-6;
  const Points plain = sampled();
  const auto a = profile::measured_wheel(p.y, p.height, noise, "a");
  const auto b = profile::measured_wheel(plain.y, plain.height, noise, "b");
  CHECK(a.height(plain.y[100]) == Approx(b.height(plain.y[100])).epsilon(0).margin(1e-12));
}

TEST_CASE("A sound measurement is accepted") { CHECK(refusal(sampled()) == "accepted"); }

TEST_CASE("Heights that are missing are reported with both counts") {
  Points p = sampled();
  p.height.pop_back();
  CHECK(says(refusal(p), "253 lateral positions and 252 heights"));
}

TEST_CASE("A value that is not a number is reported with the number of its point") {
  Points p = sampled();
  p.height[41] = std::numeric_limits<double>::quiet_NaN();
  CHECK(says(refusal(p), "\"shop 7\", point 42: a value that is not a number"));
  p = sampled();
  p.y[3] = std::numeric_limits<double>::infinity();
  CHECK(says(refusal(p), "point 4"));
}

TEST_CASE("Noise that is zero, negative or larger than half a millimetre is refused") {
  CHECK(says(refusal(sampled(), 0.0), "noise of measured wheel profile \"shop 7\": 0 mm"));
  CHECK(says(refusal(sampled(), -1e-6), "above 0, up to 0.5 mm"));
  CHECK(says(refusal(sampled(), 2e-3), "2 mm is not allowed"));
  CHECK(says(refusal(sampled(), std::nan("")), "above 0, up to 0.5 mm"));
}

TEST_CASE("Too few points are reported, also when only repeats make up the number") {
  Points p = sampled(-0.045, 0.045, 5e-3);
  REQUIRE(p.y.size() == 19);
  CHECK(says(refusal(p), "19 points is not allowed; allowed: at least 20"));
  p.y.insert(p.y.begin(), 5, p.y.front());
  p.height.insert(p.height.begin(), 5, p.height.front());
  CHECK(says(refusal(p), "19 different points"));
}

TEST_CASE("Points in millimetres are recognised by their size") {
  Points p = sampled();
  for (double& y : p.y) {
    y *= 1000.0;
  }
  CHECK(says(refusal(p), "unit of the lateral positions"));
  p = sampled();
  for (double& h : p.height) {
    h *= 1000.0;
  }
  CHECK(says(refusal(p), "unit of the heights"));
  p = sampled();
  for (double& y : p.y) {
    y *= 1e-3;
  }
  CHECK(says(refusal(p), "20 mm to 200 mm"));
}

TEST_CASE("A profile that doubles back is reported with the point where it does") {
  Points p = sampled();
  p.y[60] = p.y[58] - 0.1e-3;
  CHECK(says(refusal(p), "point 61"));
  CHECK(says(refusal(p), "one direction along y"));
}

TEST_CASE("Two very different heights at one place are reported") {
  Points p = sampled();
  p.y.insert(p.y.begin() + 80, p.y[80]);
  p.height.insert(p.height.begin() + 80, p.height[80] + 1e-3);
  CHECK(says(refusal(p), "a second height"));
}

TEST_CASE("A measurement without the tread, or with a gap, is refused") {
  CHECK(says(refusal(sampled(-0.068, 0.010)), "cover the tread"));
  CHECK(says(refusal(sampled(-0.005, 0.058)), "cover the tread"));
  Points p = sampled();
  p.y.erase(p.y.begin() + 120, p.y.begin() + 140);
  p.height.erase(p.height.begin() + 120, p.height.begin() + 140);
  CHECK(says(refusal(p), "a gap from y ="));
}

TEST_CASE("A measurement without the flange, or mirrored, is refused with that advice") {
  CHECK(says(refusal(sampled(-0.030, 0.058)), "towards the flange"));
  Points p = sampled();
  for (double& y : p.y) {
    y = -y;
  }
  CHECK(says(refusal(p), "mirrored"));
}
