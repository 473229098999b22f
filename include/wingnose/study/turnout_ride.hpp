// A whole vehicle in space through the turnout of a case, both rails under it: what its wheels give the rails sideways
// and down, how wheelsets stand, what the check rail takes. Rails are masses that run along under the wheels: guiding
// forces are told, first and second peaks are not (passage/space/ride.hpp).
//
// Of the case it takes turnout and the way on it, crossing, plain rail, profile and radius of the wheels, speed,
// friction (of [damage]) and [spatial]. The wheelset is free: of how [wheel] says it is held, lateral_offset is the
// shift with which the whole vehicle enters, and roll and yaw take no part.
#pragma once

#include "wingnose/assess/assessment.hpp"
#include "wingnose/case/case.hpp"
#include "wingnose/passage/space/history.hpp"
#include "wingnose/quantity/tree.hpp"

#include <optional>
#include <string>
#include <vector>

namespace wingnose::study {

struct TurnoutRide {
  std::string vehicle, turnout; // names
  passage::space::Ground ground;
  passage::space::Rolling rolling;
  passage::space::SpaceHistory history;
  std::vector<std::vector<passage::space::ContactRecord>> contacts; // of every instant of it
  // What the wheel of each wheelset does to the crossing; absent where it never came on the nose and on rails that run
  // along as masses.
  std::vector<std::optional<assess::Measures>> impact;
  assess::Assessment assessment; // its guidance, the leading wheelset's impact, and what was found
};

// Throws InputError where the case has no turnout, where its crossing is no generated one, in a trailing move.
[[nodiscard]] TurnoutRide ride_through(const cases::Case& c);
[[nodiscard]] quantity::Tree tell(const cases::Case& c, const TurnoutRide& ride);

// What `run` answers on the rung of the case: a passage or a ride.
[[nodiscard]] quantity::Tree run_told(const cases::Case& c);

} // namespace wingnose::study
