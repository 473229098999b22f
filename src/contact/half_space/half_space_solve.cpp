// Bound-constrained conjugate gradients for the normal contact of half-spaces: Polonsky and Keer (1999), steps numbered
// as in the loop below. Beyond the paper: the mismatch is preconditioned by the local inverse of the influence, the
// deflection follows the step without another convolution while no cell joins or leaves, and the start is the solution
// on the grid of every second cell.
#include "half_space_memory.hpp"
#include "wingnose/contact/half_space/half_space.hpp"
#include "wingnose/words/error.hpp"

#include <boost/math/constants/constants.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>
#include <string>

namespace wingnose::contact {
namespace {

constexpr double pi = boost::math::constants::pi<double>();
// The start from a coarser grid differs from the finer solution by its discretisation; more would be wasted.
constexpr double coarse_tolerance = 1e-2;

// Pressures are divided by pi E*, so that deflection = influence * pressure. Exactly one of the two is given.
struct Demand {
  std::optional<double> load;     // sum of the cell pressures / (pi E*)
  std::optional<double> approach; // m
};

struct Outcome {
  std::size_t iterations = 0;
  double change = 0.0, approach = 0.0, mismatch = 0.0;
  bool converged = false;
};

// The fields of one grid while it is solved. Only the convolution knows that they are two-dimensional.
class Iteration {
public:
  Iteration(const HalfSpaceGrid& grid, HalfSpaceWorkspace::Memory& memory, const Demand& demand)
      : influence_(grid.influence()), memory_(memory), demand_(demand), n_(grid.cells()), nx_(grid.nx()),
        self_influence_(rectangle_influence(0.0, 0.0, grid.dx(), grid.dy())) {}

  Outcome run(double tolerance, std::size_t max_iterations) {
    Outcome outcome;
    scale_to_load();
    deflect();
    double previous_norm = 0.0; // G of the step before; 0 restarts the search direction
    for (outcome.iterations = 1; outcome.iterations <= max_iterations; ++outcome.iterations) {
      outcome.approach = find_mismatch(); // steps 1 and 2
      precondition();
      const double norm = norm_under_pressure();
      turn_direction(previous_norm > 0.0 ? norm / previous_norm : 0.0); // step 3
      const Step step = take_step();                                    // steps 4 and 5
      previous_norm = step.cells_joined ? 0.0 : norm;
      if (step.cells_joined || step.cells_left) {
        scale_to_load(); // step 6; without such cells the direction leaves the load as it is
        deflect();
      }
      outcome.change = step.change;
      if (!std::isfinite(step.change)) {
        break;
      }
      if (step.change < tolerance && !step.cells_joined) {
        outcome.converged = true;
        break;
      }
    }
    outcome.approach = find_mismatch();
    outcome.mismatch = worst_mismatch();
    return outcome;
  }

private:
  struct Step {
    double change; // sum |dp| / sum p
    bool cells_joined, cells_left;
  };

  void deflect() {
    influence_.plan.apply(influence_.normal, memory_.pressure, memory_.deflection, memory_.convolution);
  }

  void scale_to_load() {
    if (!demand_.load) {
      return;
    }
    const double sum = std::accumulate(memory_.pressure.begin(), memory_.pressure.end(), 0.0);
    const double factor = *demand_.load / sum;
    for (double& p : memory_.pressure) {
      p *= factor;
    }
  }

  // mismatch = gap + deflection - approach: 0 under pressure and positive outside when solved. Under a given load the
  // approach is what makes its mean under pressure zero.
  double find_mismatch() {
    const double* h = memory_.gap.data();
    const double* u = memory_.deflection.data();
    const double* p = memory_.pressure.data();
    double* g = memory_.mismatch.data();
    double* mask = memory_.mask.data();
    double sum = 0.0, cells = 0.0;
    for (std::size_t i = 0; i < n_; ++i) {
      g[i] = h[i] + u[i];
      mask[i] = p[i] > 0.0 ? 1.0 : 0.0;
      sum += mask[i] * g[i];
      cells += mask[i];
    }
    const double approach = demand_.approach ? *demand_.approach : sum / cells;
    cells_ = cells;
    for (std::size_t i = 0; i < n_; ++i) {
      g[i] -= approach;
    }
    return approach;
  }

  double norm_under_pressure() const {
    return std::inner_product(memory_.mismatch.begin(), memory_.mismatch.end(), memory_.steep.begin(), 0.0);
  }

  // steep = what the mismatch asks of the pressure nearby (a preconditioner): deflections of short waves need high
  // pressures, and without this the number of iterations grows with the square root of the cells per side.
  void precondition() {
    const std::size_t padded = nx_ + 2;
    for (std::size_t iy = 0; iy < n_ / nx_; ++iy) {
      for (std::size_t ix = 0; ix < nx_; ++ix) {
        memory_.padded[(iy + 1) * padded + ix + 1] = memory_.mask[iy * nx_ + ix] * memory_.mismatch[iy * nx_ + ix];
      }
    }
    const HalfSpaceGrid::Influence::Inverse c = influence_.inverse;
    double sum = 0.0;
    for (std::size_t iy = 0; iy < n_ / nx_; ++iy) {
      const double* g = &memory_.padded[(iy + 1) * padded + 1];
      const double* south = g - padded;
      const double* north = g + padded;
      const double* mask = &memory_.mask[iy * nx_];
      double* z = &memory_.steep[iy * nx_];
      for (std::ptrdiff_t i = 0; i < static_cast<std::ptrdiff_t>(nx_); ++i) {
        z[i] = mask[i] * (c.self * g[i] + c.along_x * (g[i - 1] + g[i + 1]) + c.along_y * (south[i] + north[i]) +
                          c.diagonal * ((south[i - 1] + south[i + 1]) + (north[i - 1] + north[i + 1])));
        sum += z[i];
      }
    }
    remove_resultant(memory_.steep, sum);
  }

  // Under a given load steps have no resultant force.
  void remove_resultant(std::vector<double>& field, double sum) const {
    if (!demand_.load) {
      return;
    }
    const double mean = sum / cells_;
    for (std::size_t i = 0; i < n_; ++i) {
      field[i] -= memory_.mask[i] * mean;
    }
  }

  void turn_direction(double beta) {
    double* t = memory_.direction.data();
    const double* z = memory_.steep.data();
    const double* mask = memory_.mask.data();
    double sum = 0.0;
    for (std::size_t i = 0; i < n_; ++i) {
      t[i] = mask[i] * (z[i] + beta * t[i]);
      sum += t[i];
    }
    remove_resultant(memory_.direction, sum); // cells that left took their share with them
  }

  Step take_step() {
    double* p = memory_.pressure.data();
    double* r = memory_.change.data();
    double* u = memory_.deflection.data();
    const double* g = memory_.mismatch.data();
    const double* t = memory_.direction.data();
    const double* mask = memory_.mask.data();
    influence_.plan.apply(influence_.normal, memory_.direction, memory_.change, memory_.convolution);
    double mean = 0.0;
    if (demand_.load) {
      for (std::size_t i = 0; i < n_; ++i) {
        mean += mask[i] * r[i];
      }
      mean /= cells_;
    }
    double above = 0.0, below = 0.0;
    for (std::size_t i = 0; i < n_; ++i) {
      above += g[i] * t[i];
      below += (r[i] - mean) * t[i];
    }
    const double tau = below > 0.0 ? above / below : 0.0; // a single cell under a given load has no direction
    double change = 0.0, sum = 0.0;
    std::size_t joined = 0, left = 0;
    for (std::size_t i = 0; i < n_; ++i) {
      const double before = p[i];
      double after = std::max(0.0, before - tau * t[i]);
      left += before > 0.0 && after == 0.0;
      const bool overlap = after == 0.0 && g[i] < 0.0;
      after = overlap ? -g[i] / self_influence_ : after;
      joined += overlap;
      change += std::abs(after - before);
      sum += after;
      p[i] = after;
      u[i] -= tau * r[i];
    }
    return {change / sum, joined > 0, left > 0};
  }

  double worst_mismatch() const {
    double worst = 0.0;
    for (std::size_t i = 0; i < n_; ++i) {
      const double g = memory_.mismatch[i];
      worst = std::max(worst, memory_.mask[i] > 0.0 ? std::abs(g) : -g);
    }
    return worst;
  }

  const HalfSpaceGrid::Influence& influence_;
  HalfSpaceWorkspace::Memory& memory_;
  Demand demand_;
  std::size_t n_, nx_;
  double self_influence_; // m
  double cells_ = 0.0;    // under pressure
};

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
  (void)Iteration(*coarse, below, coarse_demand).run(coarse_tolerance, max_iterations);
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
  const Outcome outcome = Iteration(grid, memory, demand).run(settings.tolerance, settings.max_iterations);
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
