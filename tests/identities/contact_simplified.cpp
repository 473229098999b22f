// The tractions inside the patch of the simplified theory.
#include "catch.hpp"
#include "wingnose/contact/tangential/simplified_theory.hpp"

#include <cmath>

using namespace wingnose::contact;

namespace {
constexpr double mu = 0.3;
const RollingContact contact = rolling_contact(7e-3, 5e-3, 100e3);
const Creepage mixed{1.5e-3, -1e-3, 0.4};
} // namespace

TEST_CASE("Shear never exceeds friction times pressure in any cell of the strips, and meets it where they slip") {
  const Simplified law{{mu}, 15, 30};
  StripWorkspace ws = make_workspace(law);
  const StripForce result = simplified_creep_force(law, contact, mixed, 30.0, ws);
  REQUIRE(result.slip_area > 0.1);
  REQUIRE(result.slip_area < 0.9);
  for (std::size_t k = 0; k < 30; ++k) {
    for (std::size_t j = 0; j < 15; ++j) {
      const double t = (static_cast<double>(k) + 0.5) / 30.0;
      const double bound = mu * ws.patch.peak[j] * 4.0 * t * (1.0 - t) / (1.0 + 0.5 / 900.0);
      const double shear = std::hypot(ws.traction_x[k * 15 + j], ws.traction_y[k * 15 + j]);
      CHECK(shear <= bound * (1.0 + 1e-12));
      if (ws.slip_share[k * 15 + j] > 0.0) {
        CHECK(std::abs(shear / bound - 1.0) < 1e-12);
      }
    }
  }
}

TEST_CASE("Under pure creepage the simplified theory slips from the trailing edge forwards") {
  const Simplified law{{mu}, 15, 30};
  StripWorkspace ws = make_workspace(law);
  (void)simplified_creep_force(law, contact, {1.5e-3, 0.0, 0.0}, 30.0, ws);
  for (std::size_t j = 0; j < 15; ++j) {
    bool slipped = false;
    for (std::size_t k = 0; k < 30; ++k) {
      const bool slips = ws.slip_share[k * 15 + j] > 0.0;
      CHECK((slips || !slipped)); // once a particle slips it slips until it leaves
      slipped = slipped || slips;
    }
    CHECK(slipped);
  }
}

TEST_CASE("What the strips lose in friction is what the creep force takes out of the wheel") {
  // Exact for one flexibility, whose elastic energy comes back at the trailing edge; second order in the cells.
  for (const Creepage& creep : {mixed, Creepage{4e-3, 1e-3, 0.0}, Creepage{0.0, 0.0, 1.0}, Creepage{0.0, 2e-3, -0.5}}) {
    const Simplified law{{mu}, 40, 120, true};
    StripWorkspace ws = make_workspace(law);
    const StripForce r = simplified_creep_force(law, contact, creep, 30.0, ws);
    const double taken = -30.0 * (r.force.longitudinal * creep.longitudinal + r.force.lateral * creep.lateral +
                                  r.force.moment * creep.spin);
    CHECK(r.friction_power > 0.0);
    CHECK(std::abs(r.friction_power / taken - 1.0) < 5e-3);
  }
}

TEST_CASE("An ellipse handed over strip by strip gives the force of the elliptic law") {
  const Simplified law{{mu}, 12, 25};
  StripWorkspace ws = make_workspace(law), other = make_workspace(12, 25);
  const StripForce a = simplified_creep_force(law, contact, mixed, 30.0, ws);
  const StripForce b =
      strip_creep_force(elliptic_strips(contact, 12), flexibilities(contact), mu, 25, mixed, 30.0, other);
  CHECK(a.force == b.force);
  CHECK(a.friction_power == b.friction_power);
}

TEST_CASE("A patch moved sideways under spin feels the longitudinal creepage of its place") {
  // Shifting the patch by y0 equals a longitudinal creepage of -phi y0, if one flexibility serves both.
  const Flexibilities one{2e-14, 2e-14, 2e-14};
  const double y0 = 2e-3, phi = 0.4;
  StripPatch moved = elliptic_strips(contact, 20);
  for (double& y : moved.y) {
    y += y0;
  }
  StripWorkspace ws = make_workspace(20, 40);
  const CreepForce there = strip_creep_force(moved, one, mu, 40, {1e-3, 0.0, phi}, 30.0, ws).force;
  const CreepForce here =
      strip_creep_force(elliptic_strips(contact, 20), one, mu, 40, {1e-3 - phi * y0, 0.0, phi}, 30.0, ws).force;
  CHECK(std::abs(there.longitudinal - here.longitudinal) < 1e-9 * contact.normal_force);
  CHECK(std::abs(there.lateral - here.lateral) < 1e-9 * contact.normal_force);
}
