// A whole vehicle in space through the turnout of a case, both rails under it: what its wheels give the rails sideways
// and down, how wheelsets stand, what the check rail takes. Rails are masses that run along under the wheels: guiding
// forces are told, first and second peaks are not (passage/space/ride.hpp).
#pragma once

#include "wingnose/case/case.hpp"
#include "wingnose/passage/space/history.hpp"
#include "wingnose/quantity/tree.hpp"
#include "wingnose/words/finding.hpp"

#include <optional>
#include <string>
#include <vector>

namespace wingnose::study {

struct TurnoutRideOptions {
  std::string vehicle = "coach_1998"; // preset of vehicles in space
  double check_stiffness = 50e6;      // N/m, of the check rail
  double step = 2e-4;                 // s
};
constexpr auto ranges(const TurnoutRideOptions*) {
  using O = TurnoutRideOptions;
  return std::array{InRange{&O::check_stiffness, "check_stiffness", "N/m", 1e6, 1e9},
                    InRange{&O::step, "step", "s", 1e-5, 5e-4}};
}

// Of one wheelset. Means are sliding ones over 2 m.
struct GuidedWheelset {
  std::string name;
  double static_load;     // N, of a wheel, mean of both
  double sum_of_Y;        // N, largest 2 m mean of both wheels together, without sign
  double prudhomme;       // N, 10 kN and a third of the axle load beside it
  double outward_over_Q;  // -, largest 2 m mean of Y outward over that of Q, of either wheel
  double most_Q, least_Q; // N, of both wheels: 2 m means
  double most_shift;      // m, without sign, where it rolls
  double most_attack;     // rad, yaw without sign
  std::optional<passage::space::CheckRailBlow> check;
};

struct TurnoutRide {
  TurnoutRideOptions options;
  std::string turnout;
  layout::turnout::Way way;
  double speed;    // m/s
  double friction; // -, at no slip
  passage::space::SpaceHistory history;
  std::vector<GuidedWheelset> wheelsets;
  Findings findings;
};

// Speed, wheel profile, friction (of [damage]) and crossing are the case's. Throws InputError where the case has no
// turnout, where its crossing is no generated one, in a trailing move.
[[nodiscard]] TurnoutRide ride_through(const cases::Case& c, const TurnoutRideOptions& options = {});
[[nodiscard]] quantity::Tree tell(const cases::Case& c, const TurnoutRide& ride);

} // namespace wingnose::study
