#include "wingnose/study/turnout_ride.hpp"

#include "findings.hpp"

#include "wingnose/assess/space_measures.hpp"
#include "wingnose/layout/turnout/functional.hpp"
#include "wingnose/layout/turnout/geometry.hpp"
#include "wingnose/study/run.hpp"
#include "wingnose/track/chain/across.hpp"
#include "wingnose/words/unit.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <optional>
#include <utility>

namespace wingnose::study {
namespace {

namespace space = passage::space;
namespace plan = layout::turnout;

constexpr double run_out = 5.0;       // m, beyond what is met last
constexpr double run_in = 5.0;        // m, ahead of the switch
constexpr double feared_nose = 50e-3; // m, thickness of a nose up to which a flange is held off it

std::array<double, 3> check_stiffness(const cases::Spatial& s) {
  constexpr double usual = 2.0;
  return {s.check_stiffness, s.least_check_stiffness.value_or(s.check_stiffness / usual),
          s.most_check_stiffness.value_or(s.check_stiffness * usual)};
}

void refuse_what_is_held(const cases::Case& c) {
  if (!cases::turnout_of(c)) {
    throw InputError("this case has no turnout; give one under [turnout], such as geometry = \"preset\" with preset = "
                     "\"R300-1:9\"");
  }
  if (std::get_if<layout::CrossingShape>(&c.excitation) == nullptr) {
    throw InputError("crossing.kind", '"' + std::string(name(c.excitation)) + '"', "\"generated\"",
                     "A ride through a turnout lays a generated crossing at the rate at which its rails cross.");
  }
  if (c.passage.direction != Direction::facing) {
    throw InputError("passage.direction", "\"trailing\"", "\"facing\"",
                     "A ride through a turnout is told of a facing move.");
  }
}

std::string in_MN_m(double stiffness) { return number(stiffness * 1e-6) + " MN/m"; }

std::string unevenness(const cases::Case& c, const layout::Irregularity& rails) {
  double height = 0.0, lateral = 0.0;
  for (const layout::IrregularityPoint& p : rails.points()) {
    height = std::max({height, std::abs(p.left_height), std::abs(p.right_height)});
    lateral = std::max({lateral, std::abs(p.left_lateral), std::abs(p.right_lateral)});
  }
  return "rails lie off where they are drawn as " + c.spatial.irregularity_csv + " says, from station " +
         number(rails.points().front().station) + " to " + number(rails.points().back().station) + " m, by up to " +
         in_mm(height) + " in height and " + in_mm(lateral) +
         " across, smooth between its rows; the check rail goes with its stock rail, and slopes turn no surface";
}

Findings findings_of(const cases::Case& c, const TurnoutRide& r) {
  Findings out;
  const auto assume = [&](std::string what) { out.push_back({FindingKind::assumption, std::move(what)}); };
  if (const auto& hit = r.history.run_into) {
    out.push_back({FindingKind::nose_point_hit,
                   "wheel " + std::to_string(hit->wheel + 1) + " of wheelset " + std::to_string(hit->wheelset + 1) +
                       " runs into the " + r.ground.bodies[static_cast<std::size_t>(hit->body)].name +
                       " with its profile " + in_mm(hit->wheel_y) +
                       " from the taping line; the ride ends there with what is known",
                   "station " + in_mm(hit->station)});
  }
  for (const assess::GuidedWheelset& set : r.assessment.guidance->wheelsets) {
    if (set.nose_margin && *set.nose_margin < 0.0) {
      out.push_back({FindingKind::nose_in_reach, "on the thin nose the front of the flange of " + set.name + " comes " +
                                                     in_mm(-*set.nose_margin) + " beyond its running face"});
    }
  }
  out.push_back({FindingKind::switch_without_blades, "the switch is a step of curvature, or the beginning of a "
                                                     "transition; it has no blades"});
  const bool bending = c.spatial.rails == cases::RailsBelow::bending;
  assume(bending
             ? "rails bend on the bearers of [track], up and across; across, rail, fastenings and ballast are those "
               "of common practice, and what the track feels is not told"
             : "rails are masses on springs that run along under the wheels: guiding forces are told, first and "
               "second peaks and what the track feels are not; spatial.rails = \"bending\" has them");
  const auto stiffness = check_stiffness(c.spatial);
  assume("the check rail is a rigid face on a spring of " + in_MN_m(stiffness[0]) +
         ": forces on it go about with the root of that, and are told also as a band from " + in_MN_m(stiffness[1]) +
         " to " + in_MN_m(stiffness[2]));
  assume(std::string("of the case the ride takes turnout, crossing, plain rail, profile and radius of the wheels, "
                     "speed, friction") +
         (bending ? ", [track] and [spatial]; its [vehicle]" : " and [spatial]; its [vehicle], its [track]") +
         " and its law of contact are not in these numbers");
  assume("wheelsets are free: wheel.lateral_offset_mm, " + in_mm(c.wheel.lateral_offset) +
         ", is the shift with which the whole vehicle enters, settled on plain rails; means over 2 m count from 2 m "
         "behind "
         "there");
  if (c.wheel.roll != 0.0 || c.wheel.yaw != 0.0) {
    assume("wheel.roll_mrad and wheel.yaw_mrad hold a wheel of the vertical rung; wheelsets of this ride find both "
           "themselves");
  }
  if (r.ground.irregularity) {
    assume(unevenness(c, *r.ground.irregularity));
  }
  assume("wheelsets do not bend; their backs are 1360 mm apart");
  return out;
}

// Over the friction of the law, body by body.
void rub(space::Ground& ground, const cases::Spatial& s, double friction) {
  for (std::size_t body = 0; body < ground.bodies.size(); ++body) {
    const layout::Role role = ground.bodies[body].role;
    const std::optional<double> given = role == layout::Role::wing   ? s.wing_friction
                                        : role == layout::Role::nose ? s.nose_friction
                                                                     : s.stock_friction;
    ground.lie[body].friction = given ? *given / friction : 1.0;
  }
}

space::Ride ride_of(const cases::Case& c, const space::Ground& ground, double length) {
  const double begin = c.turnout.way == plan::Way::through ? c.spatial.enters_at : ground.route.begin() - run_in;
  const double end = std::max(ground.check->face.end(), 0.0) + length + run_out;
  // A wheel that is thrown onto a bending rail has its peak within a third of a millisecond.
  const bool bending = c.spatial.rails == cases::RailsBelow::bending;
  return {.speed = c.passage.speed,
          .begin = begin,
          .length = end - begin,
          .step = bending ? 0.5 * c.spatial.step : c.spatial.step,
          .longest_step = bending ? c.spatial.step : 0.0,
          .stride = 1,
          .shift = c.wheel.lateral_offset};
}

// Two rails wherever a wheel comes, on the bearers of the case.
std::shared_ptr<const track::chain::Chain> rails_below(const cases::Case& c, const space::Ride& ride, double length) {
  if (c.spatial.rails == cases::RailsBelow::co_running) {
    return nullptr;
  }
  cases::Track track = c.track;
  track.rails = cases::Rails::two;
  return track::chain::make_chain(
      track::chain::with_across(cases::chain_of(track, ride.begin - length, ride.begin + ride.length)));
}

// Seen as the ground is, with the crossing on the left.
std::shared_ptr<const layout::Irregularity> irregularity_below(const cases::Case& c, const plan::Turnout& turnout) {
  if (c.spatial.irregularity->empty()) {
    return nullptr;
  }
  layout::Irregularity rails(*c.spatial.irregularity);
  return std::make_shared<const layout::Irregularity>(
      plan::crossing_at_left(turnout, c.turnout.way) ? std::move(rails) : rails.mirrored());
}

// From where the wheel first comes on the nose.
std::vector<std::optional<assess::Measures>> impacts(const TurnoutRide& r, const assess::MeasureOptions& options) {
  std::vector<std::optional<assess::Measures>> out;
  const space::SpaceHistory& h = r.history;
  for (Eigen::Index w = 0; w < h.wheelsets(); ++w) {
    Eigen::Index k = 0;
    while (k < h.on_nose.rows() && !(h.on_nose(k, 2 * w) > 0.0)) {
      ++k;
    }
    const bool on_nose = h.rails_bend && k < h.on_nose.rows() && !h.run_into;
    out.push_back(on_nose ? assess::measure(h, r.rolling, r.ground, static_cast<int>(w), 0,
                                            h.station[static_cast<std::size_t>(k)] +
                                                r.rolling.model.vehicle.wheelsets[static_cast<std::size_t>(w)].x,
                                            options)
                          : std::nullopt);
  }
  return out;
}

} // namespace

TurnoutRide ride_through(const cases::Case& c) {
  refuse_what_is_held(c);
  demand_ranges(c.spatial, "spatial");
  const plan::Turnout turnout = *cases::turnout_of(c);
  const auto& shape = std::get<layout::CrossingShape>(c.excitation);
  const vehicle::space::SpatialVehicle vehicle = cases::space_vehicle_of(c);
  const profile::WheelProfile wheel = cases::profile_of(c.wheel);
  const double length = -vehicle.wheelsets.back().x; // m, over its axles
  const contact::Friction friction{c.damage.friction, c.damage.friction_ratio, c.damage.friction_decay};
  TurnoutRide out;
  out.vehicle = vehicle.name;
  out.turnout = turnout.name;
  out.ground =
      space::over_turnout(turnout, c.turnout.way, shape,
                          profile::rail_head(c.plain_rail.head, c.plain_rail.inclination), length + 3.0 * run_out);
  out.rolling = space::rolling(vehicle, wheel);
  out.rolling.law = contact::Cubic{friction};
  rub(out.ground, c.spatial, friction.mu0);
  const auto stiffness = check_stiffness(c.spatial);
  out.ground.check->stiffness = stiffness[0];
  out.ground.check->friction = c.spatial.check_friction;
  out.ground.irregularity = irregularity_below(c, turnout);
  const space::Ride ride = ride_of(c, out.ground, length);
  out.ground.bends = rails_below(c, ride, length);
  out.history = space::simulate(out.rolling, out.ground, ride, out.contacts);
  out.contacts.resize(out.history.time.size());

  const plan::Faces found = plan::found(turnout, c.turnout.way);
  assess::Guidance guidance = assess::guidance({.history = out.history,
                                                .contacts = out.contacts,
                                                .rolling = out.rolling,
                                                .ground = out.ground,
                                                .wheel = wheel,
                                                .friction = friction.mu0,
                                                .nose_face = found.nose - 0.5 * found.gauge,
                                                .nose_end = feared_nose * plan::geometry(turnout).rate_at_nose});
  const bool touched = std::any_of(guidance.wheelsets.begin(), guidance.wheelsets.end(),
                                   [](const auto& w) { return w.check.has_value(); });
  for (std::size_t i = 1; touched && i < stiffness.size(); ++i) { // until it is touched they are the same ride
    if (stiffness[i] != stiffness[0]) {
      space::Ground other = out.ground;
      other.check->stiffness = stiffness[i];
      assess::widen(guidance, space::simulate(out.rolling, other, ride), out.rolling);
    }
  }
  out.impact = impacts(out, c.measures);
  out.assessment.measures = out.impact.front();
  out.assessment.speed = c.passage.speed;
  out.assessment.guidance = std::move(guidance);
  out.assessment.findings = findings_of(c, out);
  if (out.assessment.measures) {
    const Findings& more = out.assessment.measures->findings;
    out.assessment.findings.insert(out.assessment.findings.end(), more.begin(), more.end());
  }
  return out;
}

quantity::Tree run_told(const cases::Case& c) {
  return c.rung == cases::Rung::spatial ? tell(c, ride_through(c)) : tell(c, run(c));
}

} // namespace wingnose::study
