// Rolling contact fatigue of the surface: two published indices for one wheel over one place. SI.
#pragma once

namespace wingnose::assess {

// Surface fatigue index FI_surf = f - 2 pi a b k / (3 F) = f - k / p0, Ekberg, Kabo and Andersson (2002,
// doi:10.1046/j.1460-2695.2002.00535.x). Above 0 the surface yields in shear with every wheel and cracks are expected.
// f: traction coefficient T/N actually used; a, b: semi-axes (m); k: yield in shear (Pa); force (N) > 0. Hertzian
// contact. Throws InputError.
[[nodiscard]] double surface_fatigue_index(double f, double a, double b, double k, double force);

// Crack initiation per wheel as a function of T-gamma (Burstow 2004), for steel of the class R260: none below
// `threshold`, up linearly to `top` at `peak`, down to none at `balance`; beyond, wear takes cracks away (negative,
// same slope). 1 is a crack that can be seen; it is quoted from memory with high trust.
struct CrackFunction {
  double threshold = 15.0; // J/m (N), >= 0
  double peak = 65.0;      // J/m, > threshold
  double balance = 175.0;  // J/m, > peak
  double top = 10e-6;      // -, per wheel, > 0
  [[nodiscard]] friend bool operator==(const CrackFunction&, const CrackFunction&) = default;
};
void check(const CrackFunction& function); // throws InputError
// t_gamma: N (J/m), >= 0: creep force times creepage, without the spin moment.
[[nodiscard]] double crack_damage(double t_gamma, const CrackFunction& function = {});

} // namespace wingnose::assess
