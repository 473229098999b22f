// Displacement difference of two like half-spaces at a surface point under uniform tractions on the cells of a strip.
#pragma once

#include "wingnose/contact/tangential/rolling_mesh.hpp"

#include <span>

namespace wingnose::contact::detail {

// Integrals of 1/r, x^2/r^3, y^2/r^3 and x y/r^3 over a cell become the displacements of unit tractions; times G.
struct Influence {
  double xx, xy, yy; // m: u_x by p_x, u_x by p_y (= u_y by p_x), u_y by p_y
};

// out: one per cell of the strip. plane: the strip is endless in y (plane strain, free of a common constant).
void influence_of_strip(const RollingStrip& strip, bool plane, double poisson, double x, double y,
                        std::span<Influence> out);

} // namespace wingnose::contact::detail
