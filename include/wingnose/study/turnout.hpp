// The turnout of a case: where its routes lie, what the speed of the case asks of the way taken, what a wheelset finds
// between check rail and nose. Geometry and standards alone, see layout/turnout; nothing is simulated.
#pragma once

#include "wingnose/case/case.hpp"
#include "wingnose/layout/turnout/bodies.hpp"
#include "wingnose/layout/turnout/functional.hpp"
#include "wingnose/layout/turnout/geometry.hpp"
#include "wingnose/layout/turnout/kinematics.hpp"
#include "wingnose/quantity/tree.hpp"
#include "wingnose/words/finding.hpp"

#include <optional>
#include <string>
#include <vector>

namespace wingnose::study {

// A number beside the value of a standard, each in its unit.
struct Held {
  std::string what, unit;
  double value; // SI
  layout::turnout::Standard standard;
};

struct TurnoutStudy {
  layout::turnout::Turnout turnout;
  layout::turnout::Way way;
  double speed; // m/s
  layout::turnout::Geometry geometry;
  std::vector<layout::turnout::Lying> lying;
  layout::turnout::Faces drawn, found;
  layout::turnout::WheelsetLimits limits; // of the wheels of the case
  layout::turnout::Wheelset nominal;
  double flange_height; // m, of the nominal one
  layout::turnout::Margins nominal_margins, least_margins;
  layout::turnout::Touches nominal_touches, widest_touches;
  layout::turnout::Kinematics kinematics;
  double speed_for_design;                     // m/s, on the diverging route
  std::optional<layout::turnout::Entry> entry; // where the way diverges
  std::optional<layout::turnout::Meeting> met; // wheel back with the check rail, the other flange on its rail
  layout::turnout::CheckFace face;
  std::vector<Held> held; // by the speed
  Findings findings;
};
// Throws InputError where the case has no turnout, or one that cannot be built.
[[nodiscard]] TurnoutStudy study_turnout(const cases::Case& c);
[[nodiscard]] quantity::Tree tell(const cases::Case& c, const TurnoutStudy& study);

} // namespace wingnose::study
