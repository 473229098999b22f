#include "wingnose/assess/damage_along.hpp"

#include "wingnose/words/error.hpp"

#include <cmath>

namespace wingnose::assess {
std::vector<SteelUnderContact> steel_along(const ContactTrail& trail, const Steel& steel, const DamageOptions& o,
                                           const std::vector<DamageMap>* before, double share) {
  check(o);
  check(steel);
  if (before != nullptr && before->size() != trail.bodies.size()) {
    throw InputError("maps of the traffic so far", std::to_string(before->size()) + " bodies",
                     std::to_string(trail.bodies.size()) + " bodies", "Take the maps of the same crossing.");
  }
  if (!(share >= 0.0 && std::isfinite(share))) {
    throw InputError("share of the traffic so far", number(share), "0 or more", "1 is all of it.");
  }
  const ShakedownMap& limits = shakedown_map(o.shakedown_shape);
  std::vector<SteelUnderContact> along;
  along.reserve(trail.steps.size());
  for (const RollingStep& s : trail.steps) {
    SteelUnderContact at{};
    if (before != nullptr) {
      const DamageMap& map = (*before)[s.body];
      at.wheels = share * nearest(map.grid, map.wheels, s.x, s.y);
    }
    at.shear_yield = shear_yield(steel, at.wheels);
    at.hardness = wear_hardness(steel, at.wheels);
    at.traction = std::hypot(s.force.longitudinal, s.force.lateral) / s.normal_force;
    at.load_factor = s.patch.peak_pressure / at.shear_yield;
    at.shakedown_limit = limits.elastic_shakedown(at.traction);
    at.shakedown = at.load_factor / at.shakedown_limit;
    at.fatigue_index = surface_fatigue_index(at.traction, s.patch.a_x, s.patch.a_y, at.shear_yield, s.normal_force);
    at.t_gamma =
        std::abs(s.force.longitudinal * s.creepage.longitudinal) + std::abs(s.force.lateral * s.creepage.lateral);
    at.crack_damage = crack_damage(at.t_gamma, o.cracks);
    along.push_back(at);
  }
  return along;
}

} // namespace wingnose::assess
