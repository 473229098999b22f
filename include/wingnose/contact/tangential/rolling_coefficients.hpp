// Linear creep coefficients of an ellipse computed from the half-space: rolling without slip anywhere.
// Same discretisation as contact/rolling.hpp; the mirror symmetry of the ellipse halves the unknowns.
#pragma once

#include "wingnose/contact/tangential/kalker.hpp"

namespace wingnose::contact {

// `along` cells (4 .. 48) in each of `across` strips (an even number 4 .. 48): first order in the cells, higher in the
// strips. axis_ratio a/b in 0.01 .. 100, poisson 0 .. 0.5. C23 is the mean of C23 and -C32, which reciprocity makes
// equal. Throws InputError.
[[nodiscard]] CreepCoefficients half_space_coefficients(double axis_ratio, double poisson, int along, int across);

// Linear extrapolation to endless refinement from `cells` and half as many; cells divisible by four.
[[nodiscard]] CreepCoefficients extrapolated_coefficients(double axis_ratio, double poisson, int cells = 24);

} // namespace wingnose::contact
