// Closed forms for a passage: what they are put in from path, vehicle and track, and what comes out (closedform/
// joint_forces.hpp). SI.
#pragma once

#include "wingnose/assess/assessment.hpp"
#include "wingnose/contact/normal/hertz.hpp"
#include "wingnose/contact/path/path_law.hpp"
#include "wingnose/track/track.hpp"

#include <optional>
#include <span>
#include <vector>

namespace wingnose::assess {

struct EstimateInput {
  double static_load, unsprung_mass, speed; // N, kg, m/s, of the reported wheel
  const contact::WheelPath& path;           // its own
  const contact::PathLaw* law;              // along that path, for E* = 1 Pa; nullptr: Hertz's ellipses
  const contact::Kinematics& kinematics;
  std::optional<double> dip_angle; // rad, total, where the case gives it; otherwise the kinematic passage tells it
  contact::Elastic material;
  track::Track track;
};

// Contact stiffness (N/m) linearised at the static load where the wheel lands. Throws ComputeError where it does not.
[[nodiscard]] double contact_stiffness(const EstimateInput& input);
// Lumped track of the beam on elastic foundation. Pad and ballast act in series: at the frequency of P2 the softer
// ballast governs the damping, seen through the share of the deflection that the ballast takes.
[[nodiscard]] closedform::LumpedTrack derived_track(const track::Track& track);

// One per lumped track: "derived" first, then `sets`. One that does not exist is left out, and `findings`, where given,
// says why.
[[nodiscard]] std::vector<Estimate> estimates(const EstimateInput& input, std::span<const closedform::ConstantSet> sets,
                                              Findings* findings = nullptr);

} // namespace wingnose::assess
