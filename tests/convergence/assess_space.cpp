// Steps of a ride in space over a crossing on rails that bend.
#include "space_on_bays.hpp"

#include "catch.hpp"
#include "wingnose/assess/space_measures.hpp"

using namespace wingnose;
using namespace space_on_bays;

namespace {

constexpr double from = -3.0, to = 1.8, landing = 0.4; // m

assess::Measures ridden(const Ground& ground, double speed, double step, double longest = 0.0) {
  const Rolling one = rolled(wheelset(false));
  const SpaceHistory ride = simulate(
      one, ground,
      {.speed = speed, .begin = from, .length = to - from, .step = step, .longest_step = longest, .stride = 1});
  return assess::measure(ride, one, ground, 0, 0, landing, {.window = 0.04}).value();
}

} // namespace

TEST_CASE("Long steps on plain rail and short ones over the crossing keep P2 to 0.2 % and peaks to 1 %") {
  Ground ground = crossing(false);
  for (const bool across : {false, true}) {
    ground.bends = bays(across ? on_bearers(from - 3.0, to + 3.0) : apart(from - 3.0, to + 3.0));
    const assess::Measures fine = ridden(ground, 30.0, 1e-5), planned = ridden(ground, 30.0, 1e-4, 4e-4);
    CAPTURE(across, fine.p2, fine.peak_total);
    CHECK(planned.p2 == Approx(fine.p2).epsilon(2e-3));
    CHECK(planned.peak_total == Approx(fine.peak_total).epsilon(1e-2));
    CHECK(planned.peak_nose.value() == Approx(fine.peak_nose.value()).epsilon(1e-2));
    CHECK(planned.dynamic_transfer_station.value() == Approx(fine.dynamic_transfer_station.value()).margin(1e-4));
  }
}

TEST_CASE("Half of the step moves what a wheel in space does to a crossing by less and less") {
  Ground ground = crossing(false);
  ground.bends = bays(on_bearers(from - 3.0, to + 3.0));
  for (const double speed : {15.0, 40.0}) {
    const assess::Measures coarse = ridden(ground, speed, 2e-4), half = ridden(ground, speed, 1e-4),
                           fine = ridden(ground, speed, 2.5e-5);
    CAPTURE(speed, coarse.p2, half.p2, fine.p2);
    CHECK(coarse.p2 == Approx(half.p2).epsilon(2e-3));
    CHECK(std::abs(half.p2 - fine.p2) < std::abs(coarse.p2 - fine.p2));
    CHECK(coarse.peak_total == Approx(half.peak_total).epsilon(5e-3));
  }
}
