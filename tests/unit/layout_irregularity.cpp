// Track irregularity: what lies between its points, what lies outside, and what is refused.
#include "catch.hpp"
#include "said.hpp"

#include "wingnose/layout/irregularity.hpp"
#include "wingnose/words/error.hpp"

#include <cmath>
#include <vector>

using namespace wingnose;
using layout::Irregularity;
using Points = std::vector<layout::IrregularityPoint>;

namespace {

// A wave of 10 m and 4 mm in the left rail's height, of half of that across; the right rail sinks once.
Points waves() {
  constexpr double pi = 3.14159265358979323846;
  Points points;
  for (int i = 0; i <= 80; ++i) {
    const double x = 0.25 * i, fade = std::pow(std::sin(pi * x / 20.0), 2);
    const double wave = i % 80 == 0 ? 0.0 : 4e-3 * fade * std::sin(0.2 * pi * x);
    points.push_back({x, wave, i == 40 ? -2e-3 : 0.0, 0.5 * wave, 0.0});
  }
  return points;
}

void refused(const Points& points, const std::string& says) {
  INFO(says);
  REQUIRE_THROWS_AS(Irregularity(points), InputError);
  try {
    (void)Irregularity(points);
  } catch (const InputError& error) {
    CHECK(said::has(error.what(), says));
  }
}

} // namespace

TEST_CASE("Rails deviate by what is given at its stations, by nothing outside, and go smoothly between") {
  const Points points = waves();
  const Irregularity rails(points);
  for (const auto& p : points) {
    CHECK(rails.at(0, p.station).z == Approx(p.left_height).margin(1e-15));
    CHECK(rails.at(0, p.station).y == Approx(p.left_lateral).margin(1e-15));
    CHECK(rails.at(1, p.station).z == Approx(p.right_height).margin(1e-15));
  }
  CHECK(rails.at(0, -0.1).z == 0.0);
  CHECK(rails.at(0, 20.1).z_slope == 0.0);
  constexpr double apart = 1e-5; // m
  for (double x = -0.3; x < 20.5; x += 0.037) {
    const auto at = [&](double s) { return rails.at(0, s); };
    CHECK((at(x + apart).z - at(x - apart).z) / (2.0 * apart) == Approx(at(x).z_slope).margin(1e-6));
    CHECK((at(x + apart).y - at(x - apart).y) / (2.0 * apart) == Approx(at(x).y_slope).margin(1e-6));
    CHECK(std::abs(at(x + apart).z_slope - at(x - apart).z_slope) < 1e-5); // no kinks
  }
  // The wave is met within 1 % of its height, and a rail beside a single sink stays level.
  CHECK(rails.at(0, 7.6).z ==
        Approx(4e-3 * std::pow(std::sin(0.38 * 3.14159265), 2) * std::sin(1.52 * 3.14159265)).margin(4e-5));
  CHECK(rails.at(1, 9.3).z == 0.0);
  CHECK(rails.at(1, 10.1).z > -2e-3);
}

TEST_CASE("Seen from the other side the left rail is the right one") {
  const Irregularity rails(waves()), other = rails.mirrored();
  CHECK(other.at(1, 7.1).z == rails.at(0, 7.1).z);
  CHECK(other.at(1, 7.1).y == -rails.at(0, 7.1).y);
  CHECK(other.mirrored().points() == rails.points());
}

TEST_CASE("Points of an irregularity that are few, unordered, too large or do not fade out are refused") {
  Points points = waves();
  refused({points[0], points[1], points[80]}, "4 or more");
  points[5].station = points[4].station;
  refused(points, "more than the station before (1 m)");
  points = waves();
  points[7].right_lateral = 0.031;
  refused(points, "right lateral of point 8");
  points[7].right_lateral = std::nan("");
  refused(points, "-30 to 30 mm");
  points = waves();
  points.back().left_height = 1e-3;
  refused(points, "0 in the last row");
}
