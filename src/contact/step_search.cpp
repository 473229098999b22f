#include "wingnose/contact/step_search.hpp"

#include "wingnose/contact/path_law.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace wingnose::contact {
namespace {

constexpr double least_depth = 1e-6; // m: shallower, the force is some ten newtons and the law that of 1 um

} // namespace

StepSearch::StepSearch(const layout::WheelPath& path, const layout::Crossing& crossing,
                       const profile::WheelProfile& wheel, NormalLaw law)
    : wheel_(wheel, path.wheel_radius), place_(place_on(path, path.station.front())), first_(path.station.front()),
      last_(path.station.back()), law_(law) {
  if (path.bodies.size() != crossing.bodies.size()) {
    throw InputError("bodies of the path", std::to_string(path.bodies.size()),
                     std::to_string(crossing.bodies.size()) + " as the crossing's",
                     "Roll the wheel over this crossing.");
  }
  bodies_ = tables_along(crossing, first_, last_);
}

void StepSearch::look(std::size_t body, double x, GapLine& line) const {
  if (!bodies_[body]) {
    line.count = 0;
    line.level = -std::numeric_limits<double>::infinity();
    return;
  }
  WheelPlace place = place_;
  place.station = std::clamp(x, first_, last_);
  gap_line(wheel_, *bodies_[body], place, line);
  if (line.count < 3) {
    line.level = -std::numeric_limits<double>::infinity();
  }
}

ForceLaw StepSearch::law(const GapLine& line, double depth) const {
  if (line.count < 3) {
    return {};
  }
  const double d = std::clamp(depth, least_depth, strips_reach);
  return {vertical_force(law_, line, d, unit_elastic) / (d * std::sqrt(d)), 0.0, 0.0};
}

} // namespace wingnose::contact
