// Stresses under Hertz pressure in closed form: what the general machinery is measured against, and all that is needed
// where a patch is nearly round or very long. SI; z >= 0 is the depth in the loaded body; tension positive.
#pragma once

#include "wingnose/contact/stress/subsurface.hpp"

namespace wingnose::contact {

// Line contact, pressure p0 sqrt(1 - x^2/b^2) on |x| < b, endless along y, plane strain. McEwen (1949); Johnson (1985)
// eq. 4.49. peak_pressure: Pa; half_width b: m, > 0. Throws InputError.
[[nodiscard]] Stress line_contact_stress(double peak_pressure, double half_width, double x, double z,
                                         double poisson = 0.3);

// Circular contact of radius a under p0 sqrt(1 - r^2/a^2): on the axis at depth z (Johnson 1985 eq. 3.45) and on the
// surface at radius r (eqs. 3.42 and 3.43; xx is radial, yy circumferential). Throws InputError.
[[nodiscard]] Stress circular_contact_axis_stress(double peak_pressure, double radius, double z, double poisson = 0.3);
[[nodiscard]] Stress circular_contact_surface_stress(double peak_pressure, double radius, double r,
                                                     double poisson = 0.3);

} // namespace wingnose::contact
