// Simplified theory of rolling contact: the patch in strips along the rolling direction, marched from the leading edge.
//
// Kalker 1982, "A fast algorithm for the simplified theory of rolling contact", Vehicle System Dynamics 11, 1-13,
// doi:10.1080/00423118208968684: the surface deflects only where it is loaded, u = L p. In a strip at y, x falling from
// the leading to the trailing edge,
//   adhesion   dp_x/dx = xi / L1 - phi y / L3,  dp_y/dx = eta / L2 + phi x / L3
//   bound      |p| <= mu p_z, p_z a parabola along each strip (with an elliptic one slip would start too late)
// and where the bound is met the traction keeps its direction and is cut to it. The flexibilities make the
// small-creepage forces those of the linear theory: L1 = 8a / (3 G C11), L2 = 8a / (3 G C22),
// L3 = pi a^2 / (4 G C23 sqrt(ab)). Trust: Kalker (1990) states about 5 % of mu N against the exact theory, up to 10 to
// 15 % with large spin; the moment is not fitted to C33. With three flexibilities full sliding is directed against
// (xi / L1, eta / L2), with one exactly against the slip. Frame and signs: contact/creepage.hpp; x = y = 0 is where the
// creepages are taken. SI.
#pragma once

#include "wingnose/contact/tangential/creepage.hpp"
#include "wingnose/contact/tangential/friction.hpp"
#include "wingnose/contact/tangential/kalker.hpp"

#include <vector>

namespace wingnose::contact {

struct Flexibilities {
  double L1, L2, L3; // m3/N, all > 0
};
[[nodiscard]] Flexibilities flexibilities(const RollingContact& contact);
// One for all, weighted by the creepages (Kalker 1982): (|xi| L1 + |eta| L2 + |phi| sqrt(ab) L3) / their norm. Without
// creepage L1.
[[nodiscard]] Flexibilities single_flexibility(const RollingContact& contact, const Creepage& creepage);

struct Simplified {
  Friction friction;
  int strips = 20;                 // -, 3 .. 400, across an elliptic patch
  int cells = 20;                  // -, 3 .. 400, along each strip
  bool single_flexibility = false; // one weighted flexibility instead of three
  [[nodiscard]] friend bool operator==(const Simplified&, const Simplified&) = default;
};
// Throws InputError when a member is outside its range.
void check(const Simplified& law);

// A patch of any outline: strips along x. Vectors of equal length, one value per strip.
struct StripPatch {
  std::vector<double> y;     // m, mid-line
  std::vector<double> width; // m, > 0
  std::vector<double> lead;  // m, leading edge
  std::vector<double> trail; // m, trailing edge, < lead
  std::vector<double> peak;  // Pa, >= 0, of the parabola: 3/2 of the strip's force over its area
};
// Throws InputError when lengths differ or a value is outside its range.
void check(const StripPatch& patch);
// The strips of an ellipse, narrower towards its tips; their forces sum up to the normal force.
[[nodiscard]] StripPatch elliptic_strips(const RollingContact& contact, int strips);

// What an evaluation needs, sized once; after it the tractions, [cell from the leading edge * strips + strip].
struct StripWorkspace {
  StripPatch patch;
  std::vector<double> traction_x, traction_y; // Pa, on the wheel, at the middle of each cell
  std::vector<double> slip_share;             // -, 0 in adhesion, otherwise the part of the traction cut off
  std::vector<double> sums;                   // internal: one row per strip
};
[[nodiscard]] StripWorkspace make_workspace(int strips, int cells);
[[nodiscard]] StripWorkspace make_workspace(const Simplified& law);

struct StripForce {
  CreepForce force;
  double friction_power; // W, >= 0, dissipated in the areas of slip
  double slip_area;      // -, 0 .. 1, share of the patch that slips
};

// Elliptic contact. law checked, speed > 0 (m/s), workspace from make_workspace(law). No allocation.
[[nodiscard]] StripForce simplified_creep_force(const Simplified& law, const RollingContact& contact,
                                                const Creepage& creepage, double speed, StripWorkspace& workspace);

// Any patch (checked), friction coefficient mu > 0. workspace: from make_workspace(strips of the patch, cells).
[[nodiscard]] StripForce strip_creep_force(const StripPatch& patch, const Flexibilities& L, double mu, int cells,
                                           const Creepage& creepage, double speed, StripWorkspace& workspace);

} // namespace wingnose::contact
