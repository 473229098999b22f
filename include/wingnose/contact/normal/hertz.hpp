// Normal contact of two smooth bodies after Hertz (1881, doi:10.1515/crll.1882.92.156), exact elliptic integrals
// (Johnson 1985, "Contact mechanics", doi:10.1017/CBO9781139171731, ch. 4). SI. Loading only: force >= 0, monotone in
// approach, F ~ approach^1.5. Steel on steel by default.
//
// The two surfaces near the touching point are z = A x^2 + B y^2 apart (principal axes of wheel and rail aligned, as
// they are on plain line). Flat patch, both bodies half-spaces: trust ends where the patch is no longer small against
// the radii, or where the radius changes inside the patch.
#pragma once

#include "wingnose/words/range.hpp"

namespace wingnose::contact {

struct Elastic {
  double young = 210e9; // Pa, > 0
  double poisson = 0.3; // -, in (-1, 0.5]
  // Combined modulus 1/E* = sum (1 - nu^2)/E for two bodies of this material (Pa).
  [[nodiscard]] double combined() const { return young / (2.0 * (1.0 - poisson * poisson)); }
  [[nodiscard]] friend bool operator==(const Elastic&, const Elastic&) = default;
};
constexpr auto ranges(const Elastic*) {
  return std::array{InRange{&Elastic::young, "young", "Pa", 1e9, 1e12},
                    InRange{&Elastic::poisson, "poisson", "-", 0, 0.499}};
}

// A, B: half the relative curvatures in the two principal directions (1/m), both > 0; their order does not matter.
// Relative error of every member below 1e-12 from the circle to B/A = 1e12, which is the end of line contacts: here and
// below a sharper curvature counts as 1e12 times the flatter one. Throws InputError unless positive and finite.
struct HertzShape {
  double ratio;   // b/a, minor over major, in (0, 1]
  double m, n, r; // coefficients of the major axis, minor axis and approach (as tabulated in handbooks)
};
[[nodiscard]] HertzShape hertz_shape(double A, double B);

struct HertzPatch {
  double a_x, a_y;      // m, semi-axes along x (rolling) and y
  double peak_pressure; // Pa
  double approach;      // m
};
// curvature_x, curvature_y: sums of the curvatures of both bodies along and across (1/m), both > 0, a concave surface
// counting negative. force >= 0 (N); without force everything is zero. Throws InputError.
[[nodiscard]] HertzPatch hertz_patch(double force, double curvature_x, double curvature_y,
                                     const Elastic& material = {});

// C_H in F = C_H approach^1.5 (N/m^1.5). Throws InputError as hertz_patch does.
[[nodiscard]] double hertz_stiffness(double curvature_x, double curvature_y, const Elastic& material = {});

// Slope dF/d(approach) (N/m) of F = C_H approach^1.5 where it carries `force`: (3/2) C_H^(2/3) force^(1/3). This is the
// linearised k_H of closed-form P1. C_H > 0, force >= 0; throws InputError.
[[nodiscard]] double hertz_tangent_stiffness(double C_H, double force);

} // namespace wingnose::contact
