#include "wingnose/contact/half_space/half_space.hpp"

#include "half_space_memory.hpp"
#include "wingnose/words/error.hpp"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <utility>

namespace wingnose::contact {
namespace {

using std::numbers::pi;

constexpr std::size_t fewest_cells = 4;
constexpr std::size_t most_cells = 4096;
constexpr std::size_t coarsest = 16; // cells along the shorter side; below, a coarser start does not pay

// F(X, Y) = X ln(Y + R) + Y ln(X + R) of Johnson (1985) eq. 3.25 without cancellation: Y + R = X^2 / (R - Y) for Y < 0.
double corner(double X, double Y) {
  const double R = std::hypot(X, Y);
  const auto term = [R](double a, double b) { // a ln(b + R)
    if (a == 0.0) {
      return 0.0;
    }
    return b >= 0.0 ? a * std::log(b + R) : a * (2.0 * std::log(std::abs(a)) - std::log(R - b));
  };
  return term(X, Y) + term(Y, X);
}

void check_grid(std::size_t nx, std::size_t ny, double dx, double dy) {
  for (const std::size_t n : {nx, ny}) {
    if (n < fewest_cells || n > most_cells) {
      throw InputError("cells of the contact grid", std::to_string(n), "4 to 4096",
                       "128 by 128 gives pressures to about 0.1 %.");
    }
  }
  for (const double pitch : {dx, dy}) {
    if (!(std::isfinite(pitch) && pitch > 0.0)) {
      throw InputError("pitch of the contact grid", number(pitch) + " m", "greater than 0",
                       "A wheel-rail patch of 10 mm on 100 cells needs 0.1 mm.");
    }
  }
  if (!(dx / dy <= 1000.0 && dy / dx <= 1000.0)) {
    throw InputError("ratio of the pitches of the contact grid", number(dx / dy), "0.001 to 1000",
                     "Choose both pitches in proportion to the patch.");
  }
}

using Inverse = HalfSpaceGrid::Influence::Inverse;
Inverse local_inverse(double dx, double dy) {
  constexpr int half = 2; // cells to each side; with 3 the solver needs as many iterations
  constexpr int side = 2 * half + 1;
  const auto at = [](int ix, int iy) { return side * (half + iy) + half + ix; };
  Eigen::MatrixXd influence(side * side, side * side);
  const auto step = [](int i, int j) { // between two cells of the block, in pitches along x and along y
    const int along_x = i % side - j % side, along_y = i / side - j / side;
    return std::pair{along_x, along_y};
  };
  for (int i = 0; i < side * side; ++i) {
    for (int j = 0; j < side * side; ++j) {
      influence(i, j) = rectangle_influence(step(i, j).first * dx, step(i, j).second * dy, dx, dy);
    }
  }
  const Eigen::VectorXd row = influence.llt().solve(Eigen::VectorXd::Unit(side * side, at(0, 0)));
  return {row(at(0, 0)), row(at(1, 0)), row(at(0, 1)), row(at(1, 1))};
}

} // namespace

double rectangle_influence(double x, double y, double dx, double dy) {
  const double west = x - 0.5 * dx, east = x + 0.5 * dx;
  const double south = y - 0.5 * dy, north = y + 0.5 * dy;
  return corner(east, north) - corner(west, north) - corner(east, south) + corner(west, south);
}

HalfSpaceGrid::Influence::Influence(std::size_t nx, std::size_t ny, double dx, double dy) : plan(nx, ny) {
  // Neighbours share corners: half a pitch before the loaded cell's centre to half a pitch behind the farthest cell.
  std::vector<double> corners((nx + 1) * (ny + 1));
  for (std::size_t iy = 0; iy <= ny; ++iy) {
    for (std::size_t ix = 0; ix <= nx; ++ix) {
      corners[iy * (nx + 1) + ix] = corner((static_cast<double>(ix) - 0.5) * dx, (static_cast<double>(iy) - 0.5) * dy);
    }
  }
  const auto cell = [&](std::size_t ix, std::size_t iy) {
    const double* south = &corners[iy * (nx + 1) + ix];
    const double* north = south + nx + 1;
    return (north[1] - north[0]) - (south[1] - south[0]);
  };
  normal = plan.kernel(cell, Parity::even, Parity::even);
  inverse = local_inverse(dx, dy);
  if (nx % 2 == 0 && ny % 2 == 0 && std::min(nx, ny) / 2 >= coarsest) {
    coarse = std::make_unique<const HalfSpaceGrid>(nx / 2, ny / 2, 2.0 * dx, 2.0 * dy);
  }
}

HalfSpaceGrid::HalfSpaceGrid(std::size_t nx, std::size_t ny, double dx, double dy)
    : nx_(nx), ny_(ny), dx_(dx), dy_(dy) {
  check_grid(nx, ny, dx, dy);
  influence_ = std::make_shared<const Influence>(nx, ny, dx, dy);
}

HalfSpaceWorkspace::Memory::Memory(const HalfSpaceGrid& grid)
    : convolution(grid.influence().plan), gap(grid.cells()), pressure(grid.cells()), deflection(grid.cells()),
      mismatch(grid.cells()), direction(grid.cells()), steep(grid.cells()), change(grid.cells()), mask(grid.cells()),
      padded((grid.nx() + 2) * (grid.ny() + 2)) {
  if (grid.influence().coarse) {
    coarse = std::make_unique<HalfSpaceWorkspace>(*grid.influence().coarse);
  }
}

HalfSpaceWorkspace::HalfSpaceWorkspace(const HalfSpaceGrid& grid) : memory_(std::make_unique<Memory>(grid)) {}
HalfSpaceWorkspace::HalfSpaceWorkspace(HalfSpaceWorkspace&&) noexcept = default;
HalfSpaceWorkspace& HalfSpaceWorkspace::operator=(HalfSpaceWorkspace&&) noexcept = default;
HalfSpaceWorkspace::~HalfSpaceWorkspace() = default;

std::vector<double> surface_deflection(const HalfSpaceGrid& grid, HalfSpaceWorkspace& workspace,
                                       std::span<const double> pressure, const Elastic& material) {
  if (pressure.size() != grid.cells()) {
    throw InputError("values of the pressure field", std::to_string(pressure.size()), std::to_string(grid.cells()),
                     "Give one value per cell of the grid.");
  }
  const HalfSpaceGrid::Influence& influence = grid.influence();
  std::vector<double> result(grid.cells());
  influence.plan.apply(influence.normal, pressure, result, workspace.memory().convolution);
  for (double& value : result) {
    value /= pi * material.combined();
  }
  return result;
}

} // namespace wingnose::contact
