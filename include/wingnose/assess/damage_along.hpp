// What each contact of a passage means for the steel it meets, contact by contact: the values whose largest ones are
// the peaks of Damage (damage.hpp), in the order of the trail's steps. SI.
#pragma once

#include "wingnose/assess/damage.hpp"
#include "wingnose/words/column.hpp"

#include <span>
#include <vector>

namespace wingnose::assess {

struct SteelUnderContact {
  double wheels;          // -, that have loaded the place before
  double shear_yield;     // Pa, of the steel there
  double hardness;        // Pa, likewise
  double traction;        // -, creep force over normal force
  double load_factor;     // -, p0 / k
  double shakedown_limit; // -, of the load factor, elastic shakedown at this traction
  double shakedown;       // -, load factor over that limit, above 1 is plastic
  double fatigue_index;   // -, surface
  double t_gamma;         // N (J/m)
  double crack_damage;    // -, per wheel
};
inline constexpr auto steel_columns = std::to_array<Column<SteelUnderContact>>(
    {{"traction_coefficient", "traction coefficient", "creep force over normal force", &SteelUnderContact::traction, 3},
     {"load_factor", "load factor", "peak pressure over the yield in shear of the new steel",
      &SteelUnderContact::load_factor, 2},
     {"shakedown_exceedance", "shakedown exceedance", "load factor over its elastic shakedown limit",
      &SteelUnderContact::shakedown, 2},
     {"surface_fatigue_index", "surface fatigue index",
      "traction coefficient less k/p0 (Ekberg, Kabo and Andersson 2002)", &SteelUnderContact::fatigue_index, 3},
     {"t_gamma_N", "T-gamma", "creep force times creepage, without the spin moment", &SteelUnderContact::t_gamma, 1},
     {"crack_damage_1e_6", "crack damage", "crack function of T-gamma per wheel (Burstow 2004, for R260)",
      &SteelUnderContact::crack_damage, 2}});
// The same of the steel at the begin of a stage of a traffic.
inline constexpr auto hardening_columns = std::to_array<Column<SteelUnderContact>>(
    {{"shear_yield_MPa", "shear yield", "yield in shear for the case's own wheel at the begin of each stage",
      &SteelUnderContact::shear_yield, 0},
     {"shakedown_exceedance", "shakedown exceedance",
      "load factor over its elastic shakedown limit for the case's own wheel at the begin of each stage",
      &SteelUnderContact::shakedown, 2},
     {"surface_fatigue_index", "surface fatigue index",
      "surface fatigue index for the case's own wheel at the begin of each stage", &SteelUnderContact::fatigue_index,
      3}});

// One per step of the trail. before: maps of the traffic so far (same bodies), nullptr: new steel. share: of that
// traffic which has rolled when the contact comes, >= 0. Throws InputError as damage does.
[[nodiscard]] std::vector<SteelUnderContact> steel_along(const ContactTrail& trail, const Steel& steel,
                                                         const DamageOptions& options,
                                                         const std::vector<DamageMap>* before = nullptr,
                                                         double share = 1.0);

// Damage of the same passage after several shares of a traffic: what damage tells, once per share, at little more than
// the cost of one, as the sliding does not depend on the steel. before: not null where a share is above 0.
[[nodiscard]] std::vector<Damage> damage_after(const ContactTrail& trail, const Steel& steel,
                                               const DamageOptions& options, const std::vector<DamageMap>* before,
                                               std::span<const double> shares);
// How many wheels load each node in one passage: maps with that count alone, 0 or 1.
[[nodiscard]] std::vector<DamageMap> loaded_places(const ContactTrail& trail, const DamageOptions& options);

} // namespace wingnose::assess
