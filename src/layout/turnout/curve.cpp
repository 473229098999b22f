#include "curve.hpp"

#include <cmath>
#include <string>

namespace wingnose::layout::turnout {
namespace {

std::vector<Stretch> drawn_curve(const Turnout& t) {
  const double angle = std::atan(1.0 / t.rate), curvature = 1.0 / t.radius;
  const double turned = 0.5 * t.transition * curvature; // along the transition
  if (turned > angle) {
    throw Contradiction("transition", t.transition, Bound::up_to, 2.0 * angle * t.radius, "curve_rate",
                        "The curve would turn further than that along its transition alone.");
  }
  std::vector<Stretch> curve;
  if (t.transition > 0.0) {
    curve.push_back({t.transition, 0.0, curvature, t.cant, t.cant});
  }
  if (turned < angle) {
    curve.push_back({(angle - turned) * t.radius, curvature, curvature, t.cant, t.cant});
  }
  return curve;
}

std::vector<Stretch> given_curve(const std::vector<CurvaturePoint>& points) {
  std::vector<Stretch> curve;
  double turned = 0.0;
  for (std::size_t i = 1; i < points.size(); ++i) {
    const CurvaturePoint &from = points[i - 1], &to = points[i];
    const double length = to.station - from.station;
    if (length > 0.0) {
      curve.push_back({length, from.curvature, to.curvature, from.cant, to.cant});
      turned += 0.5 * length * (from.curvature + to.curvature);
    }
  }
  const Range rates = range_of<&Turnout::rate>();
  const Range angles{std::atan(1.0 / rates.most), std::atan(1.0 / rates.least)};
  demand_within("the curvature given turns the route by", turned, angles, "mrad", 1e3,
                "A turnout turns between 1:" + number(rates.most) + " and 1:" + number(rates.least) +
                    "; check the curvatures (1/radius, positive to the hand of the turnout) and the stations.");
  return curve;
}

void check_points(const std::vector<CurvaturePoint>& points) {
  if (points.size() == 1) {
    throw InputError("one point is no curve; give the curvature at two stations at least");
  }
  for (std::size_t i = 0; i < points.size(); ++i) {
    demand_within("curvature", points[i].curvature, curvature_range, "1/m");
    demand_within("cant", points[i].cant, range_of<&Turnout::cant>(), "mm", 1e3);
    if (i > 0 && !(points[i].station >= points[i - 1].station)) {
      throw InputError("station of a curvature", number(points[i].station) + " m",
                       number(points[i - 1].station) + " m or more", "Order the points by station.");
    }
  }
}

// Of check rail and nose: the two say the same thing, seen from either side.
void check_widths(const Turnout& t) {
  const CheckRail& check = t.check_rail;
  if (check.nose_protection && check.flangeway) {
    throw InputError("turnout check_flangeway", number(*check.flangeway * 1e3) + " mm",
                     "left out beside a nose protection (" + number(*check.nose_protection * 1e3) + " mm)",
                     "Gauge less nose protection is the flangeway of the check rail: give one of the two.");
  }
  if (check.nose_protection) {
    demand_within("turnout nose_protection", *check.nose_protection, nose_protection_range, "mm", 1e3);
    if (t.gauge - *check.nose_protection < check_flangeway_range.least) {
      throw Contradiction(
          "nose_protection", *check.nose_protection, Bound::up_to, t.gauge - check_flangeway_range.least, "",
          "No flange passes between check rail and stock rail at a gauge of " + number(t.gauge * 1e3) + " mm.");
    }
  }
  if (check.flangeway) {
    demand_within("turnout check_flangeway", *check.flangeway, check_flangeway_range, "mm", 1e3);
  }
  demand_within("turnout crossing_flangeway", t.crossing.flangeway, crossing_flangeway_range, "mm", 1e3);
}

void check_readings(const Readings& r) {
  const auto demand = [](const char* what, const std::optional<double>& value, const Range& range) {
    if (value) {
      demand_within(what, *value, range, "mm", 1e3);
    }
  };
  demand("turnout gauge_reading", r.gauge, gauge_range);
  demand("turnout nose_protection_reading", r.nose_protection, nose_protection_range);
  demand("turnout check_flangeway_reading", r.check_flangeway, check_flangeway_range);
  demand("turnout crossing_flangeway_reading", r.crossing_flangeway, crossing_flangeway_range);
}

} // namespace

void check_values(const Turnout& t) {
  demand_ranges(t, "turnout");
  demand_ranges(t.check_rail, "turnout");
  demand_ranges(t.crossing, "turnout");
  if (t.end_length) {
    demand_within("turnout end_length", *t.end_length, end_length_range, "m");
  }
  check_points(t.curvature);
  check_widths(t);
  check_readings(t.readings);
}

std::vector<Stretch> curve_of(const Turnout& t) {
  return t.curvature.empty() ? drawn_curve(t) : given_curve(t.curvature);
}

} // namespace wingnose::layout::turnout
