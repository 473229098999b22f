#include "wingnose/layout/turnout/geometry.hpp"

#include "curve.hpp"

#include "wingnose/numeric/roots.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace wingnose::layout::turnout {
namespace {

constexpr double fine = 1e-14; // m, of lengths of some ten metres: rounding

// Height of the outer gauge line of the diverging route over the inner one of the through route: g/2 to the right of
// the one centre line, g/2 to the left of the other.
double over_gauge_line(const Place& p, double gauge) { return p.y - 0.5 * gauge * (1.0 + std::cos(p.heading)); }

Route through_of(const Route& diverging, double nose) {
  std::vector<Stretch> straight = diverging.stretches();
  for (Stretch& stretch : straight) {
    stretch.curvature = stretch.curvature_end = 0.0;
  }
  return {-nose, std::move(straight), {0.0, 0.0, 0.0}};
}

// Behind the curve as far as the turnout reaches, and at least to the nose.
void check_end(const Turnout& t, const Geometry& g, double behind_tangents) {
  if (!t.end_length) {
    return;
  }
  const std::string of = t.curvature.empty() ? "curve_radius" : "curvature_csv"; // what it is too short for
  if (*t.end_length < behind_tangents) {
    throw Contradiction("end_length", *t.end_length, Bound::at_least, behind_tangents, of,
                        "It is measured from the meeting of the tangents and must reach beyond the curve.");
  }
  if (g.tangent_length + *t.end_length < g.nose_from_start) {
    throw Contradiction("end_length", *t.end_length, Bound::at_least, g.nose_from_start - g.tangent_length, of,
                        "The turnout would end ahead of its nose.");
  }
}

} // namespace

Geometry geometry(const Turnout& t) {
  check_values(t);
  std::vector<Stretch> stretches = curve_of(t);
  const Route curve(0.0, stretches);
  const Place end = curve.at(curve.end());
  const double behind = end.y / std::sin(end.heading);
  Geometry g{end.heading, end.x - end.y / std::tan(end.heading), 0.0, std::nullopt, 0.0, true, 0.0, 0.0, curve, curve};
  g.two_tangents = g.tangent_length + behind;

  const double missing = -over_gauge_line(end, t.gauge);
  g.nose_in_curve = missing <= 0.0;
  const double nose = g.nose_in_curve
                          ? numeric::root_in([&](double s) { return over_gauge_line(curve.at(s), t.gauge); }, 0.0,
                                             curve.end(), fine, "the meeting of the gauge lines")
                          : curve.end() + missing / std::sin(end.heading);
  const Place beside_nose = curve.at(nose);
  g.nose_from_start = beside(beside_nose, -0.5 * t.gauge).x;
  g.angle_at_nose = beside_nose.heading;
  g.rate_at_nose = 1.0 / std::tan(beside_nose.heading);
  check_end(t, g, behind);
  if (t.end_length || g.nose_in_curve) {
    g.overall_length = g.tangent_length + t.end_length.value_or(behind);
  }
  const double straight = std::max(t.end_length.value_or(behind) - behind, nose - curve.end());
  if (straight > 0.0) {
    const double cant = stretches.back().cant_end;
    stretches.push_back({straight, 0.0, 0.0, cant, cant});
  }
  g.diverging = Route(-nose, stretches);
  g.through = through_of(g.diverging, g.nose_from_start);
  if (t.hand == Hand::right) {
    g.diverging = g.diverging.mirrored();
    g.through = g.through.mirrored();
  }
  return g;
}

Entry switch_entry(const Route& diverging, double play) {
  const Place start = diverging.at(diverging.begin());
  const auto aside = [&](double along) { return std::abs(diverging.at(diverging.begin() + along).y - start.y) - play; };
  const double distance = numeric::root_in(aside, 0.0, diverging.end() - diverging.begin(), fine,
                                           "the place where the flange meets the rail of the diverging route");
  return {distance, std::abs(diverging.at(diverging.begin() + distance).heading - start.heading)};
}

} // namespace wingnose::layout::turnout
