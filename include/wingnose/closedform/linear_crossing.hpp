// Linear kinematics of a coned wheel over straight wing and nose: dip angle, transfer, height in closed form.
//
// A cone of slope gamma on a wing leaving at 1:N falls at gamma/N, less the rise of the wing; the nose ramp of slope i
// lifts it again: 2 alpha = gamma/N - wing rise + i. Rolling term: on a slope s a circle of radius R touches
// R s / sqrt(1 + s^2) ahead of the axle and its centre runs R (sqrt(1 + s^2) - 1) above the line through the contact
// directly below the axle. Derived: elementary geometry. SI.
#pragma once

#include "wingnose/words/error.hpp"

#include <cmath>
#include <string>

namespace wingnose::closedform {

struct LinearCrossing {
  double rate;             // N of 1:N, > 0
  double conicity;         // gamma
  double ramp_slope;       // i, rise of the nose per metre
  double wing_rise = 0.0;  // rise of the wing per metre (lift), reduces the fall
  double wing_height_at_0; // m, wheel height on the wing's section at x = 0 (straight lines extrapolated)
  double nose_height_at_0; // m, wheel height on the nose ramp's section at x = 0
  double wheel_radius;     // m
};
struct LinearCrossingResult {
  double transfer_station;          // m, incl. the rolling term
  double dip_angle;                 // rad, change of slope at transfer
  double slope_before, slope_after; // facing
  double height_at_transfer;        // m, incl. the rolling term
};

// Throws ComputeError when the nose does not rise against the wing, so that no transfer exists.
[[nodiscard]] inline LinearCrossingResult linear_crossing(const LinearCrossing& c) {
  const double before = c.wing_rise - c.conicity / c.rate, after = c.ramp_slope;
  if (!(after > before)) {
    throw ComputeError("no transfer: the wheel's path on the nose (slope " + number(after) +
                       ") does not rise against its path on the wing (slope " + number(before) + ")");
  }
  const auto rolling = [&](double slope) { return c.wheel_radius * (std::sqrt(1.0 + slope * slope) - 1.0); };
  const double wing = c.wing_height_at_0 + rolling(before), nose = c.nose_height_at_0 + rolling(after);
  const double x = (wing - nose) / (after - before);
  return {x, after - before, before, after, wing + before * x};
}

} // namespace wingnose::closedform
