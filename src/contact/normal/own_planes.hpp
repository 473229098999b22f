// Patches that lie apart on planes of different inclination, each with its own normal.
//
// A wheel that comes down by D closes the gap of a patch by D cos(angle of the patch); one half-space closes it by the
// same everywhere. Here every patch is closed along its own normal. Distances between patches are those along the
// surface, and what one patch presses the other away is taken from one half-space, as if both normals were one: at 20
// mm it is about a tenth of the approach, and of that the cosine of the angle between the normals is left out (2.4 % at
// 0.22 rad) and what the part of a force along the other's plane does.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace wingnose::contact {

struct OwnPlane {
  std::size_t end;        // row of the grid behind its last
  double cosine;          // of the contact angle, mean by force
  double angle;           // rad, likewise
  double least, most;     // rad, contact angles under pressure
  double y_first, y_last; // m, across, its first and last loaded row
};

// The patches of a pressure field: loaded rows with an unloaded one or more between them, which are shared halfway.
// cosine, angle, y: of every row; nx cells in each.
[[nodiscard]] std::vector<OwnPlane> own_planes(std::span<const double> pressure, std::size_t nx,
                                               std::span<const double> cosine, std::span<const double> angle,
                                               std::span<const double> y);

} // namespace wingnose::contact
