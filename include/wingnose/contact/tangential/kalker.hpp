// Linear creep coefficients of an elliptic contact after Kalker (1967; table reprinted in Kalker 1990).
//
// Between the printed axis ratios 0.1 .. 1 .. 10 the logarithm of each coefficient follows a monotone cubic (Fritsch
// and Carlson 1980, doi:10.1137/0717021) in log(a/b), between the printed Poisson's ratios 0, 1/4, 1/2 a parabola: the
// printed values are met exactly. The table has three digits; it is trusted to about 1 %. Beyond 0.1 and 10 the
// slender-ellipse limits quoted with the table are used, scaled to join it: quoted from memory, so of less trust. At
// a/b = 1/20 and 20 they lie within 3 % (C23: 6 %) of our own half-space rolling solution, see
// tests/unit/contact_kalker.cpp.
//
// Contact frame and signs: contact/creepage.hpp. a: semi-axis in the rolling direction, b: across. SI.
#pragma once

#include "wingnose/contact/normal/hertz.hpp"
#include "wingnose/contact/tangential/creepage.hpp"

namespace wingnose::contact {

struct CreepCoefficients {
  double C11, C22, C23, C33; // -, C32 = -C23
  [[nodiscard]] friend bool operator==(const CreepCoefficients&, const CreepCoefficients&) = default;
};

// axis_ratio: a/b, 1e-3 .. 1e3; poisson: 0 .. 0.5. Throws InputError outside.
[[nodiscard]] CreepCoefficients creep_coefficients(double axis_ratio, double poisson);

// An elliptic contact as the tangential laws see it: made once per contact by rolling_contact, then read by all laws.
struct RollingContact {
  double a, b;              // m, semi-axes along the rolling direction and across
  double normal_force;      // N
  double shear_modulus;     // Pa, of both bodies
  CreepCoefficients linear; // of this ellipse
};

// More slender than 1 : 1000: coefficients of that. Throws InputError: axes, modulus > 0, force >= 0, Poisson 0 .. 0.5.
[[nodiscard]] RollingContact rolling_contact(double a, double b, double normal_force, const Elastic& material = {});

// Forces of full adhesion (Kalker 1967):
//   Fx = -G a b C11 xi,  Fy = -G a b C22 eta - G (ab)^1.5 C23 phi,  Mz = G (ab)^1.5 C23 eta - G (ab)^2 C33 phi.
// Valid as long as they are small against mu times the normal force.
[[nodiscard]] CreepForce linear_creep_force(const RollingContact& contact, const Creepage& creepage);

} // namespace wingnose::contact
