#include "catch.hpp"

#include "wingnose/contact/normal/hertz.hpp"
#include "wingnose/contact/path/kinematics.hpp"

#include <algorithm>
#include <cmath>

using namespace wingnose;

namespace {

contact::WheelPath default_path(const profile::WheelProfile& wheel, double pitch = 0.001) {
  return contact::roll(layout::generate({}), wheel, {.from = -2.0, .to = 2.0, .pitch = pitch});
}

// Largest relative change of the contact stiffness between neighbouring stations of a body, where it lies within a
// millimetre of the path that carries the wheel (below that it never touches under load).
double largest_step(const contact::WheelPath& path, std::size_t body) {
  const contact::BodyPath& b = path.bodies[body];
  double largest = 0.0, before = 0.0;
  for (std::size_t i = 0; i < path.station.size(); ++i) {
    const double top = std::max(path.bodies[0].height[i], path.bodies[1].height[i]);
    if (!(b.height[i] > top - 0.001)) {
      before = 0.0;
      continue;
    }
    const double stiffness = contact::hertz_stiffness(b.curvature_x[i], b.curvature_y[i]);
    if (before > 0.0) {
      largest = std::max(largest, std::abs(stiffness / before - 1.0));
    }
    before = stiffness;
  }
  return largest;
}

} // namespace

TEST_CASE("Contact stiffness does not jump where the patch moves across wing or nose") {
  // With the radii of the touching point alone the stiffness of the nose doubles within a millimetre where contact
  // leaves its shoulder for its crown, and a wheel that runs there at 30 m/s would be hit by a force that does not
  // exist.
  const auto wheel = GENERATE(0, 1);
  const auto profile =
      wheel == 0 ? profile::s1002() : profile::hollow_worn(profile::s1002(), {.depth = 0.001, .width = 0.06});
  const auto coarse = default_path(profile, 0.001), fine = default_path(profile, 0.0005);
  for (std::size_t body = 0; body < 2; ++body) {
    // A continuous quantity changes half as much over half the distance; a jump would change as much. Below one part in
    // a thousand the grid of the closed width shows.
    CAPTURE(wheel, coarse.bodies[body].name, largest_step(coarse, body), largest_step(fine, body));
    CHECK(largest_step(coarse, body) < 0.1);
    CHECK(largest_step(fine, body) < std::max(0.7 * largest_step(coarse, body), 1e-3));
  }
}

TEST_CASE("A cone on a rounded edge feels the edge's own radius") {
  // The wing carries a cone on the 10 mm rounding of its edge; the closed width of 2.1 mm lies inside the arc's steep
  // part on one side only where the head begins, so a cone of 1:20 rests 0.5 mm inside it.
  const auto path = default_path(profile::cone(1.0 / 20.0));
  const auto at = std::lower_bound(path.station.begin(), path.station.end(), 0.2) - path.station.begin();
  const double curvature = path.bodies[0].curvature_y[static_cast<std::size_t>(at)];
  // Touching 1/20 rad round the arc, 0.5 mm from where it meets the flat head: softer than the full arc, far stiffer
  // than the head.
  CHECK(curvature < 1.0 / 0.010);
  CHECK(curvature > 0.3 / 0.010);
}
