// Crossing bodies from measured or drawn sections (CSV station_mm, y_mm, z_mm per body), lofted along the body.
// Frame and units: wingnose/frame.hpp. Sections are resampled by arc length from the running edge before lofting.
#pragma once

#include <string>
#include <vector>

namespace wingnose::crossing {

struct Section {
  double station;           // m
  std::vector<double> y, z; // m, ordered across from the running edge
};
struct SectionedBody {
  std::string name; // "wing" or "nose"
  std::vector<Section> sections;
};
struct SectionedShape {
  std::string name = "measured crossing";
  double rate = 15.0;
  double gauge = 1.435; // m
  double noise = 2e-6;  // m, measurement noise per point (standard deviation)
  std::vector<SectionedBody> bodies;
};
class LoftedBody; // see surface.hpp for what every body offers

} // namespace wingnose::crossing
