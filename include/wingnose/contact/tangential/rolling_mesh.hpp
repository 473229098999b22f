// The contact patch of the half-space rolling solver: strips of equal rectangles along the rolling direction.
//
// Each strip has its own cell length, so an elliptic outline is met exactly by every strip and the forces converge
// smoothly; a patch of any outline comes as a field of pressures on a regular grid (contact/half_space.hpp gives one).
// x along the rolling direction, y across, as in contact/creepage.hpp. SI.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace wingnose::contact {

struct RollingStrip {
  double y, width;          // m, mid-line and width; width > 0
  double lead;              // m, leading edge
  double cell;              // m, length of each cell, > 0
  std::size_t first, cells; // index of the leading cell, number of cells
};
struct RollingMesh {
  std::vector<RollingStrip> strips;
  std::vector<double> pressure; // Pa, mean over each cell, >= 0; strip by strip from the leading cell
  bool plane = false;           // one strip of a body endless in y: plane strain, forces per width
  [[nodiscard]] std::size_t cells() const { return pressure.size(); }
};

// Hertz pressure on an ellipse with semi-axes a (rolling direction) and b (m, > 0), normal force N (> 0): `along`
// cells in each of `across` strips of equal width, both 2 .. 200. Cell pressures are exact means along the strip and
// sum up to the normal force. Throws InputError.
[[nodiscard]] RollingMesh elliptic_mesh(double a, double b, double normal_force, int along, int across);

// Two-dimensional Hertz contact, half length a (m), force_per_width (N/m): `along` cells, 2 .. 2000.
[[nodiscard]] RollingMesh plane_mesh(double a, double force_per_width, int along);

// pressure[i * across + j] (Pa) of the cell centred at (x0 + i dx, y0 + j dy); cells without pressure lie outside the
// contact. Throws InputError for sizes that do not fit, negative pressures or a field without contact.
[[nodiscard]] RollingMesh grid_mesh(std::span<const double> pressure, std::size_t along, std::size_t across, double x0,
                                    double y0, double dx, double dy);

} // namespace wingnose::contact
