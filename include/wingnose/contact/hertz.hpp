// Normal contact of two smooth bodies after Hertz (1881), exact elliptic integrals (Johnson 1985, ch. 4).
// SI. Loading only: force >= 0, monotone in approach, F ~ approach^1.5. Steel on steel by default.
#pragma once

namespace wingnose::contact {

struct Elastic {
  double young = 210e9; // Pa
  double poisson = 0.3; // -
  // Combined modulus 1/E* = sum (1 - nu^2)/E for two bodies of this material (Pa).
  [[nodiscard]] double combined() const { return young / (2.0 * (1.0 - poisson * poisson)); }
};

// A, B: half the relative curvatures in the two principal directions (1/m), both > 0. Throws InputError otherwise.
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
// curvature_x, curvature_y: sums of the curvatures of both bodies along and across (1/m).
[[nodiscard]] HertzPatch hertz_patch(double force, double curvature_x, double curvature_y,
                                     const Elastic& material = {});

// C_H in F = C_H approach^1.5 (N/m^1.5).
[[nodiscard]] double hertz_stiffness(double curvature_x, double curvature_y, const Elastic& material = {});

} // namespace wingnose::contact
