// Beam on elastic foundation (Winkler 1867, Zimmermann 1888) and the lumped track derived from it.
// SI; per rail. k is the foundation modulus per metre of rail (N/m2).
#pragma once

#include "wingnose/closedform/joint_forces.hpp"

namespace wingnose::closedform {

struct FoundationBeam {
  double EI; // N m2, vertical bending stiffness of the rail, above 0
  double k;  // N/m2, above 0; seats of stiffness K (N/m) at spacing a (m) smear to K / a
};
// All functions throw InputError on values that are not finite or out of range.

// (4 EI / k)^(1/4), m.
[[nodiscard]] double characteristic_length(const FoundationBeam&);
// Deflection (m, downward positive) and bending moment (N m, foot in tension positive) at distance x (m, any sign) from
// a point load (N). Zimmermann 1888.
[[nodiscard]] double deflection(const FoundationBeam&, double load, double x);
[[nodiscard]] double moment(const FoundationBeam&, double load, double x);
// Load over deflection under the load, N/m.
[[nodiscard]] double point_stiffness(const FoundationBeam&);
// Critical speed (m/s) of a constant load on the undamped beam of mass_per_m (kg/m), and the factor on static
// deflection and moment under a load at `speed` below it. Fryba 1972
// (doi:10.1007/978-94-011-9685-7).
[[nodiscard]] double critical_speed(const FoundationBeam&, double mass_per_m);
[[nodiscard]] double moving_load_factor(double speed, double critical_speed);

// Lumps equivalent under the load: k_T2 = point stiffness; mass and damping by the static shape squared (kinetic energy
// and dissipation of the whole track in that shape): mass_per_m and damping_per_m (N s/m2) of rail + sleepers per rail.
[[nodiscard]] LumpedTrack lumped_track(const FoundationBeam&, double mass_per_m, double damping_per_m);

// Effective rail mass (kg) for P1: the mass whose inertia equals the reactance of an infinite free beam at `frequency`
// (Hz), 2 m' / k_b with k_b = (m' omega^2 / EI)^(1/4), m' in kg/m.
[[nodiscard]] double effective_rail_mass(double EI, double mass_per_m, double frequency);

// Pinned-pinned frequency (Hz) of a Timoshenko beam, half wave = bearer spacing (m): the lower (bending) root.
// EI N m2, kappa_GA N, rho_A kg/m, rho_I kg m (0 allowed). Timoshenko 1921 (doi:10.1080/14786442108636264).
[[nodiscard]] double pinned_pinned_frequency(double EI, double kappa_GA, double rho_A, double rho_I, double spacing);

} // namespace wingnose::closedform
