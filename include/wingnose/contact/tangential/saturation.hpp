// Creep force laws: how the linear creep force bends towards the friction limit. One closed choice for the passage.
//
// Contracts, tested law by law in tests/identities/contact_saturation.cpp, N the normal force, mu the friction:
//   Cubic        Vermeulen and Johnson 1964 (doi:10.1115/1.3629610); with Kalker's coefficients and spin: Shen, Hedrick
//                and Elkins 1983.
//                |F| = mu N (u - u^2/3 + u^3/27), u = |linear force| / (mu N), mu N from u = 3 on; direction of the
//                linear force. |F| never exceeds mu N and never falls with u; slopes at no creepage are Kalker's.
//                Small spin only: when spin alone saturates, the force wrongly stays at mu N.
//   Polach       Polach 2000 and 2005 (Wear 258, 992-1000), with his own spin force; direction opposite to the slip.
//                |F| <= mu N; it approaches mu N without reaching it. Slopes are Kalker's for each creepage alone if
//                kA = kS = 1; smaller ones fit measurements on contaminated rail: kS <= kA <= 1. Falling friction.
//   Simplified   Kalker 1982, strips (contact/simplified_theory.hpp): any mix of creepage and spin.
// Farthest from exact rolling on the half-space, round contact, in mu N (tests/convergence/contact_rolling.cpp):
// without spin cubic 0.03, Polach 0.06, simplified 0.05; with spin up to mu N / (G a^3) simplified 0.12, Polach 0.28.
// The first two give no moment of their own; theirs is the linear moment reduced like the force, an estimate.
// Slip speed for the friction: V times (xi, eta). Frame and signs: contact/creepage.hpp. SI.
#pragma once

#include "wingnose/contact/tangential/creepage.hpp"
#include "wingnose/contact/tangential/friction.hpp"
#include "wingnose/contact/tangential/kalker.hpp"
#include "wingnose/contact/tangential/simplified_theory.hpp"
#include "wingnose/words/names.hpp"

#include <array>
#include <cstddef>
#include <variant>

namespace wingnose::contact {

struct Cubic {
  Friction friction;
  [[nodiscard]] friend bool operator==(const Cubic&, const Cubic&) = default;
};
struct Polach {
  Friction friction;
  double kA = 1.0; // -, 0 < kA <= 1, reduction in the area of adhesion
  double kS = 1.0; // -, 0 < kS <= kA, reduction in the area of slip
  [[nodiscard]] friend bool operator==(const Polach&, const Polach&) = default;
};
// Polach 2005, recommended sets (quoted from memory, of medium trust).
inline constexpr Polach polach_dry{{0.55, 0.40, 0.60}, 1.00, 0.40};
inline constexpr Polach polach_wet{{0.30, 0.40, 0.20}, 0.30, 0.10};

using CreepLaw = std::variant<Cubic, Polach, Simplified>;
constexpr auto names(const CreepLaw&) {
  const std::array table{Name{std::size_t{0}, "cubic", "cubic saturation of the linear force"},
                         Name{std::size_t{1}, "polach", "Polach's formula, friction may fall with the slip"},
                         Name{std::size_t{2}, "simplified", "Kalker's simplified theory in strips"}};
  static_assert(table.size() == std::variant_size_v<CreepLaw>);
  return table;
}

// Throws InputError when a member of the law is outside its range. Once, before the time loop.
void check(const CreepLaw& law);

// |F| / (mu N) for the linear force u = |F_linear| / (mu N) >= 0, without spin.
[[nodiscard]] double cubic_saturation(double u);
[[nodiscard]] double polach_saturation(double u, double kA = 1.0, double kS = 1.0);

// speed: m/s, of travel, > 0. law checked, contact from rolling_contact; nothing is allocated, nothing thrown.
[[nodiscard]] CreepForce creep_force(const Cubic& law, const RollingContact& contact, const Creepage& creepage,
                                     double speed);
[[nodiscard]] CreepForce creep_force(const Polach& law, const RollingContact& contact, const Creepage& creepage,
                                     double speed);
// workspace: from make_workspace(law); unused by the closed formulas.
[[nodiscard]] CreepForce creep_force(const CreepLaw& law, const RollingContact& contact, const Creepage& creepage,
                                     double speed, StripWorkspace& workspace);
[[nodiscard]] StripWorkspace make_workspace(const CreepLaw& law);

} // namespace wingnose::contact
