// Normal contact of half-spaces for a load or an approach: conjugate gradients (half_space_iteration.cpp), started from
// the solution on the grid of every second cell.
#include "half_space_iteration.hpp"
#include "wingnose/contact/half_space/half_space.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <optional>
#include <string>

namespace wingnose::contact {
namespace {

using std::numbers::pi;

// The start from a coarser grid differs from the finer solution by its discretisation; more would be wasted.
constexpr double coarse_tolerance = 1e-2;

void restrict_to_coarse(const HalfSpaceGrid& fine, const std::vector<double>& field, std::vector<double>& coarse) {
  const std::size_t nx = fine.nx();
  for (std::size_t iy = 0; iy < fine.ny() / 2; ++iy) {
    for (std::size_t ix = 0; ix < nx / 2; ++ix) {
      const double* south = &field[2 * iy * nx + 2 * ix];
      const double* north = south + nx;
      coarse[iy * (nx / 2) + ix] = 0.25 * (south[0] + south[1] + north[0] + north[1]);
    }
  }
}

// Bilinear between the centres of the coarse cells.
void prolong_to_fine(const HalfSpaceGrid& fine, const std::vector<double>& coarse, std::vector<double>& field) {
  const std::size_t nx = fine.nx(), mx = nx / 2, my = fine.ny() / 2;
  const auto other = [](std::size_t i, std::size_t m) { // the second nearest coarse cell
    const std::size_t nearest = i / 2;
    return i % 2 == 0 ? (nearest == 0 ? 0 : nearest - 1) : std::min(nearest + 1, m - 1);
  };
  for (std::size_t iy = 0; iy < fine.ny(); ++iy) {
    const double* near_row = &coarse[iy / 2 * mx];
    const double* far_row = &coarse[other(iy, my) * mx];
    for (std::size_t ix = 0; ix < nx; ++ix) {
      const std::size_t far = other(ix, mx);
      const double centre = near_row[ix / 2];
      field[iy * nx + ix] = centre == 0.0 ? 0.0
                                          : 0.75 * (0.75 * centre + 0.25 * far_row[ix / 2]) +
                                                0.25 * (0.75 * near_row[far] + 0.25 * far_row[far]);
    }
  }
}

// A crude start on the coarsest grid: everywhere for a load, where the bodies would overlap for an approach.
void start(const HalfSpaceGrid& grid, HalfSpaceWorkspace::Memory& memory, const Demand& demand) {
  const double stiffness = 1.0 / rectangle_influence(0.0, 0.0, grid.dx() * static_cast<double>(grid.nx()),
                                                     grid.dy() * static_cast<double>(grid.ny()));
  for (std::size_t i = 0; i < grid.cells(); ++i) {
    memory.pressure[i] = demand.approach ? std::max(0.0, *demand.approach - memory.gap[i]) * stiffness : 1.0;
  }
}

void start_from_coarse(const HalfSpaceGrid& grid, HalfSpaceWorkspace::Memory& memory, const Demand& demand,
                       std::size_t max_iterations) {
  const HalfSpaceGrid* coarse = grid.influence().coarse.get();
  if (coarse == nullptr) {
    return start(grid, memory, demand);
  }
  HalfSpaceWorkspace::Memory& below = memory.coarse->memory();
  restrict_to_coarse(grid, memory.gap, below.gap);
  Demand coarse_demand = demand;
  if (demand.load) {
    *coarse_demand.load *= 0.25;
  }
  start_from_coarse(*coarse, below, coarse_demand, max_iterations);
  (void)iterate(*coarse, below, coarse_demand, coarse_tolerance, max_iterations);
  prolong_to_fine(grid, below.pressure, memory.pressure);
  const double sum = std::accumulate(memory.pressure.begin(), memory.pressure.end(), 0.0);
  if (!(std::isfinite(sum) && sum > 0.0)) { // a patch too small for the coarser grid
    start(grid, memory, demand);
  }
}

void check_input(const HalfSpaceGrid& grid, std::span<const double> gap, std::span<const double> initial,
                 const Elastic& material, const HalfSpaceSettings& settings) {
  const std::string cells = std::to_string(grid.cells());
  if (gap.size() != grid.cells()) {
    throw InputError("values of the gap", std::to_string(gap.size()), cells, "Give one value per cell of the grid.");
  }
  for (const double h : gap) {
    if (!std::isfinite(h)) {
      throw InputError("gap", number(h) + " m", "finite",
                       "Where there is no surface, give a gap far larger than the approach.");
    }
  }
  if (!initial.empty() && initial.size() != grid.cells()) {
    throw InputError("values of the initial pressure", std::to_string(initial.size()), "none or " + cells,
                     "Give one value per cell of the grid.");
  }
  double sum = 0.0;
  for (const double p : initial) {
    if (!(std::isfinite(p) && p >= 0.0)) {
      throw InputError("initial pressure", number(p) + " Pa", "0 or more", "Bodies can only press on each other.");
    }
    sum += p;
  }
  if (!initial.empty() && sum == 0.0) {
    throw InputError("initial pressure", "0 Pa everywhere", "above 0 in some cell", "Leave it out for an own start.");
  }
  if (!(std::isfinite(material.young) && material.young > 0.0)) {
    throw InputError("Young's modulus", number(material.young) + " Pa", "greater than 0", "Steel has about 210e9 Pa.");
  }
  if (!(material.poisson > -1.0 && material.poisson <= 0.5)) {
    throw InputError("Poisson's ratio", number(material.poisson), "-1 to 0.5", "Steel has about 0.3.");
  }
  if (!(settings.tolerance >= 1e-12 && settings.tolerance <= 0.1)) {
    throw InputError("tolerance of the half-space solver", number(settings.tolerance), "1e-12 to 0.1",
                     "1e-5 gives peak pressures to four digits.");
  }
  if (settings.max_iterations == 0) {
    throw InputError("iterations of the half-space solver", "0", "1 or more", "Leave it at 500.");
  }
}

HalfSpaceContact result_of(const HalfSpaceGrid& grid, const HalfSpaceWorkspace::Memory& memory, const Outcome& outcome,
                           double unit) {
  HalfSpaceContact result;
  result.pressure.resize(grid.cells());
  std::size_t loaded = 0;
  for (std::size_t iy = 0; iy < grid.ny(); ++iy) {
    for (std::size_t ix = 0; ix < grid.nx(); ++ix) {
      const std::size_t i = iy * grid.nx() + ix;
      const double p = memory.pressure[i] * unit;
      result.pressure[i] = p;
      result.force += p;
      result.peak_pressure = std::max(result.peak_pressure, p);
      loaded += p > 0.0;
      const bool edge = ix == 0 || iy == 0 || ix + 1 == grid.nx() || iy + 1 == grid.ny();
      result.touches_edge = result.touches_edge || (edge && p > 0.0);
    }
  }
  const double cell = grid.dx() * grid.dy();
  result.force *= cell;
  result.area = static_cast<double>(loaded) * cell;
  result.smooth_area = smooth_contact_area(grid, result.pressure);
  result.approach = outcome.approach;
  result.mismatch = outcome.mismatch;
  result.iterations = outcome.iterations;
  result.residual = outcome.change;
  return result;
}

HalfSpaceContact solve(const HalfSpaceGrid& grid, HalfSpaceWorkspace& workspace, std::span<const double> gap,
                       const Demand& demand, const Elastic& material, const HalfSpaceSettings& settings,
                       std::span<const double> initial) {
  HalfSpaceWorkspace::Memory& memory = workspace.memory();
  if (memory.gap.size() != grid.cells()) {
    throw InputError("cells of the workspace", std::to_string(memory.gap.size()), std::to_string(grid.cells()),
                     "Make the workspace from the same grid.");
  }
  const double unit = pi * material.combined();
  std::copy(gap.begin(), gap.end(), memory.gap.begin());
  if (initial.empty()) {
    start_from_coarse(grid, memory, demand, settings.max_iterations);
  } else {
    std::transform(initial.begin(), initial.end(), memory.pressure.begin(), [unit](double p) { return p / unit; });
  }
  const Outcome outcome = iterate(grid, memory, demand, settings.tolerance, settings.max_iterations);
  if (!outcome.converged) {
    throw ComputeError("the half-space contact on " + std::to_string(grid.nx()) + " by " + std::to_string(grid.ny()) +
                       " cells changed by " + number(outcome.change) + " in iteration " +
                       std::to_string(settings.max_iterations) + "; the tolerance is " + number(settings.tolerance) +
                       ". Allow more iterations or check the gap for single high cells.");
  }
  return result_of(grid, memory, outcome, unit);
}

} // namespace

HalfSpaceContact solve_for_force(const HalfSpaceGrid& grid, HalfSpaceWorkspace& workspace, std::span<const double> gap,
                                 double force, const Elastic& material, const HalfSpaceSettings& settings,
                                 std::span<const double> initial_pressure) {
  check_input(grid, gap, initial_pressure, material, settings);
  if (!(std::isfinite(force) && force > 0.0)) {
    throw InputError("contact force", number(force) + " N", "greater than 0",
                     "Wheel and rail can only press on each other.");
  }
  const double load = force / (grid.dx() * grid.dy() * pi * material.combined());
  return solve(grid, workspace, gap, {load, std::nullopt}, material, settings, initial_pressure);
}

HalfSpaceContact solve_for_approach(const HalfSpaceGrid& grid, HalfSpaceWorkspace& workspace,
                                    std::span<const double> gap, double approach, const Elastic& material,
                                    const HalfSpaceSettings& settings, std::span<const double> initial_pressure) {
  check_input(grid, gap, initial_pressure, material, settings);
  if (!std::isfinite(approach)) {
    throw InputError("approach", number(approach) + " m", "finite", "Count it from the datum of the gap.");
  }
  if (*std::min_element(gap.begin(), gap.end()) >= approach) {
    HalfSpaceContact apart;
    apart.pressure.assign(grid.cells(), 0.0);
    apart.approach = approach;
    return apart;
  }
  return solve(grid, workspace, gap, {std::nullopt, approach}, material, settings, initial_pressure);
}

} // namespace wingnose::contact
