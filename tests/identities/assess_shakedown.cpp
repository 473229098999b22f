// Stresses below a line contact must balance, whatever formula they come from.
#include "catch.hpp"

#include "wingnose/assess/shakedown.hpp"

#include <cmath>

using wingnose::assess::line_contact_stress;

TEST_CASE("Stresses below a line contact are in equilibrium at every depth, with and without traction") {
  constexpr double h = 1e-4;
  for (const double f : {0.0, 0.3}) {
    for (const double x : {-1.7, -0.9, -0.2, 0.35, 0.8, 1.4}) {
      for (const double z : {0.15, 0.6, 1.8}) {
        const auto east = line_contact_stress(x + h, z, f), west = line_contact_stress(x - h, z, f);
        const auto below = line_contact_stress(x, z + h, f), above = line_contact_stress(x, z - h, f);
        CHECK(std::abs(east.sigma_x - west.sigma_x + below.tau_xz - above.tau_xz) / (2.0 * h) < 2e-6);
        CHECK(std::abs(east.tau_xz - west.tau_xz + below.sigma_z - above.sigma_z) / (2.0 * h) < 2e-6);
      }
    }
  }
}

TEST_CASE("The surface of a line contact carries exactly the pressure and the traction put on it") {
  for (const double f : {0.0, 0.2}) {
    for (const double x : {-0.95, -0.4, 0.0, 0.3, 0.7}) {
      const auto s = line_contact_stress(x, 1e-9, f);
      const double p = std::sqrt(1.0 - x * x);
      CHECK(s.sigma_z == Approx(-p).epsilon(1e-6));
      CHECK(s.tau_xz == Approx(-f * p).margin(1e-6));
      CHECK(s.sigma_x == Approx(-p - 2.0 * f * x).margin(1e-6));
    }
  }
}

TEST_CASE("Traction turned round gives the mirrored stresses") {
  for (const double x : {-1.2, 0.4, 0.9}) {
    const auto one = line_contact_stress(x, 0.5, 0.25), other = line_contact_stress(-x, 0.5, -0.25);
    CHECK(one.sigma_x == Approx(other.sigma_x).margin(1e-14));
    CHECK(one.sigma_z == Approx(other.sigma_z).margin(1e-14));
    CHECK(one.tau_xz == Approx(-other.tau_xz).margin(1e-14));
  }
}
