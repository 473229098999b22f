// Normal contact of two elastic half-spaces with any gap between them: pressure, patch and approach without assuming an
// ellipse. The yardstick for the fast laws. SI; fields on nx x ny cells, x along the track, value of cell (ix, iy) at
// [iy * nx + ix], cell centres at (i - (n - 1)/2) times the pitch, so that the grid is centred on the origin.
//
// Deflection under a uniformly loaded rectangle: Love (1929, doi:10.1098/rsta.1929.0009); Johnson (1985) eq. 3.25.
// Convolution by Fourier transforms with zero padding. Bound-constrained conjugate gradients: Polonsky and Keer (1999),
// Wear 231, 206-219, doi:10.1016/S0043-1648(99)00113-1.
// Both bodies are half-spaces of one material (quasi-identical: no coupling of pressure and shear), no friction.
#pragma once

#include "wingnose/contact/normal/hertz.hpp"

#include <cstddef>
#include <memory>
#include <span>
#include <vector>

namespace wingnose::contact {

// Integral of 1/r over a rectangle of sides dx, dy centred at the origin (m), seen from (x, y) on the surface: under a
// pressure p both bodies together come closer by p / (pi E*) times this. Love (1929); Johnson (1985) eq. 3.25.
[[nodiscard]] double rectangle_influence(double x, double y, double dx, double dy);

// Grid and its influence coefficients, made once (about a millisecond for 128 x 128) and shared by any number of
// solutions and threads; copies share. Independent of material and load.
class HalfSpaceGrid {
public:
  // nx, ny: 4 to 4096 cells; dx, dy: pitch (m), > 0, neither more than 1000 times the other. Throws InputError.
  HalfSpaceGrid(std::size_t nx, std::size_t ny, double dx, double dy);

  [[nodiscard]] std::size_t nx() const { return nx_; }
  [[nodiscard]] std::size_t ny() const { return ny_; }
  [[nodiscard]] std::size_t cells() const { return nx_ * ny_; }
  [[nodiscard]] double dx() const { return dx_; }                                // m
  [[nodiscard]] double dy() const { return dy_; }                                // m
  [[nodiscard]] double x(std::size_t ix) const { return centre(ix, nx_) * dx_; } // m
  [[nodiscard]] double y(std::size_t iy) const { return centre(iy, ny_) * dy_; } // m

  struct Influence; // defined with the solver
  [[nodiscard]] const Influence& influence() const { return *influence_; }

private:
  [[nodiscard]] static double centre(std::size_t i, std::size_t n) {
    return static_cast<double>(i) - 0.5 * static_cast<double>(n - 1);
  }
  std::size_t nx_, ny_;
  double dx_, dy_;
  std::shared_ptr<const Influence> influence_; // never changes once made
};

struct HalfSpaceSettings {
  double tolerance = 1e-5;          // -, see HalfSpaceContact::residual; 1e-12 to 0.1
  std::size_t max_iterations = 500; // on the finest grid
};

struct HalfSpaceContact {
  std::vector<double> pressure; // Pa, per cell, >= 0
  double force = 0.0;           // N
  double approach = 0.0;        // m, of distant points, counted from the datum of the gap
  double peak_pressure = 0.0;   // Pa, largest cell value
  double area = 0.0;            // m2, cells under pressure
  double smooth_area = 0.0;     // m2, with the edge drawn through the cells; see smooth_contact_area()
  std::size_t iterations = 0;   // on the finest grid
  double residual = 0.0;        // -, change of the pressure in the last step: sum |dp| / sum p
  double mismatch = 0.0;        // m, largest gap left under pressure or overlap left outside
  bool touches_edge = false; // pressure in the outermost cells: the grid is too small and the result is not to be used
};

// Scratch memory of the solver, for one thread; may be kept from one solution to the next on the same grid.
class HalfSpaceWorkspace {
public:
  explicit HalfSpaceWorkspace(const HalfSpaceGrid& grid);
  HalfSpaceWorkspace(const HalfSpaceWorkspace&) = delete;
  HalfSpaceWorkspace& operator=(const HalfSpaceWorkspace&) = delete;
  HalfSpaceWorkspace(HalfSpaceWorkspace&&) noexcept;
  HalfSpaceWorkspace& operator=(HalfSpaceWorkspace&&) noexcept;
  ~HalfSpaceWorkspace();

  struct Memory;
  [[nodiscard]] Memory& memory() { return *memory_; }

private:
  std::unique_ptr<Memory> memory_;
};

// Contact under a given force (N, > 0) or at a given approach (m). gap: undeformed distance of the surfaces (m), one
// value per cell, finite, any datum. initial_pressure: empty (coarser grids give the start) or one value >= 0 per cell.
// An approach that does not reach the lowest gap gives a result without pressure. Throws InputError for impossible
// input and ComputeError when the tolerance is not reached.
[[nodiscard]] HalfSpaceContact solve_for_force(const HalfSpaceGrid& grid, HalfSpaceWorkspace& workspace,
                                               std::span<const double> gap, double force, const Elastic& material = {},
                                               const HalfSpaceSettings& settings = {},
                                               std::span<const double> initial_pressure = {});
[[nodiscard]] HalfSpaceContact solve_for_approach(const HalfSpaceGrid& grid, HalfSpaceWorkspace& workspace,
                                                  std::span<const double> gap, double approach,
                                                  const Elastic& material = {}, const HalfSpaceSettings& settings = {},
                                                  std::span<const double> initial_pressure = {});

// Common approach of both surfaces under a pressure field (m, per cell): what convolution with rectangle_influence
// gives.
[[nodiscard]] std::vector<double> surface_deflection(const HalfSpaceGrid& grid, HalfSpaceWorkspace& workspace,
                                                     std::span<const double> pressure, const Elastic& material = {});

// Area of the patch with its edge drawn through the cells (m2). Near the edge of a smooth contact p ~ sqrt(distance)
// (Johnson 1985 sec. 4.2), so p^2 falls linearly there: it is extrapolated from the two cells behind each edge cell
// along x and along y, and every cell near the edge counts with the part on the loaded side of that line.
[[nodiscard]] double smooth_contact_area(const HalfSpaceGrid& grid, std::span<const double> pressure);

} // namespace wingnose::contact
