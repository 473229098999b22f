// P1 and P2 at a dip after Jenkins, Stephenson, Clayton, Morland and Lyon (1974), with the TOTAL dip angle 2 alpha.
//
// P1 = P0 + 2a V sqrt(K_H m_e / (1 + m_e/M_u));  P2 = P0 + 2a V M C K, M = sqrt(M_u/(M_u+m_T2)),
// C = 1 - pi c_T2 / (4 sqrt(k_T2 (M_u+m_T2))), K = sqrt(k_T2 M_u). SI. An estimate with stated assumptions.
#pragma once

#include "wingnose/words/column.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace wingnose::closedform {

struct LumpedTrack {
  double m_T2; // kg, >= 0
  double k_T2; // N/m, > 0
  double c_T2; // N s/m, >= 0
};
inline constexpr double most_dip_angle = 0.1; // rad, beyond it the linear forms mean nothing

struct JointCase {
  double static_load;   // N per wheel, > 0
  double unsprung_mass; // kg per wheel, > 0
  double speed;         // m/s, 0 to 150
  double dip_angle;     // rad, total: slope down before plus slope up after, 0 to 0.1
  LumpedTrack track;
  double k_H = 1.4e9; // N/m, linearised contact stiffness, > 0
  double m_e = 40.0;  // kg, effective rail mass for P1, > 0
};
inline constexpr auto joint_columns = std::to_array<Column<JointCase>>(
    {{"static_load_kN", "static wheel load", "static wheel load put in", &JointCase::static_load, 2},
     {"unsprung_mass_kg", "unsprung mass per wheel", "unsprung mass put in", &JointCase::unsprung_mass, 0},
     {"speed_km_h", "speed", "speed put in", &JointCase::speed, 2},
     {"dip_angle_mrad", "total dip angle", "total dip angle put in", &JointCase::dip_angle, 2},
     {"contact_stiffness_GN_m", "contact stiffness, linearised", "contact stiffness put in", &JointCase::k_H, 3},
     {"effective_rail_mass_kg", "effective rail mass", "effective rail mass put in", &JointCase::m_e, 1}});
struct JointForces {
  double P1, P2;   // N
  double M, C, K;  // the factors of P2 (-, -, N s/m)
  double f2, zeta; // Hz, - : undamped frequency and damping ratio of the P2 mode
};
// Throws InputError for values out of the ranges above, ComputeError when the track is damped so heavily that the
// formula's first-order factor C is no longer positive.
[[nodiscard]] JointForces joint_forces(const JointCase&);

// Exact peaks of the same lumps (one mass M_u + m_T2 on k_T2, c_T2, set moving with 2aV M_u/(M_u + m_T2) by plastic
// momentum sharing), any damping. The contact force is that of the joint motion; the hammer blow of the momentum
// sharing itself (that is P1) is left out.
struct LumpedPeaks {
  double spring, spring_and_damper, contact;
};                                                        // N, including the static load
[[nodiscard]] LumpedPeaks lumped_peaks(const JointCase&); // throws InputError

// P1 with the nonlinear Hertz spring C_H (N/m^1.5), by energy: (2/5) C_H (d1^2.5 - d0^2.5) - P0 (d1 - d0) = m_r (2aV)^2
// / 2, with m_r = M_u m_e / (M_u + m_e). Throws InputError.
[[nodiscard]] double P1_hertz(const JointCase&, double C_H);

// Inverses for a limit on P2 (N). Throw ComputeError when even V -> 0 exceeds the limit, and InputError when the limit
// is not positive or nothing would limit the answer (no dip, or no speed).
[[nodiscard]] double permissible_speed(const JointCase&, double P2_limit);     // m/s; JointCase::speed is not used
[[nodiscard]] double permissible_dip_angle(const JointCase&, double P2_limit); // rad; JointCase::dip_angle is not used

// What the numbers rest on, as sentences to print beside them; adds a warning where the case strains the formula.
[[nodiscard]] std::vector<std::string> assumptions(const JointCase&);

struct ConstantSet {
  std::string name; // key used in case files
  LumpedTrack track;
  double dip_angle; // rad the standard uses, 0 if not known
  double limit;     // N, 0 if not known
  std::string source, status;
};
[[nodiscard]] const std::vector<ConstantSet>& constant_sets();
[[nodiscard]] const ConstantSet& constant_set(std::string_view name); // throws InputError listing the names

} // namespace wingnose::closedform
