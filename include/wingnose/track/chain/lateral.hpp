// What bends and shifts across the track: the second plane of a chain::Model. All of it or none.
//
// Kinematics, small motion; y across (as Bearer), w downward, w' = dw/dy along the bearer, v towards +y:
//  - A bearer is rigid along its own axis: one shift v. Where it slopes, what stands at height z above its neutral line
//    goes to v + z w' (its upper side leans towards where it is lower).
//  - A rail is a line that bends laterally (Timoshenko), at the height where wheels push it sideways; its lateral
//    inertia acts there. It leans with the bearer under its seat and by the roll of its fastening; **its torsion
//    between seats is left out**: each seat takes the couple of the lateral force it takes.
//  - Fastening: e = v_rail - (v + (height + pad_above) w'). Lateral spring and roll spring act in series on e:
//    1/k = 1/stiffness + height^2/roll_stiffness; their dashpots as one, exact in slow motion or where damping over
//    stiffness is the same for both (20 kN s/m on 40 MN/m over 300 N m s on 0.4 MN m: 0.7 % of receptance at 100 Hz).
//  - Ballast resists v - ballast_below w' along the bearer. It neither slides nor lets go, whatever the vertical does.
// So a lateral force H gives the bearer a couple H (height + pad_above) at its seats. Vertical forces act in the plane
// of the seat whatever leans: terms of second order (load times lean) are left out, and so are yaw of bearers and the
// fastening's resistance to the rail's rotation about z. SI.
#pragma once

#include <optional>

namespace wingnose::track::chain {

// Beside RailProperties, whose mass it shares.
struct LateralRail {
  double EI = 0.0;       // N m2, about the vertical axis, > 0
  double kappa_GA = 0.0; // N, > 0
  double rho_I = 0.0;    // kg m, 0 or above
  [[nodiscard]] friend bool operator==(const LateralRail&, const LateralRail&) = default;
};

struct LateralRailZone {
  double begin, end; // m
  LateralRail rail;
  [[nodiscard]] friend bool operator==(const LateralRailZone&, const LateralRailZone&) = default;
};

// Of a rail seat: pad and fastening together.
struct LateralSeat {
  double stiffness = 0.0;                              // N/m, > 0
  double damping = 0.0;                                // N s/m
  double loss = 0.0;                                   // -, receptance only; of roll too
  double height = 0.0;                                 // m, of the rail's line above the pad
  std::optional<double> roll_stiffness = std::nullopt; // N m/rad, > 0; nullopt: the rail leans as the bearer does
  double roll_damping = 0.0;                           // N m s/rad
  [[nodiscard]] friend bool operator==(const LateralSeat&, const LateralSeat&) = default;
};

// Of a bearer. A lumped one, per rail, does not lean: its two heights are not read.
struct LateralBearer {
  double stiffness = 0.0;     // N/m2, ballast per metre of bearer (N/m under a lumped bearer)
  double damping = 0.0;       // N s/m2 (N s/m)
  double loss = 0.0;          // -, receptance only
  double pad_above = 0.0;     // m, from the neutral line up to the pads
  double ballast_below = 0.0; // m, from the neutral line down to where ballast resists
  [[nodiscard]] friend bool operator==(const LateralBearer&, const LateralBearer&) = default;
};

} // namespace wingnose::track::chain
