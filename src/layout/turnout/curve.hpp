// The curve of the diverging route to the left, from the start of the turnout to where it ends.
#pragma once

#include "wingnose/layout/turnout/route.hpp"
#include "wingnose/layout/turnout/turnout.hpp"

#include <vector>

namespace wingnose::layout::turnout {

void check_values(const Turnout& turnout); // all but what its geometry shows; throws InputError
[[nodiscard]] std::vector<Stretch> curve_of(const Turnout& turnout); // throws InputError

} // namespace wingnose::layout::turnout
