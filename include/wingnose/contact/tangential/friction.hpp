// Coefficient of friction between wheel and rail, falling with the slip speed.
//
// Polach 2005, "Creep forces in wheel-rail contact", Wear 258, 992-1000, doi:10.1016/j.wear.2004.03.046:
// mu(w) = mu0 ((1 - A) exp(-B w) + A), w the slip speed (m/s), mu0 the value at rest, A mu0 the value at very high slip
// speed. A = 1 or B = 0: constant friction.
#pragma once

#include <cmath>

namespace wingnose::contact {

struct Friction {
  double mu0 = 0.3; // -, 0 < mu0 <= 1.5, at no slip
  double A = 1.0;   // -, 0 < A <= 1, friction at very high slip speed over mu0
  double B = 0.0;   // s/m, >= 0, how fast it falls
  [[nodiscard]] friend bool operator==(const Friction&, const Friction&) = default;
};

// Throws InputError when a member is outside its range.
void check(const Friction& friction);

// slip_speed (m/s, >= 0). Between A mu0 and mu0, never rising with the slip speed.
[[nodiscard]] inline double friction_coefficient(const Friction& f, double slip_speed) {
  return f.B == 0.0 || f.A == 1.0 ? f.mu0 : f.mu0 * ((1.0 - f.A) * std::exp(-f.B * slip_speed) + f.A);
}

} // namespace wingnose::contact
