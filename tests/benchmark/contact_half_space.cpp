// How long the half-space solver takes on grids of several sizes, and how near it comes to Hertz; the gap fields and
// results are written as JSON for the same algorithm in NumPy and SciPy (contact_half_space.py).
#include "stopwatch.hpp"

#include "wingnose/contact/half_space/half_space_gap.hpp"
#include "wingnose/contact/stress/subsurface.hpp"

#include <nlohmann/json.hpp>

#include <cmath>
#include <cstddef>
#include <iostream>
#include <vector>

using namespace wingnose::contact;

int main() {
  const double load = 100e3, curvature_x = 1.0 / 0.46, curvature_y = 1.0 / 0.3; // wheel R 460 mm on rail R 300 mm
  const HertzPatch hertz = hertz_patch(load, curvature_x, curvature_y);
  const double hertz_area = std::acos(-1.0) * hertz.a_x * hertz.a_y;
  nlohmann::json sizes = nlohmann::json::array();
  for (const std::size_t n : {32u, 64u, 128u, 256u}) {
    const int repeats = n < 128 ? 60 : (n < 256 ? 30 : 8);
    const HalfSpaceGrid grid = grid_for_hertz(n, n, hertz);
    HalfSpaceWorkspace workspace(grid);
    const std::vector<double> gap = quadratic_gap(grid, curvature_x, curvature_y);
    HalfSpaceContact contact;
    const auto making = benchmark::repeated(repeats, [&] { (void)HalfSpaceGrid(n, n, grid.dx(), grid.dy()); });
    const auto solving = benchmark::repeated(repeats, [&] { contact = solve_for_force(grid, workspace, gap, load); });
    const auto convolving =
        benchmark::repeated(repeats, [&] { (void)surface_deflection(grid, workspace, contact.pressure); });
    const auto plane = benchmark::repeated(3, [&] {
      (void)stress_at_depth(grid, {contact.pressure, {}, {}}, 0.5 * hertz.a_y);
    });
    const auto ms = [](double seconds) { return 1e3 * seconds; };
    sizes.push_back({{"cells_per_side", n},
                     {"dx_m", grid.dx()},
                     {"dy_m", grid.dy()},
                     {"gap_m", gap},
                     {"iterations", contact.iterations},
                     {"peak_pressure_Pa", contact.peak_pressure},
                     {"peak_pressure_error", contact.peak_pressure / hertz.peak_pressure - 1.0},
                     {"approach_error", contact.approach / hertz.approach - 1.0},
                     {"area_error", contact.area / hertz_area - 1.0},
                     {"smooth_area_error", contact.smooth_area / hertz_area - 1.0},
                     {"grid_cpu_ms", ms(making.processor_median)},
                     {"solve_cpu_ms", ms(solving.processor_median)},
                     {"solve_cpu_minimum_ms", ms(solving.processor_minimum)},
                     {"convolution_cpu_ms", ms(convolving.processor_median)},
                     {"stress_plane_cpu_ms", ms(plane.processor_median)}});
  }
  const HalfSpaceSettings settings;
  std::cout << nlohmann::json{{"force_N", load},
                              {"combined_modulus_Pa", Elastic{}.combined()},
                              {"tolerance", settings.tolerance},
                              {"sizes", sizes}}
            << '\n';
}
