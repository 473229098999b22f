// Potentials of a uniformly loaded rectangle and their derivatives, as functions of one corner: the value for the
// rectangle is the sum over its corners, counted + at (x+a, y+b) and (x-a, y-b) and - at the others.
//
// Johnson (1985) sec. 3.2 with V = integral of 1/rho, phi_z = V (the logarithmic potential), chi_z = phi:
//   pressure: xx = (2 nu V_z - (1 - 2 nu) phi_xx - z V_xx) / 2 pi ...          (Love 1929)
//   shear_x:  xx = (2 (1 + nu) V_x + 2 nu chi_xxx - z phi_xxx) / 2 pi ...      (Cerruti)
// All three are harmonic, which gives the derivatives that have no short integral of their own.
#pragma once

#include "wingnose/contact/stress/subsurface.hpp"

#include <cmath>

namespace wingnose::contact {

// Contribution of one corner at distance X, Y from the point, depth z, to the six stresses per unit traction, times 2
// pi.
struct CornerStress {
  Stress pressure, shear_x;
};

inline CornerStress corner_stress(double X, double Y, double z, double nu) {
  const double R = std::sqrt(X * X + Y * Y + z * z);
  // ln(R + s) and 1/(R + s) without cancellation for s < 0; rest = R^2 - s^2. The common logarithm of the unit of
  // length drops out over the corners.
  const auto logarithm = [R](double s, double rest) {
    return s >= 0.0 ? std::log(R + s) : std::log(rest) - std::log(R - s);
  };
  const auto inverse = [R](double s, double rest) { return s >= 0.0 ? 1.0 / (R + s) : (R - s) / rest; };
  const double rest_x = Y * Y + z * z, rest_y = X * X + z * z;
  const double V_x = logarithm(Y, rest_y);
  const double V_y = logarithm(X, rest_x);
  const double V_z = -std::atan2(X * Y, z * R);
  const double at_X = inverse(X, rest_x) / R, at_Y = inverse(Y, rest_y) / R, at_z = 1.0 / (R * (R + z));
  const double V_xx = X * at_Y, V_yy = Y * at_X, V_zz = -V_xx - V_yy;
  const double V_xy = 1.0 / R, V_xz = z * at_Y, V_yz = z * at_X;
  // R - z = (X^2 + Y^2) / (R + z)
  const double lift = X * Y * (X * X + Y * Y) / (R + z);
  const double phi_xx = std::atan2(lift, X * X * R + z * Y * Y);
  const double phi_yy = std::atan2(lift, Y * Y * R + z * X * X);
  const double phi_xy = std::log(R + z);
  const double phi_xxy = X * at_z, phi_xyy = Y * at_z, phi_xxx = -phi_xyy - V_xz;
  const double chi_xxy = -X / (R + z), chi_xyy = -Y / (R + z), chi_xxx = -chi_xyy - V_x;

  CornerStress c;
  c.pressure.xx = 2.0 * nu * V_z - (1.0 - 2.0 * nu) * phi_xx - z * V_xx;
  c.pressure.yy = 2.0 * nu * V_z - (1.0 - 2.0 * nu) * phi_yy - z * V_yy;
  c.pressure.zz = V_z - z * V_zz;
  c.pressure.xy = -(1.0 - 2.0 * nu) * phi_xy - z * V_xy;
  c.pressure.yz = -z * V_yz;
  c.pressure.zx = -z * V_xz;
  c.shear_x.xx = 2.0 * (1.0 + nu) * V_x + 2.0 * nu * chi_xxx - z * phi_xxx;
  c.shear_x.yy = 2.0 * nu * V_x + 2.0 * nu * chi_xyy - z * phi_xyy;
  c.shear_x.zz = -z * V_xz;
  c.shear_x.xy = V_y + 2.0 * nu * chi_xxy - z * phi_xxy;
  c.shear_x.yz = -z * V_xy;
  c.shear_x.zx = V_z - z * V_xx;
  return c;
}

} // namespace wingnose::contact
