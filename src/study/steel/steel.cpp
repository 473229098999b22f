#include "wingnose/study/steel.hpp"

#include "wingnose/numeric/overloaded.hpp"

#include <algorithm>
#include <optional>

namespace wingnose::study {

assess::ContactTrail contact_trail(const Case& c, const Geometry& g, const passage::History& history) {
  const double landing = landing_station(g);
  std::optional<contact::PathPatches> patches;
  const auto by_strips = [&](const contact::Strips&) {
    if (g.crossing) {
      const double around = std::max(c.damage.before, c.damage.after);
      patches.emplace(*g.path, *g.crossing, g.wheel, landing - around, landing + around, c.material);
    } else {
      patches.emplace(profile::rail_head(c.plain_rail.head, c.plain_rail.inclination), g.wheel, g.path->wheel_radius,
                      c.material);
    }
  };
  // An ellipse is that of the path.
  std::visit(overloaded{[](const contact::Ellipse&) {}, by_strips}, c.contact.law);
  return assess::contact_trail(history, *g.path, g.wheel, landing, c.material, c.damage, patches ? &*patches : nullptr);
}

assess::Damage damage(const Case& c, const Geometry& g, const passage::History& history) {
  return assess::damage(contact_trail(c, g, history), cases::steel_of(c), c.damage);
}

void add_steel(assess::Assessment& a, const Case& c, const assess::ContactTrail& trail) {
  a.steel = assess::steel_measures(trail, cases::steel_of(c), c.damage);
  append(a.findings, assess::findings_of_steel(trail, *a.steel));
}

void add_steel(assess::Assessment& a, const Case& c, const Geometry& g, const passage::History& history) {
  try {
    add_steel(a, c, contact_trail(c, g, history));
  } catch (const ComputeError& error) {
    a.findings.push_back({FindingKind::steel_unknown, error.what()});
  }
}

} // namespace wingnose::study
