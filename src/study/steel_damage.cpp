#include "wingnose/study/steel_damage.hpp"

#include <algorithm>
#include <optional>

namespace wingnose::study {

assess::ContactTrail contact_trail(const Case& c, const Result& result) {
  const Geometry& g = result.geometry;
  const double landing = landing_station(g);
  std::optional<contact::PathPatches> patches;
  if (std::holds_alternative<contact::Strips>(c.normal_law)) {
    if (g.crossing) {
      const double around = std::max(c.damage.before, c.damage.after);
      patches.emplace(*g.path, *g.crossing, c.wheel, landing - around, landing + around, c.steel);
    } else {
      patches.emplace(profile::rail_head(c.rail_head, c.rail_inclination), c.wheel, g.path->wheel_radius, c.steel);
    }
  }
  return assess::contact_trail(result.history, *g.path, c.wheel, landing, c.steel, c.damage,
                               patches ? &*patches : nullptr);
}

assess::Damage damage(const Case& c, const Result& result) {
  return assess::damage(contact_trail(c, result), c.grade, c.damage);
}

} // namespace wingnose::study
