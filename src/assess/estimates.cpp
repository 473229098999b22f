#include "wingnose/assess/estimates.hpp"

#include "wingnose/closedform/foundation_beam.hpp"
#include "wingnose/words/error.hpp"
#include "wingnose/words/number.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace wingnose::assess {

double contact_stiffness(const EstimateInput& in) {
  const std::vector<double>& x = in.path.station;
  const double landing = contact::landing_station(in.path, in.kinematics);
  const auto at = static_cast<std::size_t>(
      std::min(std::lower_bound(x.begin(), x.end(), landing) - x.begin(), static_cast<std::ptrdiff_t>(x.size()) - 1));
  const auto& bodies = in.path.bodies;
  const auto body = std::find_if(bodies.begin(), bodies.end(), [&](const contact::BodyPath& b) {
    return std::isfinite(b.height[at]) && std::isfinite(b.curvature_y[at]);
  });
  if (in.law != nullptr) {
    const auto which = static_cast<std::size_t>(body - bodies.begin());
    const contact::ForceLaw law = in.material.combined() * in.law->body[which][at];
    return law.at(contact::depth_for_force(law, in.static_load, in.law->reach), in.law->reach).stiffness;
  }
  const double hertz = contact::hertz_stiffness(body->curvature_x[at], body->curvature_y[at], in.material);
  return contact::hertz_tangent_stiffness(hertz, in.static_load);
}

closedform::LumpedTrack derived_track(const track::Track& t) {
  const track::Seat& seat = t.seat;
  const double stiffness = seat.pad_stiffness * seat.ballast_stiffness / (seat.pad_stiffness + seat.ballast_stiffness);
  const double ballast_share = stiffness / seat.ballast_stiffness, pad_share = stiffness / seat.pad_stiffness;
  const double damping =
      seat.ballast_damping * ballast_share * ballast_share + seat.pad_damping * pad_share * pad_share;
  const double mass = t.rail.rho_A + seat.bearer_mass * ballast_share * ballast_share / t.spacing;
  return closedform::lumped_track(closedform::FoundationBeam{t.rail.EI, stiffness / t.spacing}, mass,
                                  damping / t.spacing);
}

std::vector<Estimate> estimates(const EstimateInput& in, std::span<const closedform::ConstantSet> sets,
                                Findings* findings) {
  closedform::JointCase joint;
  joint.static_load = in.static_load;
  joint.unsprung_mass = in.unsprung_mass;
  joint.speed = in.speed;
  joint.dip_angle = in.dip_angle.value_or(in.kinematics.dip_angle);
  std::vector<Estimate> result;
  const auto missing = [&](const ComputeError& error, std::string where) {
    if (findings != nullptr) {
      findings->push_back(
          {FindingKind::no_closed_form, std::string("not available, because ") + error.what(), std::move(where)});
    }
  };
  const auto add = [&](const std::string& name, const auto& track, std::string assumptions) {
    try {
      joint.track = track();
      result.push_back({name, joint, closedform::joint_forces(joint), std::move(assumptions)});
    } catch (const ComputeError& error) {
      missing(error, "closed form " + name);
    }
  };
  if (!(joint.dip_angle >= 0.0 && joint.dip_angle <= closedform::most_dip_angle)) {
    if (findings != nullptr) {
      findings->push_back({FindingKind::dip_beyond_closed_form,
                           "the total dip angle of " + number(1e3 * joint.dip_angle, 4) +
                               " mrad is outside the range of the closed forms, 0 to " +
                               number(1e3 * closedform::most_dip_angle) + " mrad; they are left out"});
    }
    return result;
  }
  try {
    joint.k_H = contact_stiffness(in);
  } catch (const ComputeError& error) {
    missing(error, "");
    return result;
  }
  joint.m_e = closedform::effective_rail_mass(in.track.rail.EI, in.track.rail.rho_A, 500.0);
  const std::string dip = in.dip_angle ? "as given, " + number(1e3 * *in.dip_angle) + " mrad (" +
                                             number(1e3 * in.kinematics.dip_angle, 4) +
                                             " mrad are read from the wheel path beside the joint)"
                                       : "from the kinematic passage";
  add(
      "derived", [&] { return derived_track(in.track); },
      "lumped track from the beam on elastic foundation (plain rail and ordinary seats; castings, single seats and "
      "voids are not in it); total dip angle " +
          dip + "; effective rail mass at 500 Hz; P1 is indicative only");
  for (const closedform::ConstantSet& set : sets) {
    add(
        set.name, [&] { return set.track; }, "lumped track constants of " + set.source + " (" + set.status + ")");
  }
  return result;
}

} // namespace wingnose::assess
