// Static compliance that the retained modes leave out, along the rail.
//
// Within an element every part of it (nodal compliance, modal compliance, held compliance) is a polynomial of degree 6
// in the local coordinate, so seven points would hold it exactly. Thirteen are stored, so that a straight line between
// neighbours is good to 1e-4 of the total as well; the exact interpolation uses every second one.
#pragma once

#include "wingnose/track/assembly.hpp"

#include <span>
#include <vector>

namespace wingnose::track::detail {

inline constexpr int residual_points = 13; // per element, even steps, ends included

// Inverse stiffness restricted to the rail: [4 x 4 elements], block e for the four unknowns of element e (m/N, m, rad).
// Throws ComputeError when the track can move freely.
[[nodiscard]] Eigen::MatrixXd static_compliance(const Assembly& a);

// Complex mode shapes at the unknowns of the assembly, [dofs x modes], split because that is how they are stored.
struct NodalShapes {
  Eigen::MatrixXd re, im;
};

// [elements * residual_points], m/N: total static compliance less that of the folded complex modes.
[[nodiscard]] std::vector<double> residual(const Assembly& a, const Eigen::MatrixXd& compliance,
                                           const Eigen::VectorXcd& lambda, const NodalShapes& nodal);

// values: the residual_points of one element; s in [0, 1].
[[nodiscard]] double interpolate_residual(std::span<const double> values, double s);

} // namespace wingnose::track::detail
