// A short passage over the default crossing, landing included, for tests of the contact in it.
#pragma once

#include "wingnose/study/run.hpp"

namespace landing_case {

inline wingnose::cases::Case landing(wingnose::contact::NormalLaw law, double lateral_offset = 0.0) {
  wingnose::cases::Case c;
  c.contact.law = law;
  c.wheel.lateral_offset = lateral_offset;
  c.track.bays = 24;
  c.track.elements_per_bay = 4;
  c.passage.from = -0.8;
  c.passage.to = 1.0;
  c.passage.speed = 30.0;
  c.passage.probes = false;
  c.measures.window = 0.015;
  return c;
}

} // namespace landing_case
