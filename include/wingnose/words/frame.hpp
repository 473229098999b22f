// The crossing frame, signs and units used by every room of wingnose. Nothing restates them.
//
//        plan view, facing move in +x                    cross-section at a station, looking along +x
//
//   y ^        wing rail  ____________                        z ^
//     |  ________________/  (runs out at 1:N)                   |   wing     nose
//     |  ----------------.    .=========== nose                 |  ______    ___
//     |        gauge line  \ .===========                   0 --+-|______|--/___\--- stock-rail top
//     +------------------- O ------------> x                    +----------------------> y
//                theoretical intersection
//
//  origin   x = 0 and z = 0 at the theoretical intersection of the two gauge lines, at top-of-rail level of the
//           stock rail; y = 0 on the track centre line, so the intersection lies at y = gauge / 2.
//  x        along the route from wing towards nose: a facing move runs in +x, a trailing move in -x.
//  y        from the track centre line outward over the crossing under study.
//  z        up.
//  forces   on the wheel, positive upward; a wheel-rail contact force is never negative.
//  units    SI everywhere inside (m, s, N, kg, rad); only the room io converts.
//
// "Station" is the x coordinate of the axle (of the wheel under study). A wheel's own lateral coordinate starts at
// its taping line (nominal rolling circle), positive towards the field side.
#pragma once

#include "wingnose/words/names.hpp"

#include <array>

namespace wingnose {

inline constexpr double standard_gauge = 1.435;         // m
inline constexpr double gravity = 9.81;                 // m/s2, the value the reference cases were worked with
inline constexpr double flange_back_half_space = 0.680; // m, half of a 1360 mm wheel back-to-back distance
inline constexpr double taping_line_from_back = 0.070;  // m, taping line to flange back (EN 13715)

// Lateral position of the taping line of a centred wheel, from the track centre line (m).
inline constexpr double taping_line_y = flange_back_half_space + taping_line_from_back;

// Sense of a move over the crossing.
enum class Direction { facing, trailing };
constexpr auto names(Direction) {
  return std::array{Name{Direction::facing, "facing", "from wing to nose"},
                    Name{Direction::trailing, "trailing", "from nose to wing"}};
}
[[nodiscard]] constexpr double sense(Direction d) { return d == Direction::facing ? 1.0 : -1.0; }

} // namespace wingnose
