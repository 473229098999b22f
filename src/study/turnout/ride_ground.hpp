// What a ride runs over, for pictures: bodies in plan, sections across at some stations with the wheelset in them.
#pragma once

#include "wingnose/study/turnout_ride.hpp"

namespace wingnose::study {

void add_ground(quantity::Tree& tree, const cases::Case& c, const TurnoutRide& ride);

} // namespace wingnose::study
