// The half-space solver against Love's rectangle and the Hertz ellipse.
#include "published/scoreboard.hpp"
#include "wingnose/contact/half_space/half_space_gap.hpp"

#include <boost/math/constants/constants.hpp>

#include <string>
#include <vector>

using namespace wingnose::contact;

namespace {

constexpr double pi = boost::math::constants::pi<double>();

struct RectangleRow {
  double half_a, half_b;     // mm
  double x_over_a, y_over_b; // -
  double integral_over_b;    // integral of 1/r divided by the half side b
  double deflection;         // um under 1 MPa, E 210 GPa, nu 0.3
};
const std::vector<RectangleRow> rectangles = {
    {5, 5, 0, 0, 7.050988696, 0.0486287},    {5, 5, 0.5, 0, 6.671020912, 0.0460081},
    {5, 5, 1, 0, 4.812118251, 0.0331878},    {5, 5, 0, 1, 4.812118251, 0.0331878},
    {5, 5, 1, 1, 3.525494348, 0.0243143},    {5, 5, 2, 0, 2.076099472, 0.0143183},
    {5, 5, 3, 2, 1.124944534, 0.0077584},    {5, 10, 0, 0, 4.812118251, 0.0663756},
    {5, 10, 0.5, 0, 4.576501991, 0.0631257}, {5, 10, 1, 0, 3.525494348, 0.0486287},
    {5, 10, 0, 1, 3.084578393, 0.0425469},   {5, 10, 1, 1, 2.406059125, 0.0331878},
    {5, 10, 2, 0, 1.858902661, 0.0256406},   {5, 10, 3, 2, 0.820852925, 0.0113224}};

} // namespace

TEST_CASE("A uniformly pressed rectangle sinks in as Love found") {
  const Elastic steel;
  const Source love{Trust::worked, "formula of Love 1929 evaluated apart"};
  for (const RectangleRow& row : rectangles) {
    const std::string at = " of " + scoreboard::number(row.half_a) + " x " + scoreboard::number(row.half_b) +
                           " mm at " + scoreboard::number(row.x_over_a) + " a, " + scoreboard::number(row.y_over_b) +
                           " b";
    const double integral =
        rectangle_influence(row.x_over_a * row.half_a, row.y_over_b * row.half_b, 2.0 * row.half_a, 2.0 * row.half_b);
    // Tolerance: half a unit of the last decimal of the table.
    score_abs("Love integral over b" + at, integral / row.half_b, row.integral_over_b, 0.51e-9, love);
    // One body alone: (1 - nu^2) / (pi E) = 1 / (2 pi E*).
    score_abs("Love deflection, um" + at, integral * 1e-3 * 1e6 / (2.0 * pi * steel.combined()) * 1e6, row.deflection,
              0.51e-7, love);
  }
}

TEST_CASE("Pressure within 0.1 % and patch within 1 % of Hertz on 128 x 128 cells, from circle to slender ellipse") {
  const Source source{Trust::worked, "Hertz 1881, exact elliptic integrals, our closed form"};
  struct Pair {
    const char* what;
    double curvature_x, curvature_y; // 1/m
  };
  for (const Pair& pair :
       {Pair{"circle R 460 mm", 1.0 / 0.46, 1.0 / 0.46}, Pair{"R 460 mm on R 300 mm", 1.0 / 0.46, 1.0 / 0.3},
        Pair{"R 460 mm on R 80 mm", 1.0 / 0.46, 1.0 / 0.08}, Pair{"R 460 mm on R 13 mm", 1.0 / 0.46, 1.0 / 0.013}}) {
    const HertzPatch hertz = hertz_patch(100e3, pair.curvature_x, pair.curvature_y);
    const HalfSpaceGrid grid = grid_for_hertz(128, 128, hertz);
    HalfSpaceWorkspace workspace(grid);
    const auto contact =
        solve_for_force(grid, workspace, quadratic_gap(grid, pair.curvature_x, pair.curvature_y), 100e3);
    const std::string at = std::string(", 128 x 128, ") + pair.what;
    // Tolerances: the accuracy asked of this grid.
    score("half-space peak pressure, MPa" + at, contact.peak_pressure / 1e6, hertz.peak_pressure / 1e6, 1e-3, source);
    score("half-space patch area, mm2" + at, contact.area * 1e6, pi * hertz.a_x * hertz.a_y * 1e6, 1e-2, source);
    score("half-space approach, um" + at, contact.approach * 1e6, hertz.approach * 1e6, 1e-3, source);
  }
}
