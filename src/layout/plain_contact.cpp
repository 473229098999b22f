// Wheel on plain rail: the curvatures prescribed paths are run with.
#include "wingnose/layout/path.hpp"

#include "lateral_search.hpp"
#include "wingnose/words/error.hpp"

#include <cmath>

namespace wingnose::layout {
namespace {

constexpr double gauge_depth = 0.014; // m below the top of rail where gauge is measured

// A rail head as one section of a body, for the lateral search.
struct HeadSlice {
  const profile::Curve* curve;
  double edge, width; // m
  [[nodiscard]] double height(double eta) const { return curve->value(curve->front() + eta); }
  [[nodiscard]] SurfacePoint at(double eta) const {
    const profile::CurvePoint p = curve->at(curve->front() + eta);
    return {p.value, p.slope, p.curvature};
  }
};

// Lateral place of the gauge point on the head (m, rail frame): where its flank passes 14 mm below its top.
double gauge_point(const profile::Curve& head) {
  constexpr int samples = 4000;
  const auto y_of = [&](int i) { return head.front() + (head.back() - head.front()) * i / samples; };
  double top = head.value(head.front());
  for (int i = 1; i <= samples; ++i) {
    top = std::max(top, head.value(y_of(i)));
  }
  double low = head.front(), high = head.front();
  for (int i = 0; i <= samples; ++i) {
    high = y_of(i);
    if (head.value(high) >= top - gauge_depth) {
      break;
    }
    low = high;
  }
  for (int k = 0; k < 50 && high - low > 1e-12; ++k) {
    const double mid = 0.5 * (low + high);
    (head.value(mid) < top - gauge_depth ? low : high) = mid;
  }
  return high;
}

} // namespace

PlainContact plain_contact(const profile::WheelProfile& wheel, const profile::RailHead& rail, double wheel_radius) {
  if (!(wheel_radius >= 0.15 && wheel_radius <= 1.0)) {
    throw InputError("wheel radius (m)", std::to_string(wheel_radius), "0.15 to 1.0 m",
                     "Give the radius at the taping line, not the diameter.");
  }
  const PlacedWheel placed(wheel, taping_line_y);
  const double shift = 0.5 * standard_gauge - gauge_point(rail.curve); // rail axis from the track centre line
  const HeadSlice head{&rail.curve, rail.curve.front() + shift, rail.curve.back() - rail.curve.front()};
  const LateralContact c = search_lateral(head, placed);
  if (!c.found()) {
    throw ComputeError("wheel \"" + wheel.name + "\" does not reach rail head \"" + rail.name + "\"");
  }
  const SurfacePoint s = head.at(c.y - head.edge);
  const double angle = std::atan(s.slope_y);
  constexpr double floor = 0.5; // 1/m, as in rolled paths
  return {std::cos(angle) / (wheel_radius + placed.height(c.y)),
          std::max(floor, -s.curvature_y - placed.at(c.y).curvature), angle};
}

} // namespace wingnose::layout
