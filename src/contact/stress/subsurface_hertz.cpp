#include "wingnose/contact/stress/subsurface_hertz.hpp"

#include "wingnose/words/error.hpp"

#include <cmath>

namespace wingnose::contact {
namespace {

void check(double peak_pressure, double size, double depth, double poisson) {
  if (!(std::isfinite(peak_pressure) && peak_pressure >= 0.0)) {
    throw InputError("peak pressure", number(peak_pressure) + " Pa", "0 or more",
                     "Bodies can only press on each other.");
  }
  if (!(std::isfinite(size) && size > 0.0)) {
    throw InputError("half width of the patch", number(size) + " m", "greater than 0", "Give it in metres.");
  }
  if (!(std::isfinite(depth) && depth >= 0.0)) {
    throw InputError("depth or radius", number(depth) + " m", "0 or more", "It counts from the surface or the axis.");
  }
  if (!(poisson > -1.0 && poisson <= 0.5)) {
    throw InputError("Poisson's ratio", number(poisson), "-1 to 0.5", "Steel has about 0.3.");
  }
}

} // namespace

Stress line_contact_stress(double peak_pressure, double half_width, double x, double z, double poisson) {
  check(peak_pressure, half_width, z, poisson);
  // Johnson (1985) eqs. 4.49 and 4.50, lengths in half widths.
  const double X = x / half_width, Z = z / half_width;
  const double d = 1.0 - X * X + Z * Z;
  const double root = std::hypot(d, 2.0 * X * Z);
  const double m2 = 0.5 * (root + d), n2 = 0.5 * (root - d);
  const double m = std::sqrt(std::max(0.0, m2)), n = std::copysign(std::sqrt(std::max(0.0, n2)), X);
  if (root == 0.0) { // the very edge of the patch
    return {};
  }
  const double share = (Z * Z + n2) / root;
  Stress s;
  s.xx = -peak_pressure * (m * (1.0 + share) - 2.0 * Z);
  s.zz = -peak_pressure * m * (1.0 - share);
  s.zx = -peak_pressure * n * (m2 - Z * Z) / root;
  s.yy = poisson * (s.xx + s.zz);
  return s;
}

Stress circular_contact_axis_stress(double peak_pressure, double radius, double z, double poisson) {
  check(peak_pressure, radius, z, poisson);
  const double Z = z / radius;
  const double fade = 1.0 / (1.0 + Z * Z);
  Stress s;
  s.xx = peak_pressure * (-(1.0 + poisson) * (1.0 - Z * std::atan2(1.0, Z)) + 0.5 * fade); // Johnson (1985) eq. 3.45a
  s.yy = s.xx;
  s.zz = -peak_pressure * fade; // eq. 3.45b
  return s;
}

Stress circular_contact_surface_stress(double peak_pressure, double radius, double r, double poisson) {
  check(peak_pressure, radius, r, poisson);
  const double s2 = (r / radius) * (r / radius);
  const double part = (1.0 - 2.0 * poisson) / 3.0;
  Stress s;
  if (s2 >= 1.0) { // Johnson (1985) eq. 3.43
    s.xx = peak_pressure * part / s2;
    s.yy = -s.xx;
    return s;
  }
  const double p = std::sqrt(1.0 - s2);
  // (1 - p^3) / s2 with s2 = 1 - p^2 divided out, finite on the axis
  const double ring = part * (1.0 + p + p * p) / (1.0 + p);
  s.xx = peak_pressure * (ring - p);                  // eq. 3.42a
  s.yy = peak_pressure * (-ring - 2.0 * poisson * p); // eq. 3.42b
  s.zz = -peak_pressure * p;
  return s;
}

} // namespace wingnose::contact
