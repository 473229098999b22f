// What a body of the track is to a wheel, and beside which rail it lies: what search, passage and measures ask for.
#pragma once

#include "wingnose/words/names.hpp"

#include <array>

namespace wingnose::layout {

enum class Role { stock, wing, nose, check, blade };
constexpr auto names(Role) {
  return std::array{Name{Role::stock, "stock", "a plain rail"},
                    Name{Role::wing, "wing", "the rail a facing wheel leaves at a crossing"},
                    Name{Role::nose, "nose", "the vee a facing wheel lands on"},
                    Name{Role::check, "check", "guides the back of a flange"},
                    Name{Role::blade, "blade", "the moving rail of a switch"}};
}

// Which wheel of a wheelset meets the body. Surfaces are drawn outward from the track centre line on either side, so
// that a wheel and its body always share one lateral coordinate.
enum class Side { crossing, opposite };
constexpr auto names(Side) {
  return std::array{Name{Side::crossing, "crossing", "of the crossing under study, y > 0"},
                    Name{Side::opposite, "opposite", "of the other rail, y < 0"}};
}

} // namespace wingnose::layout
