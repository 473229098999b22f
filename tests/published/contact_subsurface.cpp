// Subsurface stresses against the classical values of line and circular contact.
#include "published/scoreboard.hpp"
#include "wingnose/contact/half_space/half_space_gap.hpp"
#include "wingnose/contact/stress/subsurface_hertz.hpp"

#include <boost/math/tools/minima.hpp>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

using namespace wingnose::contact;

namespace {

const Source johnson{Trust::from_memory, "Johnson 1985 sec. 3.4 and 4.2, two or three digits"};
const Source johnson_formula{Trust::worked, "formulas of Johnson 1985 sec. 3.4, nu 0.3, evaluated"};

// Depth and value of the largest value of a function of depth.
template <class F> std::pair<double, double> highest(const F& f) {
  const auto found = boost::math::tools::brent_find_minima([&](double z) { return -f(z); }, 0.0, 3.0, 40);
  return {found.first, -found.second};
}

std::vector<double> even_depths(double step, int count) {
  std::vector<double> depths;
  for (int k = 0; k <= count; ++k) {
    depths.push_back(step * k);
  }
  return depths;
}

} // namespace

TEST_CASE("Under a line contact the steel is sheared most at four fifths of the half width") {
  const auto shear = highest([](double z) { return max_shear(line_contact_stress(1.0, 1.0, 0.0, z)); });
  const auto mises = highest([](double z) { return von_mises(line_contact_stress(1.0, 1.0, 0.0, z)); });
  // Tolerances: half a unit of the last digit quoted.
  score_abs("line contact, largest shear over p0", shear.second, 0.300, 0.5e-3, johnson);
  score_abs("line contact, depth of largest shear over b", shear.first, 0.786, 0.5e-3, johnson);
  score_abs("line contact, largest von Mises over p0", mises.second, 0.558, 0.5e-3, johnson);
  score_abs("line contact, depth of largest von Mises over b", mises.first, 0.70, 0.5e-2, johnson);
}

TEST_CASE("Under a circular contact the steel is sheared most at half the radius") {
  const auto shear = highest([](double z) { return max_shear(circular_contact_axis_stress(1.0, 1.0, z)); });
  const auto mises = highest([](double z) { return von_mises(circular_contact_axis_stress(1.0, 1.0, z)); });
  score_abs("circular contact, nu 0.3, largest shear over p0", shear.second, 0.310, 0.5e-3, johnson);
  score_abs("circular contact, nu 0.3, depth of largest shear over a", shear.first, 0.48, 0.5e-2, johnson);
  score_abs("circular contact, nu 0.3, largest von Mises over p0", mises.second, 0.62, 0.5e-2, johnson);
  score_abs("circular contact, nu 0.3, depth of largest von Mises over a", mises.first, 0.48, 0.5e-2, johnson);
  const Stress centre = circular_contact_surface_stress(1.0, 1.0, 0.0);
  score("circular contact, radial stress in the middle over p0", centre.xx, -(1.0 + 2.0 * 0.3) / 2.0, 1e-12,
        johnson_formula);
  const Stress edge = circular_contact_surface_stress(1.0, 1.0, 1.0);
  score("circular contact, tension at the edge over p0", edge.xx, (1.0 - 2.0 * 0.3) / 3.0, 1e-12, johnson_formula);
}

TEST_CASE("The solver's pressure on a sphere gives the stresses of Johnson's circular contact") {
  const Source source{Trust::worked, "Johnson 1985 eqs. 3.42 and 3.45, our closed form"};
  const HertzPatch hertz = hertz_patch(100e3, 2.0, 2.0);
  const HalfSpaceGrid grid = grid_for_hertz(64, 64, hertz);
  HalfSpaceWorkspace workspace(grid);
  const auto contact = solve_for_force(grid, workspace, quadratic_gap(grid, 2.0, 2.0), 100e3);
  const Tractions tractions{contact.pressure, {}, {}};
  const double p0 = hertz.peak_pressure, a = hertz.a_x;
  // Tolerances: 64 cells give the pressure to 0.04 % and the tension at the edge, which lives on the last cells, to a
  // few %.
  for (const double z : {0.25, 0.5, 1.0, 2.0}) {
    const Stress solved = stress_at(grid, tractions, 0.0, 0.0, z * a),
                 exact = circular_contact_axis_stress(p0, a, z * a);
    const std::string at = " at depth " + scoreboard::number(z) + " a, MPa";
    score("half-space, sphere, vertical stress" + at, solved.zz / 1e6, exact.zz / 1e6, 1e-3, source);
    score_abs("half-space, sphere, radial stress" + at, solved.xx / 1e6, exact.xx / 1e6, 1e-3 * p0 / 1e6, source);
  }
  const Stress outside = stress_at(grid, tractions, 1.2 * a, 0.0, 0.0);
  score("half-space, sphere, radial tension at 1.2 a, MPa", outside.xx / 1e6,
        circular_contact_surface_stress(p0, a, 1.2 * a).xx / 1e6, 5e-3, source);
  const auto below = subsurface_stress(grid, tractions, even_depths(0.06 * a, 16));
  score("half-space, sphere, largest shear over p0", below.worst_shear.value / p0, 0.310, 2e-3, johnson);
  score_abs("half-space, sphere, depth of largest shear over a", below.worst_shear.depth / a, 0.48, 1e-2, johnson);
  score("half-space, sphere, largest von Mises over p0", below.worst_von_mises.value / p0, 0.62, 5e-3, johnson);
}

TEST_CASE("Friction draws the worst point from the depth of the steel up to its surface") {
  // A long patch across, sliding along x under mu p.
  const double half_width = 1e-3, p0 = 1e9;
  const HalfSpaceGrid grid(64, 20, 2.4 * half_width / 64.0, 37e-3);
  std::vector<double> pressure(grid.cells()), shear(grid.cells());
  const auto sliding = [&](double mu) {
    // Mean over each cell, so that the load is that of the line contact.
    const auto carried = [](double x) {
      const double c = std::clamp(x, -1.0, 1.0);
      return 0.5 * (c * std::sqrt(1.0 - c * c) + std::asin(c));
    };
    const double half_cell = 0.5 * grid.dx() / half_width;
    for (std::size_t i = 0; i < grid.cells(); ++i) {
      const double x = grid.x(i % 64) / half_width;
      pressure[i] = p0 * (carried(x + half_cell) - carried(x - half_cell)) / (2.0 * half_cell);
      shear[i] = mu * pressure[i];
    }
    return subsurface_stress(grid, {pressure, shear, {}}, even_depths(0.05 * half_width, 24));
  };
  const auto free = sliding(0.0), light = sliding(0.1), heavy = sliding(0.5);
  CHECK(free.worst_shear.depth == Approx(0.786 * half_width).epsilon(0.01));
  CHECK(light.worst_shear.depth > 0.5 * half_width);
  CHECK(heavy.worst_shear.depth == 0.0);
  CHECK(heavy.worst_von_mises.depth == 0.0);
  CHECK(heavy.worst_von_mises.value > free.worst_von_mises.value);

  // Free rolling, in the middle of the patch: its far ends still add F' (1 - 2 nu) / (2 pi L) each to the stress along
  // x, 0.03 % of p0 here. Tolerances: that, 53 cells across the patch and the digits quoted.
  (void)sliding(0.0);
  const auto middle = [&](double z) { return stress_at(grid, {pressure, {}, {}}, 0.0, 0.0, z * half_width); };
  const auto shear_peak = highest([&](double z) { return max_shear(middle(z)) / p0; });
  const auto mises_peak = highest([&](double z) { return von_mises(middle(z)) / p0; });
  score("line contact from cells, largest shear over p0", shear_peak.second, 0.300, 3e-3, johnson);
  score_abs("line contact from cells, its depth over b", shear_peak.first, 0.786, 5e-3, johnson);
  score("line contact from cells, largest von Mises over p0", mises_peak.second, 0.558, 3e-3, johnson);
}
