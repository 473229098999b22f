// Wheel on plain rail: the curvatures prescribed paths are run with.
#include "wingnose/contact/path/wheel_path.hpp"

#include "search/section.hpp"

#include "wingnose/words/constants.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>

namespace wingnose::contact {

PlainContact plain_contact(const profile::WheelProfile& wheel, const profile::RailHead& rail, double wheel_radius) {
  const WheelSurface surface(wheel, wheel_radius);
  const SampledWheel placed(PlacedWheel(surface, taping_line_y));
  const layout::PlainRail plain(rail);
  const auto head = plain.slice(0.0);
  const LateralContact c = search_lateral(head, placed);
  if (!c.found()) {
    throw ComputeError("wheel \"" + wheel.name + "\" does not reach rail head \"" + rail.name + "\"");
  }
  const layout::SurfacePoint s = head.at(c.y - head.edge);
  const double angle = std::atan(s.slope_y);
  return {std::cos(angle) / (wheel_radius + placed.height(c.y)),
          std::max(least_lateral_curvature, -s.curvature_y - placed.at(c.y).curvature), angle};
}

} // namespace wingnose::contact
