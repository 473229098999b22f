// Beam on elastic foundation (Winkler 1867, Zimmermann 1888) and the lumped track derived from it.
// SI; per rail. k is the foundation modulus per metre of rail (N/m2).
#pragma once

#include "wingnose/closedform/joint_forces.hpp"

namespace wingnose::closedform {

struct FoundationBeam {
  double EI;
  double k;
};                                                                             // N m2, N/m2
[[nodiscard]] double characteristic_length(const FoundationBeam&);             // m, (4 EI / k)^(1/4)
[[nodiscard]] double deflection(const FoundationBeam&, double load, double x); // m at distance x, downward positive
[[nodiscard]] double moment(const FoundationBeam&, double load, double x);     // N m
[[nodiscard]] double point_stiffness(const FoundationBeam&);                   // N/m
[[nodiscard]] double critical_speed(const FoundationBeam&, double mass_per_m); // m/s, Fryba; moving-load factor below
[[nodiscard]] double moving_load_factor(double speed, double critical_speed);

// Lumps equivalent under the load: k_T2 = point stiffness; mass and damping by the static shape squared (kinetic energy
// and dissipation of the whole track in that shape): mass_per_m and damping_per_m (N s/m2) of rail + sleepers per rail.
[[nodiscard]] LumpedTrack lumped_track(const FoundationBeam&, double mass_per_m, double damping_per_m);

// Pinned-pinned frequency (Hz) of a Timoshenko beam, half wave = bearer spacing.
[[nodiscard]] double pinned_pinned_frequency(double EI, double kappa_GA, double rho_A, double rho_I, double spacing);

} // namespace wingnose::closedform
