// A wheelset standing on two plain rails, shifted: where both wheels touch, how it rolls, the difference of its rolling
// radii, and the conicity a cone would need to roll in waves as long.
//
// Shift is that of the wheelset at rail level: of the point of its middle plane that lies the mean wheel radius below
// the axle. The axle itself shifts less by radius times roll, which is told too. Sides: first that at +y, then that at
// -y. Rolls and shifts are those of words/frame.hpp: + lifts the +y side, + goes towards +y. SI.
#pragma once

#include "wingnose/contact/normal/hertz.hpp"
#include "wingnose/profile/rail.hpp"
#include "wingnose/profile/wheel.hpp"
#include "wingnose/words/frame.hpp"
#include "wingnose/words/range.hpp"

#include <array>

namespace wingnose::contact {

struct WheelsetOnTrack {
  std::array<profile::WheelProfile, 2> wheel;
  std::array<profile::RailHead, 2> rail; // each seen from the track centre line outward
  std::array<double, 2> radius{0.46, 0.46};
  double half_spacing = taping_line_y; // m, track centre line to taping line
  double gauge = standard_gauge;       // m, at the gauge depth
};
constexpr auto ranges(const WheelsetOnTrack*) {
  using W = WheelsetOnTrack;
  return std::array{InRange{&W::half_spacing, "half_spacing", "m", 0.2, 1.5},
                    InRange{&W::gauge, "gauge", "m", 0.4, 2.0}};
}
[[nodiscard]] WheelsetOnTrack alike(const profile::WheelProfile& wheel, const profile::RailHead& rail,
                                    double radius = 0.46);

// How it stands at one shift.
struct Stand {
  double shift = 0.0;                     // m, at rail level
  double axle_shift = 0.0;                // m, of the axle's middle
  double axle_height = 0.0;               // m, above the rails
  double roll = 0.0;                      // rad
  std::array<double, 2> rolling_radius{}; // m
  std::array<double, 2> wheel_y{};        // m, where the wheels touch, from their taping lines
  [[nodiscard]] double difference() const { return rolling_radius[0] - rolling_radius[1]; }
};

// Both wheels touch in a point, rigid; exact in roll. Throws InputError for values out of range, ComputeError where one
// of the wheels does not meet its rail.
[[nodiscard]] Stand standing(const WheelsetOnTrack& set, double shift);

// Each wheel carries the load (N, > 0): one ellipse after Hertz for each region of overlap, told by means over the
// penetration (search/patches.hpp), the rolling radius their mean weighted by force. Of second order in roll nothing is
// kept. Where contact spreads over or jumps across the profile the load smooths what the rigid wheelset does at once.
[[nodiscard]] Stand standing(const WheelsetOnTrack& set, double shift, double load, const Elastic& material = {});

// Shift at which the rolling radii are alike or, where contact jumps, change sides (m); rigid; 0 where both sides are
// alike.
[[nodiscard]] double centre(const WheelsetOnTrack& set);

// Equivalent conicity at an amplitude of shift (m, half of the way between both turning points): that of the cones on
// which a free wheelset without mass would roll in waves as long, y'' = -difference / (2 half_spacing radius) (EN
// 15302). Rigid, or under a load (N) a wheel. Throws ComputeError where the wheelset does not roll back towards its
// centre.
[[nodiscard]] double equivalent_conicity(const WheelsetOnTrack& set, double amplitude);
[[nodiscard]] double equivalent_conicity(const WheelsetOnTrack& set, double amplitude, double load,
                                         const Elastic& material = {});

} // namespace wingnose::contact
