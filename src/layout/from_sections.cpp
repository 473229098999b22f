// Crossing bodies from sections: checks with one message per mistake, fit across, matching and resampling.
#include "wingnose/layout/surface.hpp"
#include "wingnose/words/error.hpp"

#include "section_features.hpp"
#include "section_fit.hpp"
#include "section_noise.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>
#include <string>

namespace wingnose::layout {
namespace {

std::string at_station(const std::string& body, const Section& s) {
  return "section of the " + body + " at station " + std::to_string(std::lround(s.station * 1000.0)) + " mm";
}

void check_section(const std::string& body, const Section& s) {
  if (!std::isfinite(s.station)) {
    throw InputError("station of a section of the " + body, "not a finite number",
                     "a number in millimetres in the file", "Repair the station column.");
  }
  const std::string where = at_station(body, s);
  if (s.y.size() != s.z.size()) {
    throw InputError(where, std::to_string(s.y.size()) + " y and " + std::to_string(s.z.size()) + " z values",
                     "as many y as z", "Complete the rows.");
  }
  if (s.y.size() < 8) {
    throw InputError(where, std::to_string(s.y.size()) + " points", "at least 8 points",
                     "Measure the section with more points or leave it out.");
  }
  for (std::size_t i = 0; i < s.y.size(); ++i) {
    if (!std::isfinite(s.y[i]) || !std::isfinite(s.z[i])) {
      throw InputError(where, "point " + std::to_string(i + 1) + " is not finite", "finite y and z",
                       "Remove or repair the point.");
    }
  }
  const auto [y_low, y_high] = std::minmax_element(s.y.begin(), s.y.end());
  const auto [z_low, z_high] = std::minmax_element(s.z.begin(), s.z.end());
  const double width = *y_high - *y_low;
  if (!(width >= 0.001 && width <= 0.5)) {
    throw InputError(where, "a width of " + number(width * 1000.0) + " mm", "1 to 500 mm",
                     "Check the unit: y and z columns are in millimetres.");
  }
  if (!(*z_high <= 0.1 && *z_low >= -0.2)) {
    throw InputError(where, "heights from " + number(*z_low * 1000.0) + " to " + number(*z_high * 1000.0) + " mm",
                     "-200 to 100 mm about the top of rail", "Check the unit and the zero of z.");
  }
  if (!(*y_low >= 0.3 && *y_high <= 1.5)) {
    throw InputError(where, "y from " + number(*y_low * 1000.0) + " to " + number(*y_high * 1000.0) + " mm",
                     "300 to 1500 mm from the track centre line",
                     "Measure y from the track centre line of the route, not from the rail.");
  }
}

void check_body(const SectionedBody& body) {
  if (body.sections.size() < 2) {
    throw InputError("body \"" + body.name + "\"", std::to_string(body.sections.size()) + " section(s)",
                     "at least 2 sections", "A surface along the track needs sections at two stations or more.");
  }
  for (std::size_t i = 0; i < body.sections.size(); ++i) {
    check_section(body.name, body.sections[i]);
    if (i > 0 && !(body.sections[i].station - body.sections[i - 1].station >= 1e-4)) {
      throw InputError(at_station(body.name, body.sections[i]), "not behind the section before it",
                       "stations increasing by 0.1 mm or more", "Sort the sections by station and remove duplicates.");
    }
  }
}

// Points for each stretch between marks, in proportion to its mean length: the search steps through them evenly.
std::vector<std::size_t> spread(const std::vector<std::vector<double>>& marks) {
  const std::size_t stretches = marks.front().size() - 1;
  std::vector<double> mean(stretches, 0.0);
  double all = 0.0;
  for (const std::vector<double>& m : marks) {
    for (std::size_t k = 0; k < stretches; ++k) {
      mean[k] += m[k + 1] - m[k];
    }
    all += m.back();
  }
  constexpr std::size_t least = 24;
  const std::size_t free = LoftedBody::points - least * stretches;
  std::vector<std::size_t> nodes(stretches, least);
  std::size_t given = 0;
  for (std::size_t k = 0; k + 1 < stretches; ++k) {
    nodes[k] += static_cast<std::size_t>(static_cast<double>(free) * mean[k] / all);
    given += nodes[k];
  }
  nodes.back() = LoftedBody::points - given;
  return nodes;
}

void tell(const SectionedBody& body, const Matching& m, Findings& findings) {
  if (m.unlike.empty()) {
    return;
  }
  const double first = body.sections[m.unlike.front()].station, last = body.sections[m.unlike.back()].station;
  findings.push_back(
      {FindingKind::sections_by_arc_length,
       std::to_string(m.unlike.size()) + " of " + std::to_string(body.sections.size()) + " sections " + m.why +
           ": points of all are matched by their share of the arc alone",
       body.name + (m.unlike.size() > 1 ? ", stations " + fixed(1e3 * first, 0) + " to " + fixed(1e3 * last, 0) + " mm"
                                        : ", station " + fixed(1e3 * first, 0) + " mm")});
}

LoftedBody loft(const SectionedBody& body, double stated, Findings& findings) {
  if (const auto scattered = scatter_of(body, near); noise_understated(scattered, stated)) {
    findings.push_back({FindingKind::noise_understated,
                        "the points scatter by " + number(1e3 * *scattered, 3) + " mm about smooth sections, " +
                            number(1e3 * stated, 3) + " mm are stated",
                        body.name});
  }
  const double noise = noise_of(scatter_of(body, any_span), stated);
  std::vector<SmoothSection> smooth;
  smooth.reserve(body.sections.size());
  std::vector<double> stations, edges, lengths;
  for (const Section& s : body.sections) {
    smooth.emplace_back(s, noise, at_station(body.name, s));
    stations.push_back(s.station);
    edges.push_back(smooth.back().edge());
    lengths.push_back(smooth.back().length());
  }
  // A rail of nearly constant section, measured more or less far across, is matched by distance from the edge; a body
  // that widens (the nose) feature by feature.
  const auto [shortest, longest] = std::minmax_element(lengths.begin(), lengths.end());
  std::vector<LoftedBody::Curve> curves;
  curves.reserve(smooth.size());
  if (*longest < 1.5 * *shortest) {
    std::transform(smooth.begin(), smooth.end(), std::back_inserter(curves),
                   [matched = *shortest](const SmoothSection& s) { return s.resampled(matched); });
  } else {
    std::vector<SectionFeatures> features;
    features.reserve(smooth.size());
    std::transform(smooth.begin(), smooth.end(), std::back_inserter(features), features_of);
    const Matching m = matched(std::move(features), stations, lengths);
    tell(body, m, findings);
    const std::vector<std::size_t> nodes = spread(m.marks);
    for (std::size_t i = 0; i < smooth.size(); ++i) {
      curves.push_back(nodes.size() > 1 ? smooth[i].resampled(m.marks[i], nodes) : smooth[i].resampled(lengths[i]));
    }
  }
  return {std::move(stations), std::move(edges), std::move(curves)};
}

// Wing and nose must leave a flangeway between them: metal of both at the same place means swapped or shifted sections.
void check_overlap(const LoftedBody& wing, const LoftedBody& nose) {
  const double from = std::max(wing.x_begin(), nose.x_begin()), to = std::min(wing.x_end(), nose.x_end());
  for (int i = 0; i <= 200 && from < to; ++i) {
    const double x = from + (to - from) * i / 200.0;
    const double shared =
        std::min(wing.edge(x) + wing.width(x), nose.edge(x) + nose.width(x)) - std::max(wing.edge(x), nose.edge(x));
    if (shared > 0.001) {
      throw InputError("wing and nose at station " + std::to_string(std::lround(x * 1000.0)) + " mm",
                       "an overlap of " + number(shared * 1000.0) + " mm", "no overlap (up to 1 mm)",
                       "Check that both bodies use the same zero of y and are not exchanged.");
    }
  }
}

} // namespace

Crossing from_sections(const SectionedShape& shape) {
  demand_ranges(shape, "crossing");
  const SectionedBody *wing = nullptr, *nose = nullptr;
  for (const SectionedBody& body : shape.bodies) {
    const bool known = body.name == "wing" || body.name == "nose";
    if (!known || (body.name == "wing" ? wing : nose) != nullptr) {
      throw InputError("body of a sectioned crossing", "\"" + body.name + "\"", "one \"wing\" and one \"nose\"",
                       known ? "Put all sections of a body into one." : "Rename the body.");
    }
    (body.name == "wing" ? wing : nose) = &body;
  }
  if (wing == nullptr || nose == nullptr) {
    throw InputError("bodies of a sectioned crossing", wing == nullptr ? "no \"wing\"" : "no \"nose\"",
                     "both \"wing\" and \"nose\"", "Give sections of the missing body.");
  }
  check_body(*wing);
  check_body(*nose);
  Findings findings;
  LoftedBody lofted_wing = loft(*wing, shape.noise, findings), lofted_nose = loft(*nose, shape.noise, findings);
  check_overlap(lofted_wing, lofted_nose);
  return {shape.name,
          shape.rate,
          shape.gauge,
          {{"wing", Role::wing, Side::crossing, std::move(lofted_wing)},
           {"nose", Role::nose, Side::crossing, std::move(lofted_nose)}},
          std::move(findings)};
}

} // namespace wingnose::layout
