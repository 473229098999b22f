#include "catch.hpp"

#include "wingnose/closedform/foundation_beam.hpp"
#include "wingnose/words/error.hpp"

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
