// All that one passage tells in numbers: the wheel path read, the forces measured, the closed forms beside them, and,
// where asked for, what the landing does to the steel. The table of quantities (wingnose/quantity/quantity.hpp) reads
// its numbers from here.
#pragma once

#include "wingnose/assess/damage.hpp"
#include "wingnose/assess/measures.hpp"
#include "wingnose/closedform/joint_forces.hpp"
#include "wingnose/contact/path/kinematics.hpp"
#include "wingnose/words/finding.hpp"

#include <optional>
#include <string>
#include <vector>

namespace wingnose::assess {

// Closed forms of a case for one lumped track; absent forces: not available, and `why`.
struct Estimate {
  std::string track_name; // "derived", "GM/TT0088"
  closedform::JointCase input;
  closedform::JointForces forces;
  std::string assumptions;
};

struct Assessment {
  double speed = 0.0; // m/s
  contact::Kinematics kinematics;
  std::optional<Measures> measures; // none: the wheel was rolled, not passed
  std::vector<Estimate> estimates;  // "derived" first
  std::optional<SteelMeasures> steel;
  Findings findings; // of all of these
};

} // namespace wingnose::assess
