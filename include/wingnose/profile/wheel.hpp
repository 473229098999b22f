// Wheel profiles: plane cross-sections of a wheel's tread and flange, as the trade draws them.
//
// Frame: y from the taping line, positive to the field side; height() is the growth of the rolling radius over the
// radius at the taping line, positive towards the flange tip. SI (m). The flange back is at y = -0.070 m.
// Published: S1002 after UIC 510-2 / EN 13715, zones A to H; cones 1:20 and 1:40. The hollow-worn family is our own.
#pragma once

#include "wingnose/profile/curve.hpp"
#include "wingnose/words/range.hpp"

#include <span>
#include <string>

namespace wingnose::profile {

struct WheelProfile {
  std::string name;
  Curve curve; // height over y, from the flange back side to the field face

  [[nodiscard]] double height(double y) const { return curve.value(y); }
  [[nodiscard]] CurvePoint at(double y) const { return curve.at(y); }
  [[nodiscard]] double y_min() const { return curve.front(); }
  [[nodiscard]] double y_max() const { return curve.back(); }
  [[nodiscard]] friend bool operator==(const WheelProfile&, const WheelProfile&) = default;
};

// UIC 510-2 / EN 13715, flange 28 mm high and 32.5 mm thick, from y = -0.070 m (back) to +0.060 m (tread end).
[[nodiscard]] WheelProfile s1002();

// Straight tread of the given conicity (1/20, 1/40) from y = -0.030 m to +0.060 m, height = -conicity * y, without
// flange.
[[nodiscard]] WheelProfile cone(double conicity);

// A base profile with a smooth hollow (C2) of `depth` (m, >= 0) centred at `centre` (m from the taping line) and
// `width` (m, full width where the hollow has faded out): the rolling radius is reduced by depth at the centre.
struct Hollow {
  double depth = 0.0;
  double width = 0.060;
  double centre = 0.0;
  [[nodiscard]] friend bool operator==(const Hollow&, const Hollow&) = default;
};
constexpr auto ranges(const Hollow*) {
  return std::array{InRange{&Hollow::depth, "depth", "m", 0, 0.010},
                    InRange{&Hollow::width, "width", "m", 0.005, 0.120},
                    InRange{&Hollow::centre, "centre", "m", -0.040, 0.060}};
}
[[nodiscard]] WheelProfile hollow_worn(const WheelProfile& base, const Hollow& hollow);

// A measured profile: points in our wheel frame (m), either order along the profile, repeated points allowed; fitted by
// a smoothing spline (Reinsch 1967) whose residuals are as large as `noise`, the standard deviation of the measurement
// normal to the surface (m, above 0, up to 0.5 mm). Curvature comes from the fit, never from differences of points. The
// heights keep their datum: height 0 is the radius that the case calls the wheel radius.
// Of more than `most_points` so many are used that neighbours are as far apart as those would be over the same width:
// no device resolves more, and the time to fit stays in proportion to the points.
// Throws InputError, each with its own sentence, when
//   - y and height differ in number, a point is not finite, or the noise is out of range,
//   - fewer than 20 different points remain, or neighbours are more than 5 mm apart,
//   - the width (20 to 200 mm) or the height (up to 60 mm) is implausible for a wheel (points in mm instead of m),
//   - the points double back in y, or give two heights at one y (apart by more than twenty times the noise),
//   - the tread is missing (y from -10 to +20 mm), or the flange is: its inner side must rise at least 10 mm; a flange
//   on
//     the field side is reported as a mirrored profile.
inline constexpr std::size_t most_points = 10'000;
[[nodiscard]] WheelProfile measured_wheel(std::span<const double> y, std::span<const double> height, double noise,
                                          std::string name);

} // namespace wingnose::profile
