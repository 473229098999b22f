#include "catch.hpp"

#include "wingnose/closedform/foundation_beam.hpp"
#include "wingnose/words/error.hpp"

#include <cmath>
#include <limits>
#include <numbers>

using namespace wingnose;
using namespace wingnose::closedform;

TEST_CASE("The rail first lifts at three quarter waves from the load") {
  const FoundationBeam beam{6.38e6, 50e6};
  const double lift = 0.75 * std::numbers::pi * characteristic_length(beam);
  CHECK(deflection(beam, 1e5, 0.999 * lift) > 0.0);
  CHECK(deflection(beam, 1e5, 1.001 * lift) < 0.0);
  CHECK(moment(beam, 1e5, lift) < 0.0);
}

TEST_CASE("Deflection and moment do not depend on the side of the load") {
  const FoundationBeam beam{6.38e6, 50e6};
  CHECK(deflection(beam, 1e5, -0.7) == deflection(beam, 1e5, 0.7));
  CHECK(moment(beam, 1e5, -0.7) == moment(beam, 1e5, 0.7));
}

TEST_CASE("A foundation beam refuses values that cannot be right") {
  const FoundationBeam good{6.38e6, 50e6};
  CHECK_THROWS_AS(characteristic_length({-1.0, 50e6}), InputError);
  CHECK_THROWS_AS(characteristic_length({6.38e6, 0.0}), InputError);
  CHECK_THROWS_AS(point_stiffness({std::numeric_limits<double>::quiet_NaN(), 50e6}), InputError);
  CHECK_THROWS_AS(critical_speed(good, 0.0), InputError);
  CHECK_THROWS_AS(moving_load_factor(300.0, 300.0), InputError);
  CHECK_THROWS_AS(lumped_track(good, 60.0, -1.0), InputError);
  CHECK_THROWS_AS(pinned_pinned_frequency(6.38e6, 2.5e8, 60.0, 0.24, 0.0), InputError);
}

TEST_CASE("The effective rail mass has the inertia of an infinite beam's point reactance") {
  // Driving point of an infinite Bernoulli beam under a harmonic force: F / w = -2 (1 - i) EI k_b^3 with
  // k_b = (m' omega^2 / EI)^(1/4); a mass has F / w = -m omega^2. The real parts agree.
  const double EI = 6.38e6, mass = 60.21, omega = 2.0 * std::numbers::pi * 500.0;
  const double k_b = std::pow(mass * omega * omega / EI, 0.25);
  CHECK(effective_rail_mass(EI, mass, 500.0) * omega * omega == Approx(2.0 * EI * std::pow(k_b, 3)));
  CHECK_THROWS_AS(effective_rail_mass(0.0, mass, 500.0), InputError);
}
