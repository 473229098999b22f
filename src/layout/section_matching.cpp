// Which features the sections of a body share, and where those go that a section does not show.
#include "section_features.hpp"

#include "wingnose/numeric/smoothing_spline.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace wingnose::layout {
namespace {

using Place = std::optional<FeaturePlace> SectionFeatures::*;
using Sections = std::vector<SectionFeatures>;

constexpr double left_over = 0.01; // of the arc, of every stretch between features

// The nearest station that shows it, itself if it does; at least one does.
std::size_t nearest_with(const Sections& f, Place place, std::size_t i) {
  for (std::size_t away = 0;; ++away) {
    if (i >= away && f[i - away].*place) {
      return i - away;
    }
    if (i + away < f.size() && f[i + away].*place) {
      return i + away;
    }
  }
}

bool any(const Sections& features, Place place) {
  return std::any_of(features.begin(), features.end(), [place](const SectionFeatures& f) { return f.*place; });
}

// Stations at which a condition holds, or those at which it does not, whichever are fewer; nothing where all agree.
template <class Condition>
bool differ(const Sections& features, Condition condition, const char* with, const char* without, Matching& m) {
  std::vector<std::size_t> yes, no;
  for (std::size_t i = 0; i < features.size(); ++i) {
    (condition(features[i]) ? yes : no).push_back(i);
  }
  if (yes.empty() || no.empty()) {
    return false;
  }
  m.why = yes.size() < no.size() ? with : without;
  m.unlike = yes.size() < no.size() ? yes : no;
  return true;
}

// Makes the places of one feature follow the track steadily, as far as they are unsure.
void settle(Sections& features, const std::vector<double>& stations, Place place) {
  std::vector<double> x, at, sigma;
  for (std::size_t i = 0; i < features.size(); ++i) {
    if (features[i].*place) {
      x.push_back(stations[i]);
      at.push_back((features[i].*place)->at);
      sigma.push_back((features[i].*place)->unsure);
    }
  }
  if (x.size() < 4) {
    return;
  }
  const numeric::SmoothingSpline steady = numeric::smoothing_spline(x, at, sigma);
  for (std::size_t i = 0; i < features.size(); ++i) {
    if (features[i].*place) {
      (features[i].*place)->at = numeric::evaluate(steady, stations[i]).value;
    }
  }
}

} // namespace

Matching matched(Sections features, const std::vector<double>& stations, const std::vector<double>& lengths) {
  Matching m;
  const std::size_t n = features.size();
  for (const double length : lengths) {
    m.marks.push_back({0.0, length});
  }
  if (differ(
          features, [](const SectionFeatures& f) { return f.face; },
          "begin at the face of the edge, others on its rounding",
          "begin on the rounding of the edge, others at its face", m) ||
      differ(
          features, [](const SectionFeatures& f) { return f.shoulder.has_value(); }, "show a rounded edge, others none",
          "show no rounded edge, others one", m) ||
      !features.front().shoulder) {
    return m;
  }
  for (const Place place : {&SectionFeatures::shoulder, &SectionFeatures::crown, &SectionFeatures::far_shoulder}) {
    settle(features, stations, place);
  }
  const bool far = any(features, &SectionFeatures::far_shoulder), crown = any(features, &SectionFeatures::crown);
  // The same order at every station, with something left of every stretch.
  std::vector<double> shoulder(n), far_at(n);
  for (std::size_t i = 0; i < n; ++i) {
    const double least = left_over * lengths[i];
    shoulder[i] = std::clamp(features[i].shoulder->at, least, lengths[i] - 3.0 * least);
    far_at[i] = lengths[i];
    if (far) {
      const SectionFeatures& like = features[nearest_with(features, &SectionFeatures::far_shoulder, i)];
      const double there = features[i].far_shoulder ? features[i].far_shoulder->at
                                                    : shoulder[i] + like.far_shoulder->at - like.shoulder->at;
      far_at[i] = std::clamp(there, shoulder[i] + 2.0 * least, lengths[i] - least);
    }
  }
  for (std::size_t i = 0; i < n; ++i) {
    m.marks[i] = {0.0, shoulder[i]};
    if (crown) { // where a plateau has none, at the share of its width where the nearest station has it
      const std::size_t k = nearest_with(features, &SectionFeatures::crown, i);
      const double share = (features[k].crown->at - shoulder[k]) / (far_at[k] - shoulder[k]);
      m.marks[i].push_back(std::lerp(shoulder[i], far_at[i], std::clamp(share, 0.1, 0.9)));
    }
    if (far) {
      m.marks[i].push_back(far_at[i]);
    }
    m.marks[i].push_back(lengths[i]);
  }
  return m;
}

} // namespace wingnose::layout
