// Gap fields for the half-space solver, grids that fit the patch, and how far the half-space assumption is stretched.
// SI; x along the track, y across.
#pragma once

#include "wingnose/contact/half_space/half_space.hpp"

#include <cstddef>
#include <span>
#include <vector>

namespace wingnose::contact {

// Gap x^2 curvature_x / 2 + y^2 curvature_y / 2 (m) of two bodies whose curvatures (1/m) add up to these.
[[nodiscard]] std::vector<double> quadratic_gap(const HalfSpaceGrid& grid, double curvature_x, double curvature_y);

// Gap x^2 / (2 rolling_radius) + lateral[iy]: a wheel of rolling_radius (m, > 0) over a rail that is straight along x.
// lateral: distance of the two cross-sections (m) at the rows of the grid, any datum. Throws InputError.
[[nodiscard]] std::vector<double> rolling_gap(const HalfSpaceGrid& grid, std::span<const double> lateral,
                                              double rolling_radius);

// A grid of nx x ny cells that is `margin` times as long and wide as the Hertz patch of these curvatures. With the
// default the patch fills three quarters of each side. Throws InputError.
[[nodiscard]] HalfSpaceGrid grid_for_hertz(std::size_t nx, std::size_t ny, const HertzPatch& patch,
                                           double margin = 4.0 / 3.0);

// How much the direction of the contact normal changes across the loaded rows. A half-space has one normal: beyond
// about 0.15 rad pressure and patch are to be read with care.
struct NormalTurn {
  double turn = 0.0;      // rad, largest minus smallest contact angle under pressure
  bool stretched = false; // turn > wingnose::stretched_angle
};
// contact_angle: of the surface (rad), one value per row of the grid.
[[nodiscard]] NormalTurn normal_turn(const HalfSpaceGrid& grid, std::span<const double> pressure,
                                     std::span<const double> contact_angle);

} // namespace wingnose::contact
