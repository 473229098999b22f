// Normal laws against worked Hertz patches, and the fast laws against the half-space solution.
#include "published/scoreboard.hpp"

#include "wingnose/contact/normal/pressure_field.hpp"
#include "wingnose/words/error.hpp"
#include "wingnose/words/frame.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

using namespace wingnose;
using namespace wingnose::contact;

namespace {

// A rail head that is one arc of `radius` (m), level at the taping line of the wheel.
layout::Body arc_rail(double radius) {
  profile::RailHead rail;
  rail.name = "arc";
  const double half = std::min(0.036, 0.8 * radius);
  rail.curve = profile::Curve({{-half, half, profile::Piece::Kind::arc_upper, {0.0, -radius, radius}}});
  return layout::plain_rail(rail);
}

// Shifts of the wheelset towards the field (m) for S1002 on 60E1 at 1:40 in which the contact is on the tread.
std::vector<double> shifts(double from, double to, double step) {
  std::vector<double> lateral;
  for (double s = from; s <= to + 0.5 * step; s += step) {
    lateral.push_back(taping_line_y + s);
  }
  return lateral;
}

double off(double value, double yardstick) { return std::abs(value / yardstick - 1.0); }

} // namespace

TEST_CASE("Both laws, searching a cylindrical wheel on a round rail head, agree with the worked Hertz patches") {
  const Source source{Trust::worked, "Hertz 1881, wheel R 0.46 m, evaluated apart to four or five digits"};
  struct Patch {
    const char* what;
    double force, radius, a_mm, b_mm, p0_MPa, approach_um;
  };
  const WheelSurface wheel(profile::cone(1e-9), 0.46);
  for (const Patch& row : std::vector<Patch>{{"100 kN on R 300", 100e3, 0.300, 7.162, 5.387, 1237.6, 104.12},
                                             {"200 kN on R 300", 200e3, 0.300, 9.023, 6.787, 1559.2, 165.28},
                                             {"100 kN on R 80", 100e3, 0.080, 8.542, 2.701, 2069.6, 124.90},
                                             {"100 kN on R 13", 100e3, 0.013, 10.077, 1.027, 4611.9, 150.97}}) {
    GapLine line;
    // The gauge point of the arc is at y = gauge / 2, so its middle lies half a width farther out.
    const layout::Body rail = arc_rail(row.radius);
    const double middle =
        0.5 * standard_gauge + std::min({0.036, 0.8 * row.radius, std::sqrt(0.014 * (2.0 * row.radius - 0.014))});
    look(wheel, rail, {.lateral = middle}, line);
    for (const NormalLaw& law : {NormalLaw{Ellipse{}}, NormalLaw{Strips{}}}) {
      const NormalContact c = normal_contact(law, line, depth_for_force(law, line, row.force));
      const std::string at = ", " + std::string(name(law)) + ", " + row.what;
      // 1 and 1.5 % are what the laws promise for an elliptic gap: they see it on columns of a quarter of a millimetre.
      score("approach, um" + at, c.approach * 1e6, row.approach_um, 0.01, source);
      score("peak pressure, MPa" + at, c.peak_pressure * 1e-6, row.p0_MPa, 0.015, source);
      score("semi-axis along, mm" + at, c.half_length * 1e3, row.a_mm, 0.015, source);
      score_abs("semi-axis across, mm" + at, c.half_width * 1e3, row.b_mm, std::max(0.015 * row.b_mm, 0.0625), source);
    }
  }
}

TEST_CASE("The half-space field of a round rail head is Hertz's ellipse") {
  const WheelSurface wheel(profile::cone(1e-9), 0.46);
  const layout::Body rail = arc_rail(0.300);
  GapLine line;
  look(wheel, rail, {.lateral = 0.5 * standard_gauge + 0.036}, line);
  const PressureField f = half_space_field(line, 100e3);
  const Source source{Trust::worked, "Hertz 1881, wheel R 0.46 m, evaluated apart to four or five digits"};
  // 64 x 64 cells over a patch that fills two thirds of them.
  score("half-space approach, um, 100 kN on R 300", f.approach * 1e6, 104.12, 0.003, source);
  score("half-space peak pressure, MPa, 100 kN on R 300", f.peak_pressure * 1e-6, 1237.6, 0.005, source);
  score("half-space area, mm2, 100 kN on R 300", f.area * 1e6, std::numbers::pi * 7.162 * 5.387, 0.03, source);
  CHECK(f.force == Approx(100e3));
  CHECK(f.mean_y == Approx(line.y(line.top)).margin(0.3e-3));
  double sum = 0.0;
  const double cell = (f.x[1] - f.x[0]) * (f.y[1] - f.y[0]);
  for (const double p : f.pressure) {
    sum += p * cell;
  }
  CHECK(sum == Approx(100e3).epsilon(0.01)); // y is measured across the track, the rows along the surface
}

TEST_CASE(
    "S1002 on 60E1 at 1:40 under 90 kN: strips stay within 1 % of the half-space approach, 2 % of its peak pressure") {
  // The yardstick is the half-space solution on 64 x 64 cells, whose own error is 0.5 % in the peak pressure (against
  // 128 x 128). The radius of the head changes from 300 to 80 mm inside the patch between shifts of -0.5 and 1.5 mm:
  // there an ellipse has no chance.
  const WheelSurface wheel(profile::s1002(), 0.46);
  const layout::Body rail = layout::plain_rail(profile::rail_head("60E1", std::atan(1.0 / 40.0)));
  double worst_ellipse = 0.0, worst_pressure = 0.0, worst_approach = 0.0, worst_area = 0.0,
         worst_ellipse_approach = 0.0;
  for (const LawDeviation& row : law_deviations(wheel, rail, 0.0, shifts(-0.006, 0.0045, 0.0005), 90e3)) {
    const PressureField& exact = row.half_space;
    CAPTURE(row.lateral - taping_line_y);
    CHECK_FALSE(exact.turn.stretched);
    CHECK(off(row.strips.approach, exact.approach) < 0.01);
    CHECK(off(row.strips.peak_pressure, exact.peak_pressure) < 0.02);
    CHECK(off(row.strips.area, exact.area) < 0.08);
    CHECK(off(row.ellipse.approach, exact.approach) < 0.04);
    worst_approach = std::max(worst_approach, off(row.strips.approach, exact.approach));
    worst_pressure = std::max(worst_pressure, off(row.strips.peak_pressure, exact.peak_pressure));
    worst_area = std::max(worst_area, off(row.strips.area, exact.area));
    worst_ellipse_approach = std::max(worst_ellipse_approach, off(row.ellipse.approach, exact.approach));
    worst_ellipse = std::max(worst_ellipse, 1.0 - row.ellipse.peak_pressure / exact.peak_pressure);
  }
  CAPTURE(worst_approach, worst_pressure, worst_area, worst_ellipse_approach, worst_ellipse);
  // One ellipse of the closed width reads the peak pressure too low where the radius changes: local Hertz is known to
  // be off by up to 26 % there, the closed width by a third.
  CHECK(worst_ellipse > 0.2);
  CHECK(worst_ellipse < 0.36);
}

TEST_CASE("Where the wheel leaves the tread the turn of the normal is told and the laws are estimates") {
  const WheelSurface wheel(profile::s1002(), 0.46);
  const layout::Body rail = layout::plain_rail(profile::rail_head("60E1", std::atan(1.0 / 40.0)));
  for (const LawDeviation& row : law_deviations(wheel, rail, 0.0, shifts(0.005, 0.0055, 0.0005), 90e3)) {
    CAPTURE(row.lateral - taping_line_y);
    CHECK(row.half_space.turn.stretched);
    // Two places of very different inclination share the load.
    CHECK(off(row.strips.approach, row.half_space.approach) < 0.08);
    CHECK(off(row.strips.peak_pressure, row.half_space.peak_pressure) < 0.08);
  }
}

TEST_CASE("Along wing and nose strips stay within 2 % of the half-space approach, where one ellipse misses half the "
          "pressure") {
  // Edges of 10 and 16 mm, the crown of 200 mm, and the places where a patch lies on both.
  const WheelSurface wheel(profile::s1002(), 0.46);
  const auto crossing = layout::generate({});
  const layout::Body &wing = crossing.bodies[0], &nose = crossing.bodies[1];
  GapLine line;
  double ellipse_lowest = 1.0;
  for (const double x : {-1.0, -0.6, -0.4, -0.2, 0.0, 0.2, 0.4, 0.5, 0.7, 0.9, 1.0, 1.1, 1.2, 1.3, 1.5, 2.0}) {
    look(wheel, x < 0.45 ? wing : nose, {.station = x, .lateral = taping_line_y}, line);
    const PressureField exact = half_space_field(line, 90e3, {}, {.along = 96, .across = 96});
    const NormalContact strip = strips(line, depth_for_force(Strips{}, line, 90e3));
    const NormalContact one = normal_contact(Ellipse{}, line, depth_for_force(Ellipse{}, line, 90e3));
    CAPTURE(x, strip.approach / exact.approach, strip.peak_pressure / exact.peak_pressure);
    CHECK(off(strip.approach, exact.approach) < 0.02);
    CHECK(off(strip.area, exact.area) < 0.08);
    // A peak half a millimetre wide, where a shoulder begins, is cut by strips of that width.
    CHECK(off(strip.peak_pressure, exact.peak_pressure) < 0.2);
    CHECK(off(one.approach, exact.approach) < 0.05);
    ellipse_lowest = std::min(ellipse_lowest, one.peak_pressure / exact.peak_pressure);
  }
  CHECK(ellipse_lowest < 0.5);
}

TEST_CASE("A pressure field without load or with too few cells is refused") {
  GapLine line;
  const WheelSurface wheel(profile::s1002(), 0.46);
  const layout::Body rail = layout::plain_rail(profile::rail_head("60E1", std::atan(1.0 / 40.0)));
  look(wheel, rail, {.lateral = taping_line_y}, line);
  CHECK_THROWS_AS(half_space_field(line, 0.0), InputError);
  CHECK_THROWS_AS(half_space_field(line, 90e3, {}, {.along = 8, .across = 64}), InputError);
  CHECK_THROWS_AS(half_space_field(line, 90e3, {}, {.along = 64, .across = 4096}), InputError);
  CHECK_THROWS_AS(half_space_field(GapLine{}, 90e3), ComputeError);
}
