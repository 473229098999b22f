// What a section shows of its own shape, and what neighbouring sections can be matched by: running edge, shoulder,
// crown, and the shoulder on the far side. Between shoulder and far shoulder lies the plateau, however narrow.
#pragma once

#include "section_fit.hpp"

#include <optional>
#include <string>
#include <vector>

namespace wingnose::layout {

struct FeaturePlace {
  double at;     // m of arc from the running edge
  double unsure; // m, how far off it may be read, > 0
};
struct SectionFeatures {
  // Where the rounding of the edge ends: there the curvature falls from that of the corner to that of the head. Nothing
  // where the section does not turn from a face into a head.
  std::optional<FeaturePlace> shoulder;
  std::optional<FeaturePlace> crown; // highest place, where the head falls from it to both sides
  std::optional<FeaturePlace> far_shoulder;
  double pitch = 0.0; // m, mean distance of the points measured
  bool face = false;  // the surface begins at a face, not where the measurement does
};
[[nodiscard]] SectionFeatures features_of(const SmoothSection& section);

// What the sections of one body are matched by: at each station the places (m of arc from the running edge) that belong
// together, from 0 to its length, as many everywhere. Between two of them points are matched by their share of the arc.
// Places are smoothed along the track by as much as they are unsure: what belongs together has to move steadily,
// wherever exactly it lies.
// Where the far shoulder lies beyond what was measured at a station, it is put as far behind the shoulder as at the
// nearest station that shows it. Where sections are of different kinds - only some begin at a face, or show a shoulder
// - nothing but the two ends is matched, and `unlike` holds the stations of the rarer kind and `why` what they are.
struct Matching {
  std::vector<std::vector<double>> marks;
  std::vector<std::size_t> unlike;
  std::string why; // "begin on the rounding of the edge, others at its face"
};
[[nodiscard]] Matching matched(std::vector<SectionFeatures> features, const std::vector<double>& stations,
                               const std::vector<double>& lengths);

} // namespace wingnose::layout
