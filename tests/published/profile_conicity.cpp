// Rolling radius difference of a rigid wheelset on two rails: wheel profile, rail head, inclination and gauge together.
// Source: no publication. The table is an independent calculation (rigid contact with roll, S1002 after EN 13715, rails
// after EN 13674-1, gauge 1435 mm, taping lines 1500 mm apart), given to 1e-4 mm; the conicities at 3 mm that follow
// from it, 0.17 to 0.18 on 1:40 and about 0.01 on 1:20, are those commonly quoted (from memory, medium).
#include "scoreboard.hpp"

#include "wingnose/numeric/roots.hpp"
#include "wingnose/profile/rail.hpp"
#include "wingnose/profile/wheel.hpp"

#include <cmath>
#include <limits>

using namespace wingnose;

namespace {

constexpr double half_taping = 0.750;   // m, half the distance of the taping lines
constexpr double half_gauge = 0.7175;   // m, half of 1435 mm, measured 14 mm below the running surface
constexpr double gauge_depth = 0.014;   // m
constexpr double rolling_radius = 0.46; // m

struct Touch {
  double gap, y; // m: least height of the wheel over the rail, and where on the wheel
};

// One wheel of a wheelset shifted by `shift` towards its own rail and rolled so that this wheel rises by `roll` per
// metre.
// The table does not name that level: at rail level all its rows agree, at axle level the differences are larger by 0.5
// % and more, so rail level is taken to be the table's.
Touch touch(const profile::WheelProfile& wheel, const profile::RailHead& rail, double axis, double shift, double roll) {
  const double c = std::cos(roll), s = std::sin(roll);
  const auto gap = [&](double y) {
    const double across = half_taping + y, down = rolling_radius + wheel.height(y);
    const double at =
        across * c + (down - rolling_radius) * s + shift - axis; // on the rail, from its axis to the field side
    if (at < rail.curve.front() || at > rail.curve.back()) {
      return std::numeric_limits<double>::infinity();
    }
    return across * s - down * c - rail.curve.value(at);
  };
  constexpr double step = 0.1e-3;
  double best = -0.045;
  for (double y = best; y <= 0.055; y += step) {
    if (gap(y) < gap(best)) {
      best = y;
    }
  }
  const auto refined = numeric::minimum_in(gap, best - step, best + step);
  return {refined.value, refined.at};
}

double radius_difference(const profile::WheelProfile& wheel, const profile::RailHead& rail, double shift) {
  const double gauge_face = numeric::root_in([&](double y) { return rail.curve.value(y) + gauge_depth; },
                                             rail.curve.front(), 0.0, 1e-13, "the gauge face");
  const double axis = half_gauge - gauge_face;
  const auto right = [&](double roll) { return touch(wheel, rail, axis, shift, roll); };
  const auto left = [&](double roll) { return touch(wheel, rail, axis, -shift, -roll); };
  const double roll = numeric::root_in([&](double r) { return right(r).gap - left(r).gap; }, -0.02, 0.02, 1e-13,
                                       "the roll at which both wheels touch");
  return wheel.height(right(roll).y) - wheel.height(left(roll).y);
}

} // namespace

TEST_CASE("S1002 on 60E1 and 54E1 has the tabulated rolling radius differences") {
  struct Row {
    const char* rail;
    int inclination;          // 1:n
    double shift, difference; // mm
  };
  const Row rows[] = {{"60E1", 40, 1.0, 0.6100}, {"60E1", 40, 3.0, 0.9428}, {"60E1", 40, 5.0, 1.4581},
                      {"60E1", 20, 3.0, 0.0574}, {"60E1", 20, 6.0, 0.1411}, {"54E1", 40, 2.0, 0.8607},
                      {"54E1", 40, 3.0, 1.0806}, {"54E1", 20, 3.0, 0.0623}, {"54E1", 20, 5.0, 0.1167}};
  const auto wheel = profile::s1002();
  for (const Row& row : rows) {
    const auto rail = profile::rail_head(row.rail, std::atan(1.0 / row.inclination));
    score_abs(std::string("radius difference of S1002 on ") + row.rail + " 1:" + std::to_string(row.inclination) +
                  " at " + scoreboard::number(row.shift) + " mm, mm",
              radius_difference(wheel, rail, row.shift * 1e-3) * 1e3, row.difference, 5e-4,
              {Trust::worked, "no publication: independent rigid contact with roll, gauge 1435 mm"});
  }
}
