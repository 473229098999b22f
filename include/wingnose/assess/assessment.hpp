// All that one passage tells in numbers: the wheel path read, the forces measured, the closed forms beside them, and,
// where asked for, what the landing does to the steel. The table of quantities (wingnose/quantity/quantity.hpp) reads
// its numbers from here.
#pragma once

#include "wingnose/assess/damage.hpp"
#include "wingnose/assess/guidance.hpp"
#include "wingnose/assess/measures.hpp"
#include "wingnose/assess/sensor.hpp"
#include "wingnose/assess/track_measures.hpp"
#include "wingnose/closedform/joint_forces.hpp"
#include "wingnose/contact/path/kinematics.hpp"
#include "wingnose/words/column.hpp"
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
inline constexpr auto estimate_columns = std::to_array<Column<Estimate>>(
    {{"p1_kN", "P1", "P1, indicative only", [](const Estimate& e) { return e.forces.P1; }, 1},
     {"p2_kN", "P2", "P2", [](const Estimate& e) { return e.forces.P2; }, 1},
     {"p2_frequency_hz", "f2", "frequency of P2", [](const Estimate& e) { return e.forces.f2; }, 1},
     {"p2_damping_ratio", "damping", "damping ratio of P2", [](const Estimate& e) { return e.forces.zeta; }, 3},
     {"track_mass_kg", "mass", "lumped mass of the track", [](const Estimate& e) { return e.input.track.m_T2; }, 0},
     {"track_stiffness_MN_m", "stiffness", "lumped stiffness of the track",
      [](const Estimate& e) { return e.input.track.k_T2; }, 1},
     {"track_damping_kNs_m", "damper", "lumped damper of the track",
      [](const Estimate& e) { return e.input.track.c_T2; }, 1}});

struct Assessment {
  double speed = 0.0; // m/s
  contact::Kinematics kinematics;
  std::optional<Measures> measures; // none: the wheel was rolled, not passed
  std::optional<TrackMeasures> track;
  std::vector<SensorReading> sensors; // with the probes
  std::vector<Estimate> estimates;    // "derived" first
  std::optional<SteelMeasures> steel;
  std::optional<Guidance> guidance; // of a vehicle in space, which has nothing of the above but its speed
  Findings findings;                // of all of these
};

} // namespace wingnose::assess
