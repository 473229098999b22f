// Patches along a path under the forces of a passage.
#include "catch.hpp"

#include "wingnose/contact/path/path_patches.hpp"
#include "wingnose/words/error.hpp"
#include "wingnose/words/frame.hpp"

#include <cmath>
#include <span>

using namespace wingnose;

TEST_CASE("Patches along a path are those of a wheel that stands there, whatever came before") {
  const auto crossing = layout::generate({});
  const auto wheel = profile::hollow_worn(profile::s1002(), {.depth = 0.002, .width = 0.06});
  const double yaw = GENERATE(0.0, 0.008);
  const auto path = contact::roll(crossing, wheel, {.from = -1.0, .to = 2.0, .roll = 0.1 * yaw, .yaw = yaw});
  contact::PathPatches along(path, crossing, wheel, -1.0, 2.0);
  REQUIRE(along.bodies() == 2);
  const contact::WheelSurface table(wheel, 0.46);
  std::size_t several = 0;
  for (const double x : {-0.8, -0.1, 0.2, 0.7, 1.0, 1.6, 1.8, -0.8}) {
    const std::size_t body = x < 0.5 ? 0 : 1;
    for (const double force : {9e4, 2e4, 1.8e5}) {
      CAPTURE(x, force);
      const auto patches = along.at(body, x, force);
      REQUIRE_FALSE(patches.empty());
      several += patches.size() > 1 ? 1 : 0;
      double vertical = 0.0, largest = 0.0;
      for (const auto& p : patches) {
        vertical += p.force * std::cos(p.angle);
        largest = std::max(largest, p.peak_pressure);
        CHECK(p.body == crossing.bodies[body].name);
      }
      // Inside a patch the normal turns a little: the sum over strips is exact, the patch's own angle is not.
      CHECK(vertical == Approx(force).epsilon(0.005));
      const std::span<const layout::Body> bodies(&crossing.bodies[body], 1);
      const contact::WheelPlace place{.station = x, .lateral = taping_line_y, .roll = 0.1 * yaw, .yaw = yaw};
      const auto standing = contact::contact_at(table, bodies, place, force);
      REQUIRE(standing.patches.size() == patches.size());
      for (std::size_t k = 0; k < patches.size(); ++k) {
        CHECK(patches[k].force == Approx(standing.patches[k].force).epsilon(0.02).margin(200.0));
        CHECK(patches[k].peak_pressure == Approx(standing.patches[k].peak_pressure).epsilon(0.03));
        CHECK(patches[k].y == Approx(standing.patches[k].y).margin(2e-4));
        CHECK(patches[k].dx == Approx(standing.patches[k].dx).margin(2e-4));
      }
    }
  }
  CHECK(several > 0);
}

TEST_CASE("A body out of reach has no patches; loads and bodies that are none are refused") {
  const auto crossing = layout::generate({});
  const auto path = contact::roll(crossing, profile::s1002(), {.from = -2.0, .to = -1.0});
  contact::PathPatches before(path, crossing, profile::s1002(), -2.0, -1.0);
  CHECK(before.at(1, -1.5, 9e4).empty()); // the nose begins far behind
  CHECK_FALSE(before.at(0, -1.5, 9e4).empty());
  CHECK_THROWS_AS(before.at(2, -1.5, 9e4), InputError);
  CHECK_THROWS_AS(before.at(0, -1.5, 0.0), InputError);
}
