// Symmetry and turning of rail heads.
#include "catch.hpp"

#include "wingnose/profile/rail.hpp"

#include <cmath>

using namespace wingnose;
using profile::rail_head;

namespace {
const char* const heads[] = {"60E1", "54E1", "60E2", "56E1", "49E1"};
}

TEST_CASE("An upright head is symmetric about its axis") {
  for (const char* name : heads) {
    const auto head = rail_head(name);
    INFO(name);
    CHECK(head.curve.front() == -head.curve.back());
    for (double y = 0.0; y < head.curve.back(); y += 0.1e-3) {
      CHECK(head.curve.value(-y) == Approx(head.curve.value(y)).epsilon(0).margin(1e-13));
      CHECK(head.curve.at(-y).curvature == Approx(head.curve.at(y).curvature).epsilon(0).margin(1e-9));
    }
  }
}

TEST_CASE("Leaning the other way mirrors the head") {
  for (const char* name : heads) {
    const auto left = rail_head(name, 0.03), right = rail_head(name, -0.03);
    INFO(name);
    for (double y = left.curve.front(); y < left.curve.back(); y += 0.1e-3) {
      CHECK(right.curve.value(-y) == Approx(left.curve.value(y)).epsilon(0).margin(1e-12));
    }
  }
}

TEST_CASE("Turned back upright, every point of an inclined head lies on the upright head") {
  for (const char* name : heads) {
    for (const double inclination : {std::atan(1.0 / 40.0), std::atan(1.0 / 20.0), -0.04}) {
      const auto upright = rail_head(name), inclined = rail_head(name, inclination);
      INFO(name << " at " << inclination);
      const double c = std::cos(inclination), s = std::sin(inclination);
      int compared = 0;
      for (double y = inclined.curve.front() + 1e-5; y < inclined.curve.back(); y += 0.1e-3) {
        const auto p = inclined.curve.at(y);
        const double z = p.value - inclined.level_shift;
        const double y0 = c * y + s * z, z0 = -s * y + c * z;
        const auto q = upright.curve.at(y0);
        // distance normal to the surface, and the angle of the tangent
        CHECK((q.value - z0) / std::hypot(1.0, q.slope) == Approx(0.0).epsilon(0).margin(1e-12));
        CHECK(std::atan(p.slope) - inclination == Approx(std::atan(q.slope)).epsilon(0).margin(1e-6));
        CHECK(p.curvature == Approx(q.curvature).epsilon(0).margin(1e-6));
        ++compared;
      }
      CHECK(compared > 500);
    }
  }
}
