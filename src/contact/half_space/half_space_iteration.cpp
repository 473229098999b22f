// Polonsky and Keer (1999), steps numbered as in the loop below. Beyond the paper: the mismatch is preconditioned by
// the local inverse of the influence, and the deflection follows the step without another convolution while no cell
// joins or leaves.
#include "half_space_iteration.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

namespace wingnose::contact {
namespace {

// steep = what the mismatch asks of the pressure nearby (a preconditioner): deflections of short waves need high
// pressures, and without this the number of iterations grows with the square root of the cells per side. Returns its
// sum.
double steepen(const HalfSpaceGrid::Influence::Inverse& c, std::size_t nx, HalfSpaceWorkspace::Memory& memory) {
  const std::size_t padded = nx + 2, ny = memory.mask.size() / nx;
  for (std::size_t iy = 0; iy < ny; ++iy) {
    for (std::size_t ix = 0; ix < nx; ++ix) {
      memory.padded[(iy + 1) * padded + ix + 1] = memory.mask[iy * nx + ix] * memory.mismatch[iy * nx + ix];
    }
  }
  double sum = 0.0;
  for (std::size_t iy = 0; iy < ny; ++iy) {
    const double* g = &memory.padded[(iy + 1) * padded + 1];
    const double* south = g - padded;
    const double* north = g + padded;
    const double* mask = &memory.mask[iy * nx];
    double* z = &memory.steep[iy * nx];
    for (std::ptrdiff_t i = 0; i < static_cast<std::ptrdiff_t>(nx); ++i) {
      z[i] = mask[i] * (c.self * g[i] + c.along_x * (g[i - 1] + g[i + 1]) + c.along_y * (south[i] + north[i]) +
                        c.diagonal * ((south[i - 1] + south[i + 1]) + (north[i - 1] + north[i + 1])));
      sum += z[i];
    }
  }
  return sum;
}

double worst_mismatch(const HalfSpaceWorkspace::Memory& memory) {
  double worst = 0.0;
  for (std::size_t i = 0; i < memory.mismatch.size(); ++i) {
    const double g = memory.mismatch[i];
    worst = std::max(worst, memory.mask[i] > 0.0 ? std::abs(g) : -g);
  }
  return worst;
}

double norm_under_pressure(const HalfSpaceWorkspace::Memory& memory) {
  return std::inner_product(memory.mismatch.begin(), memory.mismatch.end(), memory.steep.begin(), 0.0);
}

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
      remove_resultant(memory_.steep, steepen(influence_.inverse, nx_, memory_));
      const double norm = norm_under_pressure(memory_);
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
    outcome.mismatch = worst_mismatch(memory_);
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

  const HalfSpaceGrid::Influence& influence_;
  HalfSpaceWorkspace::Memory& memory_;
  Demand demand_;
  std::size_t n_, nx_;
  double self_influence_; // m
  double cells_ = 0.0;    // under pressure
};

} // namespace

Outcome iterate(const HalfSpaceGrid& grid, HalfSpaceWorkspace::Memory& memory, const Demand& demand, double tolerance,
                std::size_t max_iterations) {
  return Iteration(grid, memory, demand).run(tolerance, max_iterations);
}

} // namespace wingnose::contact
