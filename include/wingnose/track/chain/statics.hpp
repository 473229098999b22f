// Rest of a chain under loads, and what its parts feel at rest or in motion: deflections, forces, moments. SI, downward
// positive, laterally towards +y.
//
// Everything is counted from the track under its own weight: deflections and forces are what loads add. Where gaps and
// clips make the track nonlinear, that state decides which of them are closed; dead_weight() gives it by itself.
#pragma once

#include "wingnose/track/chain/factor.hpp"

#include <span>
#include <vector>

namespace wingnose::track::chain {

struct Load {
  int rail;
  double x, force; // m, N
  Plane plane = Plane::vertical;
};

// Displacements and velocities of all unknowns, layout as Field; deviation of every link from its spring and dashpot.
struct Motion {
  Eigen::VectorXd seat, bay, bearer, seat_rate, bay_rate, bearer_rate;
  std::vector<double> link; // N
  explicit Motion(const Chain& chain);
};

// Rest under loads, exact but for the shapes of bearers. Throws ComputeError when nothing holds the track, or where
// the places that touch cannot be found.
[[nodiscard]] Motion at_rest(const Chain& chain, std::span<const Load> loads);
// The track under its own weight, from where it would lie without.
[[nodiscard]] Motion dead_weight(const Chain& chain);
// Static deflection (m) of rails at points under loads, exact inside loaded bays too.
[[nodiscard]] std::vector<double> static_deflection(const Chain& chain, std::span<const Load> loads,
                                                    std::span<const RailPoint> at);
// Load over deflection under it (N/m), at every station of `x` in turn: static stiffness along the track.
[[nodiscard]] std::vector<double> static_stiffness(const Chain& chain, int rail, double load, std::span<const double> x,
                                                   Plane plane = Plane::vertical);

// Of a motion. bearer: index; y: m across, on a bearer that is a beam (throws InputError elsewhere).
[[nodiscard]] double rail_deflection(const Chain&, const Motion&, const RailPoint&);   // but for a force's own residual
[[nodiscard]] double rail_velocity(const Chain&, const Motion&, const RailPoint&);     // m/s
[[nodiscard]] double seat_velocity(const Chain&, const Motion&, int bearer, int rail); // of the bearer there, m/s
[[nodiscard]] double seat_deflection(const Chain&, const Motion&, int bearer, int rail,
                                     Plane = Plane::vertical); // of the bearer there, m; at the rail's height
[[nodiscard]] double seat_force(const Chain&, const Motion&, int bearer, int rail,
                                Plane = Plane::vertical);                                  // in the pad, N
[[nodiscard]] std::vector<double> ballast_forces(const Chain&, const Motion&, int bearer); // N, at every spot
[[nodiscard]] double ballast_force(const Chain&, const Motion&, int bearer, Plane = Plane::vertical); // N, in all
[[nodiscard]] double ballast_pressure(const Chain&, const Motion&, int bearer);                       // Pa, largest
[[nodiscard]] double bearer_deflection(const Chain&, const Motion&, int bearer, double y);            // m
// -, dw/dy, by which it leans; exact as its deflection under rails and at its ends, to some 1e-3 of itself between.
[[nodiscard]] double bearer_slope(const Chain&, const Motion&, int bearer, double y);
[[nodiscard]] double bearer_shift(const Chain&, const Motion&, int bearer); // m; throws InputError unless lateral
[[nodiscard]] double bearer_moment(const Chain&, const Motion&, int bearer, double y); // N m, tension below positive
[[nodiscard]] double bearer_strain(const Chain&, const Motion&, int bearer, double y); // -, lower fibre, tension +
// Bending moment of a rail under a wheel, N m, tension at the foot positive. force: of that wheel (N), whose own bay
// bends under it as at rest with held ends, but for what its modes tell already; of other wheels in the bay the modes
// tell alone.
[[nodiscard]] double rail_moment(const Chain&, const Motion&, const RailPoint&, double force);
[[nodiscard]] const RailProperties& rail_section(const Chain&, const RailPoint&);
[[nodiscard]] double energy(const Chain&, const Motion&); // J, of the linear track: motion, bending, springs

[[nodiscard]] double damping_power(const Chain&, const Motion&); // W, of the linear track: pads and ballast, >= 0

// Receptance between points (m/N) at each frequency (Hz), loss factors included, gaps taken as closed.
[[nodiscard]] std::vector<Complex> receptance(const Chain& chain, const RailPoint& load, const RailPoint& at,
                                              std::span<const double> frequency);
// The same with the answer on a bearer, at y across it (its seat of that rail when lumped: y is not read).
[[nodiscard]] std::vector<Complex> bearer_receptance(const Chain& chain, const RailPoint& load, int bearer, int rail,
                                                     double y, std::span<const double> frequency);

namespace detail {
void settle(Chain& chain); // fills the shortenings and forces of links under the track's own weight
}

} // namespace wingnose::track::chain
