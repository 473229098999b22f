// The law of creep on a surface whose friction is not that of the law: a body's own, see contact::Lie.
#pragma once

#include "wingnose/contact/space/wheelset_contact.hpp"

#include <variant>

namespace wingnose::contact {

// What creepage gives on a body (index among the bodies of the set). Nothing is allocated.
[[nodiscard]] inline CreepForce creep_on(const WheelsetOnBodies& set, int body, const RollingContact& under,
                                         const Creepage& creepage, double speed, StripWorkspace& strips) {
  const double friction = set.lie.empty() || body < 0 ? 1.0 : set.lie[static_cast<std::size_t>(body)].friction;
  if (friction == 1.0) {
    return creep_force(set.law, under, creepage, speed, strips);
  }
  CreepLaw law = set.law;
  std::visit([friction](auto& one) { one.friction.mu0 *= friction; }, law);
  return creep_force(law, under, creepage, speed, strips);
}

} // namespace wingnose::contact
