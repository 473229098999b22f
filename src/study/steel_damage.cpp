#include "wingnose/study/steel_damage.hpp"

#include "wingnose/numeric/overloaded.hpp"

#include <algorithm>
#include <optional>

namespace wingnose::study {

assess::ContactTrail contact_trail(const Case& c, const Result& result) {
  const Geometry& g = result.geometry;
  const double landing = landing_station(g);
  std::optional<contact::PathPatches> patches;
  const auto by_strips = [&](const contact::Strips&) {
    if (g.crossing) {
      const double around = std::max(c.damage.before, c.damage.after);
      patches.emplace(*g.path, *g.crossing, c.wheel, landing - around, landing + around, c.steel);
    } else {
      patches.emplace(profile::rail_head(c.rail_head, c.rail_inclination), c.wheel, g.path->wheel_radius, c.steel);
    }
  };
  // An ellipse is that of the path.
  std::visit(overloaded{[](const contact::Ellipse&) {}, by_strips}, c.normal_law);
  return assess::contact_trail(result.history, *g.path, c.wheel, landing, c.steel, c.damage,
                               patches ? &*patches : nullptr);
}

assess::Damage damage(const Case& c, const Result& result) {
  return assess::damage(contact_trail(c, result), c.grade, c.damage);
}

} // namespace wingnose::study
