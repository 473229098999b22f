// Crossing bodies from measured or drawn sections (CSV station_mm, y_mm, z_mm per body), lofted along the body.
// Frame and units: wingnose/words/frame.hpp. Each section is fitted with a spline that smooths by the stated noise; its
// running surface begins where the face turns into the head (flatter than 75 degrees), which is the running edge
// followed from station to station. Points far cleaner than stated are smoothed by what they scatter themselves, so
// that a drawn section keeps its shape. A body that widens (the nose) is matched feature by feature: edge, shoulder
// (where the rounding of the edge ends), crown (highest place), the shoulder of the far side; between two features, and
// on a rail of nearly constant section from the edge on, by arc length. Matched points follow a monotone C1 cubic along
// x, so that point counts and how far across each station was measured do not matter. Where sections are of different
// kinds, points are matched by their share of the arc alone, which is told (Crossing::findings).
//
// What sections cannot say: where between two stations a ramp or a plateau begins. A line that bends by an angle k at a
// place between stations h apart is off by up to k h / 4 there (12 um for 1 mrad and 50 mm);
// only closer stations help. from_sections() throws
// InputError with one message per mistake: points not finite, stations out of order, fewer than two stations or eight
// points, repeated points or points that double back, y or z implausible in millimetres, bodies that overlap, missing
// bodies.
#pragma once

#include "wingnose/words/finding.hpp"
#include "wingnose/words/range.hpp"

#include <string>
#include <vector>

namespace wingnose::layout {

struct Section {
  double station;           // m
  std::vector<double> y, z; // m, ordered across (either way), y from the track centre line
  [[nodiscard]] friend bool operator==(const Section&, const Section&) = default;
};
struct SectionedBody {
  std::string name; // "wing" or "nose"
  std::vector<Section> sections;
  [[nodiscard]] friend bool operator==(const SectionedBody&, const SectionedBody&) = default;
};
struct SectionedShape {
  std::string name = "measured crossing";
  double rate = 15.0;
  double gauge = 1.435; // m
  double noise = 2e-6;  // m, measurement noise per point (standard deviation)
  std::vector<SectionedBody> bodies;
  [[nodiscard]] friend bool operator==(const SectionedShape&, const SectionedShape&) = default;
};
constexpr auto ranges(const SectionedShape*) {
  return std::array{InRange{&SectionedShape::rate, "rate", "-", 4, 60},
                    InRange{&SectionedShape::gauge, "gauge", "m", 1.425, 1.470},
                    InRange{&SectionedShape::noise, "noise", "m", 0, 1e-3}};
}
// Sections that stand off the line of their neighbours on both sides, which a surface along the track rarely does.
[[nodiscard]] Findings section_findings(const SectionedShape& shape);
class LoftedBody; // see surface.hpp for what every body offers

} // namespace wingnose::layout
