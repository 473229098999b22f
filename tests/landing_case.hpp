// A short passage over the default crossing, landing included, for tests of the contact in it.
#pragma once

#include "wingnose/study/case.hpp"

namespace cases {

inline wingnose::study::Case landing(wingnose::contact::NormalLaw law, double lateral_offset = 0.0) {
  wingnose::study::Case c;
  c.vehicle = wingnose::vehicle::preset("wheel");
  c.normal_law = law;
  c.lateral_offset = lateral_offset;
  c.track.bays = 24;
  c.track.elements_per_bay = 4;
  c.passage.from = -0.8;
  c.passage.to = 1.0;
  c.passage.speed = 30.0;
  c.passage.probes = false;
  c.measures.window = 0.015;
  return c;
}

} // namespace cases
