// Linear kinematics of a coned wheel over straight wing and nose: dip angle, transfer, depth in closed form.
//
// A cone of slope gamma on a level wing leaving at 1:N falls at gamma/N; the nose ramp of slope i lifts it:
// 2 alpha = gamma/N + i + wing down-slope. Includes the rolling term: contact runs ahead/behind by R * slope. SI.
#pragma once

namespace wingnose::closedform {

struct LinearCrossing {
  double rate;             // N
  double conicity;         // gamma
  double ramp_slope;       // i, rise of the nose per metre
  double wing_rise = 0.0;  // rise of the wing per metre (lift), reduces the fall
  double wing_height_at_0; // m, wheel height on the wing extrapolated to x = 0
  double nose_height_at_0; // m, wheel height on the nose ramp extrapolated to x = 0
  double wheel_radius;     // m
};
struct LinearCrossingResult {
  double transfer_station; // m, incl. the rolling term
  double dip_angle;        // rad
  double slope_before, slope_after;
  double height_at_transfer; // m
};
[[nodiscard]] LinearCrossingResult linear_crossing(const LinearCrossing&);

} // namespace wingnose::closedform
