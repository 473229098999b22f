// Wheelsets that may run, as far as check rails and noses ask: distance of the wheel backs and thickness of the
// flanges, both at the gauge points. Wheelset and check rail are rigid here.
#pragma once

#include "wingnose/layout/turnout/standard.hpp"
#include "wingnose/words/range.hpp"

#include <array>
#include <span>

namespace wingnose::layout::turnout {

struct Wheelset {
  double back_to_back = 1.360;      // m
  double flange_thickness = 0.0325; // m, of a new S1002
  [[nodiscard]] double front_to_front() const { return back_to_back + 2.0 * flange_thickness; }
  // What a nose has to fear: from the back of the one wheel to the front of the other's flange.
  [[nodiscard]] double back_to_flange() const { return back_to_back + flange_thickness; }
  [[nodiscard]] friend bool operator==(const Wheelset&, const Wheelset&) = default;
};
constexpr auto ranges(const Wheelset*) {
  using W = Wheelset;
  return std::array{InRange{&W::back_to_back, "back_to_back", "m", 1.350, 1.370},
                    InRange{&W::flange_thickness, "flange_thickness", "m", 0.020, 0.035}};
}

// What a standard allows, by the diameter of the wheels.
struct WheelsetLimits {
  Range diameter, back_to_back, front_to_front, flange_thickness; // m
  double highest_flange;                                          // m
  Worth trust;
  std::string_view source;
};
[[nodiscard]] std::span<const WheelsetLimits> wheelset_limits(); // the largest wheels first
[[nodiscard]] const WheelsetLimits& limits_of(double diameter);
// Does the standard allow it?
[[nodiscard]] bool allows(const WheelsetLimits& limits, const Wheelset& wheelset);
// With the largest and the least distance from the one back to the other flange.
[[nodiscard]] Wheelset widest(const WheelsetLimits& limits);
[[nodiscard]] Wheelset narrowest(const WheelsetLimits& limits);

} // namespace wingnose::layout::turnout
