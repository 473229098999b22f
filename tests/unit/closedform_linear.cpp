// The closed form of a cone over a straight wing and nose.
#include "catch.hpp"
#include "wingnose/closedform/linear_crossing.hpp"

using namespace wingnose::closedform;

namespace {

LinearCrossing common() {
  return {.rate = 15.0,
          .conicity = 0.05,
          .ramp_slope = 0.005,
          .wing_height_at_0 = -0.0005,
          .nose_height_at_0 = -0.004,
          .wheel_radius = 0.46};
}

} // namespace

TEST_CASE("The dip angle is the fall on the wing plus the rise on the nose") {
  const LinearCrossingResult r = linear_crossing(common());
  CHECK(r.slope_before == Approx(-0.05 / 15.0).epsilon(1e-14));
  CHECK(r.slope_after == 0.005);
  CHECK(r.dip_angle == Approx(0.05 / 15.0 + 0.005).epsilon(1e-14));
}

TEST_CASE("Both paths have the same height at the transfer, rolling term included") {
  const LinearCrossing c = common();
  const LinearCrossingResult r = linear_crossing(c);
  const double rise = c.wheel_radius * (std::hypot(1.0, r.slope_after) - 1.0);
  CHECK(c.nose_height_at_0 + r.slope_after * r.transfer_station + rise == Approx(r.height_at_transfer).epsilon(1e-12));
}

TEST_CASE("The rolling term moves the transfer by R (s2^2 - s1^2) / 2 over the dip angle, towards the flatter path") {
  LinearCrossing point = common(), wheel = common();
  point.wheel_radius = 0.0;
  const LinearCrossingResult p = linear_crossing(point), w = linear_crossing(wheel);
  const double expected =
      -0.5 * wheel.wheel_radius * (w.slope_after * w.slope_after - w.slope_before * w.slope_before) / w.dip_angle;
  CHECK(w.transfer_station - p.transfer_station == Approx(expected).epsilon(1e-4));
}

TEST_CASE("A wing rising at gamma / N cancels the fall") {
  LinearCrossing c = common();
  c.wing_rise = c.conicity / c.rate;
  CHECK(linear_crossing(c).slope_before == Approx(0.0).margin(1e-18));
  CHECK(linear_crossing(c).dip_angle == Approx(c.ramp_slope).epsilon(1e-14));
}

TEST_CASE("Without a rise of the nose against the wing there is no transfer") {
  LinearCrossing c = common();
  c.ramp_slope = -0.05 / 15.0;
  CHECK_THROWS_AS(linear_crossing(c), wingnose::ComputeError);
}
