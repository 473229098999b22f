#include "wingnose/study/steel.hpp"

#include "wingnose/numeric/overloaded.hpp"

#include <algorithm>
#include <limits>
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
  assess::DamageOptions options = c.damage;
  // The widest spacings allowed: peaks and sums do not depend on the maps, only the time to fill them does.
  options.spacing_x = 0.1;
  options.spacing_y = 0.05;
  assess::SteelMeasures measures = assess::damage(trail, cases::steel_of(c), options);
  measures.wear_depth = {};
  measures.wear_depth.value = std::numeric_limits<double>::quiet_NaN(); // that does depend on them
  const Findings found = assess::findings_of_steel(trail, measures);
  a.findings.insert(a.findings.end(), found.begin(), found.end());
  a.steel = std::move(measures);
}

void add_steel(assess::Assessment& a, const Case& c, const Geometry& g, const passage::History& history) {
  try {
    add_steel(a, c, contact_trail(c, g, history));
  } catch (const ComputeError& error) {
    a.findings.push_back({FindingKind::steel_unknown, error.what()});
  }
}

std::vector<std::string> steel_assumptions() {
  return {
      "the wheelset runs straight without lateral motion, held in the yaw of its case: lateral creepage is that angle "
      "of attack (0 without wheel.yaw_mrad) and spin comes from the contact angle; curving and wheels out of line do "
      "more to the steel than is told here",
      "friction is that of the case all along the way; creep forces are those of steady rolling at each instant",
      "pressures are elastic, by the case's law of contact on a half-space, and the shape does not change: beyond "
      "shakedown the steel flows until real pressures are lower",
      "wear is read at the run-in pressure, not above the shakedown limit times the yield in shear, unless the case "
      "says otherwise; that is an assumption of this program. Wear volumes are known to a factor of about two in "
      "severe and five in mild wear; their ratios between crossings are better known than they are",
      "the crack function is that published for R260 rail in curves; other steels crack at other values"};
}

} // namespace wingnose::study
