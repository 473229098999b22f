// What each contact of a passage means for the steel it meets, contact by contact: the values whose largest ones are
// the peaks of Damage (damage.hpp), in the order of the trail's steps. SI.
#pragma once

#include "wingnose/assess/damage.hpp"

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
