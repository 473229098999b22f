// Hertz contact against worked values: the coefficient table, wheel-rail patches, and a coin.
#include "published/scoreboard.hpp"
#include "wingnose/contact/normal/hertz.hpp"

#include <boost/math/constants/constants.hpp>

#include <cmath>
#include <string>
#include <vector>

using namespace wingnose::contact;

namespace {

constexpr double pi = boost::math::constants::pi<double>();

struct TableRow {
  double theta; // degrees
  double ratio, m, n, r;
};
// Exact elliptic integrals solved for the eccentricity, to 8 and 6 decimals. The three-place table of
// Timoshenko and Goodier carries errors up to 0.3 % (Cooper 1968) and is not used.
const std::vector<TableRow> table = {{0.5, 0.00167602, 60.968978, 0.102185, 0.081212},
                                     {1, 0.00355505, 36.931940, 0.131295, 0.121107},
                                     {1.5, 0.00554049, 27.475236, 0.152226, 0.152510},
                                     {2, 0.00760644, 22.243170, 0.169191, 0.179314},
                                     {3, 0.01193127, 16.477467, 0.196597, 0.224669},
                                     {4, 0.01646945, 13.292457, 0.218919, 0.263071},
                                     {6, 0.02607436, 9.788299, 0.255224, 0.327391},
                                     {8, 0.03628561, 7.856044, 0.285061, 0.381179},
                                     {10, 0.04703707, 6.611455, 0.310983, 0.428013},
                                     {15, 0.07606828, 4.807691, 0.365713, 0.525261},
                                     {20, 0.10800538, 3.816011, 0.412150, 0.603842},
                                     {25, 0.14281111, 3.178820, 0.453971, 0.669810},
                                     {30, 0.18056512, 2.730648, 0.493060, 0.726310},
                                     {35, 0.22142638, 2.396135, 0.530567, 0.775213},
                                     {40, 0.26562074, 2.135709, 0.567289, 0.817736},
                                     {45, 0.31343887, 1.926462, 0.603828, 0.854714},
                                     {50, 0.36524017, 1.754148, 0.640685, 0.886742},
                                     {55, 0.42146111, 1.609409, 0.678303, 0.914259},
                                     {60, 0.48262778, 1.485824, 0.717100, 0.937592},
                                     {65, 0.54937305, 1.378826, 0.757490, 0.956991},
                                     {70, 0.62245944, 1.285071, 0.799904, 0.972640},
                                     {75, 0.70280936, 1.202045, 0.844808, 0.984681},
                                     {80, 0.79154505, 1.127816, 0.892717, 0.993213},
                                     {85, 0.89004185, 1.060871, 0.944220, 0.998307},
                                     {90, 1.0, 1.0, 1.0, 1.0}};

struct Patch {
  const char* what;
  double force, rail_radius, wheel_lateral_curvature; // N, m, 1/m
  double a_mm, b_mm, p0_MPa, approach_um, C_H, k_H;   // a along, b across; N/m^1.5, GN/m
};
const std::vector<Patch> patches = {
    {"10 t on R 300", 98.1e3, 0.300, 0.0, 7.116, 5.353, 1229.7, 102.80, 9.4125e10, 1.4315},
    {"100 kN on R 300", 100e3, 0.300, 0.0, 7.162, 5.387, 1237.6, 104.12, 9.4125e10, 1.4407},
    {"200 kN on R 300", 200e3, 0.300, 0.0, 9.023, 6.787, 1559.2, 165.28, 9.4125e10, 1.8151},
    {"100 kN on R 80", 100e3, 0.080, 0.0, 8.542, 2.701, 2069.6, 124.90, 7.1641e10, 1.2010},
    {"100 kN on R 13 nose corner", 100e3, 0.013, 0.0, 10.077, 1.027, 4611.9, 150.97, 5.3908e10, 0.9936},
    {"100 kN, hollow tread R 330 on R 300", 100e3, 0.300, -1.0 / 0.330, 4.632, 16.880, 610.7, 66.49, 1.8444e11,
     2.2559}};

} // namespace

TEST_CASE("Hertz coefficients agree with the exact table from sliver to circle") {
  const Source source{Trust::worked, "Hertz 1881, exact elliptic integrals evaluated apart to six decimals"};
  // Tolerance: half a unit of the last decimal, the only error of the table.
  for (const TableRow& row : table) {
    const double cosine = row.theta == 90.0 ? 0.0 : std::cos(row.theta * pi / 180.0);
    const HertzShape shape = hertz_shape(1.0 - cosine, 1.0 + cosine);
    const std::string at = " at theta " + scoreboard::number(row.theta) + " deg";
    score_abs("Hertz b/a" + at, shape.ratio, row.ratio, 0.51e-8, source);
    score_abs("Hertz m" + at, shape.m, row.m, 0.51e-6, source);
    score_abs("Hertz n" + at, shape.n, row.n, 0.51e-6, source);
    score_abs("Hertz r" + at, shape.r, row.r, 0.51e-6, source);
  }
}

TEST_CASE("Wheel-rail patches, from plain line to nose corner, agree with the worked table") {
  const Source source{Trust::worked, "Hertz 1881, wheel R 0.46 m, evaluated apart to four or five digits"};
  for (const Patch& row : patches) {
    const double along = 1.0 / 0.46;
    const double across = 1.0 / row.rail_radius + row.wheel_lateral_curvature;
    const HertzPatch patch = hertz_patch(row.force, along, across);
    const double C_H = hertz_stiffness(along, across);
    const std::string at = std::string(", ") + row.what;
    score_abs("semi-axis along, mm" + at, patch.a_x * 1e3, row.a_mm, 0.51e-3, source);
    score_abs("semi-axis across, mm" + at, patch.a_y * 1e3, row.b_mm, 0.51e-3, source);
    score_abs("peak pressure, MPa" + at, patch.peak_pressure / 1e6, row.p0_MPa, 0.051, source);
    score_abs("approach, um" + at, patch.approach * 1e6, row.approach_um, 0.0051, source);
    score("C_H, N/m^1.5" + at, C_H, row.C_H, 1e-4, source);
    score("k_H, GN/m" + at, hertz_tangent_stiffness(C_H, row.force) / 1e9, row.k_H, 1e-4, source);
  }
}

TEST_CASE("The contact patch of a wheel on plain line is about the size of a small coin") {
  // Common practice, no source. Bounds: 0.5 to 3 cm2 from a light to a heavy wheel on plain rail heads.
  for (const double tonnes : {5.0, 8.0, 12.0}) {
    for (const double rail_radius : {0.2, 0.3, 0.5}) {
      for (const double wheel_radius : {0.42, 0.46, 0.575}) {
        const HertzPatch patch = hertz_patch(tonnes * 9.81e3, 1.0 / wheel_radius, 1.0 / rail_radius);
        const double area_cm2 = pi * patch.a_x * patch.a_y * 1e4;
        CAPTURE(tonnes, rail_radius, wheel_radius);
        CHECK(area_cm2 > 0.5);
        CHECK(area_cm2 < 3.0);
      }
    }
  }
  const HertzPatch usual = hertz_patch(98.1e3, 1.0 / 0.46, 1.0 / 0.3);
  score("patch area, cm2, 10 t wheel on R 300, coin of about 1.2", pi * usual.a_x * usual.a_y * 1e4, 1.2, 0.25,
        {Trust::common_practice, "railway engineers compare the patch with a small coin"});
}
