#include "wingnose/contact/path/step_search.hpp"

#include "wingnose/contact/path/path_law.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace wingnose::contact {
namespace {

constexpr double least_depth = 1e-6; // m: shallower, the force is some ten newtons and the law that of 1 um

} // namespace

StepSearch::StepSearch(const WheelPath& path, const layout::Crossing& crossing, const profile::WheelProfile& wheel,
                       const NormalLaw& law)
    : wheel_(std::make_shared<const HeldWheel>(wheel, crossing.bodies, attitude_of(path),
                                               Stretch{path.station.front(), path.station.back()})),
      law_(law) {
  if (path.bodies.size() != crossing.bodies.size()) {
    throw InputError("bodies of the path", std::to_string(path.bodies.size()),
                     std::to_string(crossing.bodies.size()) + " as the crossing's",
                     "Roll the wheel over this crossing.");
  }
}

ForceLaw StepSearch::law(const GapLine& line, double depth) const {
  if (line.count == 0) {
    return {};
  }
  const double d = std::clamp(depth, least_depth, strips_reach);
  return {vertical_force(law_, line, d, unit_elastic) / (d * std::sqrt(d)), 0.0, 0.0};
}

} // namespace wingnose::contact
