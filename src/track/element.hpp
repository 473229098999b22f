// Two-node Timoshenko rail element, exact for static bending with shear (interdependent interpolation).
// Friedman and Kosmatka, "An improved two-node Timoshenko beam finite element", Computers & Structures 47 (1993):
// shape functions eqs (14)-(15), stiffness eq (19). Order of the unknowns: w1, theta1, w2, theta2 with
// theta = dw/dx - shear strain; local coordinate s = (x - x1) / L in [0, 1].
#pragma once

#include "wingnose/track/track.hpp"

#include <Eigen/Core>

namespace wingnose::track::detail {

// Phi = 12 EI / (kappa G A L^2), the ratio of bending to shear stiffness of an element of length L (m).
[[nodiscard]] double shear_ratio(const RailProperties& rail, double L);

[[nodiscard]] Eigen::Matrix4d element_stiffness(const RailProperties& rail, double L);
// Mean of the consistent and the lumped mass, both with rotary inertia (higher-order mass: Goudreau and Taylor,
// Computer Methods in Applied Mechanics and Engineering 2 (1973)).
[[nodiscard]] Eigen::Matrix4d element_mass(const RailProperties& rail, double L);

// Deflection shape functions as cubics: row c holds the coefficients of s^c, column i belongs to unknown i.
[[nodiscard]] Eigen::Matrix4d deflection_coefficients(const RailProperties& rail, double L);
// Rotation shape functions as quadratics in s, same layout.
[[nodiscard]] Eigen::Matrix<double, 3, 4> rotation_coefficients(const RailProperties& rail, double L);

[[nodiscard]] Eigen::Vector4d deflection_shape(const RailProperties& rail, double L, double s);

// Static deflection (m/N) at s under a unit force at s with both ends of the element held.
[[nodiscard]] double held_compliance(const RailProperties& rail, double L, double s);

} // namespace wingnose::track::detail
