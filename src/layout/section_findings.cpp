#include "wingnose/layout/sections.hpp"
#include "wingnose/words/number.hpp"

#include <algorithm>
#include <cmath>

namespace wingnose::layout {
namespace {

constexpr double noticed = 0.2e-3;  // m: on sections 10 mm apart a change of slope of 40 mrad
constexpr double share_left = 0.3;  // of what a step at one section shows at its neighbours, at least
constexpr int samples_between = 21; // across what three sections share

// Height at y, straight between points in either order.
double height_at(const Section& s, double y) {
  const bool rising = s.y.back() > s.y.front();
  for (std::size_t i = 1; i < s.y.size(); ++i) {
    const std::size_t a = rising ? i - 1 : i, b = rising ? i : i - 1;
    if (y >= s.y[a] && y <= s.y[b] && s.y[b] > s.y[a]) {
      return std::lerp(s.z[a], s.z[b], (y - s.y[a]) / (s.y[b] - s.y[a]));
    }
  }
  return std::nan("");
}

// Mean height of a section over the line between its neighbours, on the upper half of the width they share: faces
// that run aside along the track would read as steps.
double over_neighbours(const Section& before, const Section& here, const Section& after) {
  double low = -1e9, high = 1e9;
  for (const Section* s : {&before, &here, &after}) {
    const auto [left, right] = std::minmax_element(s->y.begin(), s->y.end());
    low = std::max(low, *left);
    high = std::min(high, *right);
  }
  const double u = (here.station - before.station) / (after.station - before.station);
  double sum = 0.0, count = 0.0;
  for (int k = 0; k < samples_between; ++k) {
    const double y = low + (high - low) * (0.25 + 0.5 * k / (samples_between - 1.0));
    const double over = height_at(here, y) - std::lerp(height_at(before, y), height_at(after, y), u);
    if (std::isfinite(over)) {
      sum += over;
      count += 1.0;
    }
  }
  return count > 0.0 ? sum / count : 0.0;
}

} // namespace

Findings section_findings(const SectionedShape& shape) {
  Findings findings;
  for (const SectionedBody& body : shape.bodies) {
    const std::vector<Section>& s = body.sections;
    std::vector<double> over(s.size(), 0.0);
    for (std::size_t i = 1; i + 1 < s.size(); ++i) {
      over[i] = over_neighbours(s[i - 1], s[i], s[i + 1]);
    }
    for (std::size_t i = 2; i + 2 < s.size(); ++i) {
      // A step at this section alone reads the other way at both neighbours, each by the share its line feels of it.
      const auto left = -over[i] * (s[i - 1].station - s[i - 2].station) / (s[i].station - s[i - 2].station);
      const auto right = -over[i] * (s[i + 2].station - s[i + 1].station) / (s[i + 2].station - s[i].station);
      if (std::abs(over[i]) > noticed && over[i - 1] / left > share_left && over[i + 1] / right > share_left) {
        findings.push_back({FindingKind::section_off,
                            "the section stands " + number(1e3 * std::abs(over[i]), 3) + " mm " +
                                (over[i] > 0.0 ? "above" : "below") + " the line of its neighbours",
                            body.name + ", station " + fixed(1e3 * s[i].station, 0) + " mm"});
      }
    }
  }
  return findings;
}

} // namespace wingnose::layout
