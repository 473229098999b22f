#include "catch.hpp"
#include "wingnose/contact/half_space/half_space_gap.hpp"

#include <cmath>
#include <vector>

using namespace wingnose::contact;

TEST_CASE("Approach and peak pressure of the half-space solver converge to Hertz with the second order of the pitch") {
  const double curvature_x = 1.0 / 0.46, curvature_y = 1.0 / 0.3, load = 100e3;
  const HertzPatch hertz = hertz_patch(load, curvature_x, curvature_y);
  std::vector<double> approach, peak;
  for (const std::size_t n : {32u, 64u, 128u}) {
    const HalfSpaceGrid grid = grid_for_hertz(n, n, hertz);
    HalfSpaceWorkspace workspace(grid);
    const auto contact =
        solve_for_force(grid, workspace, quadratic_gap(grid, curvature_x, curvature_y), load, {}, {1e-9, 500});
    approach.push_back(std::abs(contact.approach / hertz.approach - 1.0));
    peak.push_back(std::abs(contact.peak_pressure / hertz.peak_pressure - 1.0));
  }
  // Over two halvings: in a single one the staircase edge moves the order of the approach by a few tenths.
  CAPTURE(approach, peak);
  CHECK(0.5 * std::log2(approach[0] / approach[2]) == Approx(2.0).epsilon(0).margin(0.2));
  CHECK(0.5 * std::log2(peak[0] / peak[2]) == Approx(2.0).epsilon(0).margin(0.1));
}

TEST_CASE("The smooth patch area of the half-space solver comes at least as fast as the pitch") {
  const double load = 100e3;
  std::vector<double> error;
  for (const std::size_t n : {32u, 64u, 128u}) {
    const HertzPatch hertz = hertz_patch(load, 2.0, 4.0);
    const HalfSpaceGrid grid = grid_for_hertz(n, n, hertz);
    HalfSpaceWorkspace workspace(grid);
    const auto contact = solve_for_force(grid, workspace, quadratic_gap(grid, 2.0, 4.0), load);
    error.push_back(std::abs(contact.smooth_area / (std::acos(-1.0) * hertz.a_x * hertz.a_y) - 1.0));
  }
  CHECK(std::log2(error[0] / error[2]) / 2.0 > 1.0);
}
