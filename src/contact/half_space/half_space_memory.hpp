// Inside of the half-space grid and its workspace, shared by the solver and the subsurface stresses.
#pragma once

#include "wingnose/contact/half_space/half_space.hpp"

#include "convolution.hpp"

#include <memory>
#include <vector>

namespace wingnose::contact {

struct HalfSpaceGrid::Influence {
  Influence(std::size_t nx, std::size_t ny, double dx, double dy);

  Convolution plan;
  Convolution::Kernel normal; // integral of 1/r over a cell, m
  // Middle row of the inverse of the influence among near cells (1/m): what a deflection asks of the pressure there.
  struct Inverse {
    double self, along_x, along_y, diagonal;
  } inverse;
  std::unique_ptr<const HalfSpaceGrid> coarse; // every second cell in both directions, or nothing on the coarsest grid
};

struct HalfSpaceWorkspace::Memory {
  explicit Memory(const HalfSpaceGrid& grid);

  Convolution::Workspace convolution;
  std::vector<double> gap, pressure, deflection, mismatch, direction, steep, change, mask; // per cell
  std::vector<double> padded; // per cell, with a border of zeros
  std::unique_ptr<HalfSpaceWorkspace> coarse;
};

} // namespace wingnose::contact
