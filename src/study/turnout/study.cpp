#include "wingnose/study/turnout.hpp"

#include "findings.hpp"

#include "wingnose/case/case.hpp"

#include <cmath>

namespace wingnose::study {
namespace {

namespace plan = layout::turnout;

constexpr double nominal_flange_height = 0.028; // m, of a new S1002 (EN 13715)

layout::turnout::Turnout turnout_in(const cases::Case& c) {
  auto turnout = cases::turnout_of(c);
  if (!turnout) {
    throw InputError("this case has no turnout; give one under [turnout], such as geometry = \"preset\" with preset = "
                     "\"R300-1:9\", or geometry = \"drawing\" with curve_radius_m and curve_rate");
  }
  return *std::move(turnout);
}

double wheel_radius(const cases::Case& c) {
  const vehicle::Vehicle v = cases::vehicle_of(c);
  return v.wheels[static_cast<std::size_t>(c.passage.reported_wheel) - 1].radius;
}

// Of a crossing that is no generated one, the rails alone.
std::vector<plan::Lying> bodies(const cases::Case& c, const plan::Turnout& turnout, plan::Way way) {
  const auto rail = profile::rail_head(c.plain_rail.head, c.plain_rail.inclination);
  const auto* shape = std::get_if<layout::CrossingShape>(&c.excitation);
  auto list = plan::lying(plan::lay(turnout, way, shape != nullptr ? *shape : layout::CrossingShape{}, rail));
  if (shape == nullptr) {
    std::erase_if(list,
                  [](const plan::Lying& l) { return l.role == layout::Role::wing || l.role == layout::Role::nose; });
  }
  return list;
}

// Where the flange of the nominal wheelset runs along the rail of the crossing, the other wheel's back comes nearest to
// the check rail.
std::optional<plan::Meeting> first_met(const TurnoutStudy& s, double radius, Direction direction) {
  const double y = s.found.gauge - s.nominal.back_to_flange();
  const double chord = plan::half_chord(radius, radius + s.flange_height, s.found.height);
  return plan::first_contact(s.face, {y, 0.0, chord}, direction);
}

void hold(TurnoutStudy& s) {
  const plan::Kinematics& k = s.kinematics;
  const plan::MetFlares flares = plan::met_flares(s.turnout, s.found, s.limits);
  s.held = {
      {"unbalanced acceleration", "m/s2", k.acceleration, plan::design_acceleration()},
      {"cant deficiency", "mm", k.cant_deficiency, plan::design_deficiency()},
      {"abrupt change of cant deficiency", "mm", k.abrupt_change, plan::abrupt_change_limit(s.speed)},
      {"speed across at the flare of the check rail", "km/h", s.speed * std::sin(flares.check), plan::flare_speed()},
      {"speed across at the flare of the wing rail", "km/h", s.speed * std::sin(flares.wing), plan::flare_speed()},
      {"gauge found, not less than", "mm", s.found.gauge, plan::gauge_limits(s.speed).least},
      {"gauge found, not more than", "mm", s.found.gauge, plan::gauge_limits(s.speed).most}};
}

} // namespace

TurnoutStudy study_turnout(const cases::Case& c) {
  const plan::Turnout turnout = turnout_in(c);
  const plan::Way way = c.turnout.way;
  const double radius = wheel_radius(c);
  const plan::Geometry geometry = plan::geometry(turnout);
  TurnoutStudy s{turnout,
                 way,
                 c.passage.speed,
                 geometry,
                 bodies(c, turnout, way),
                 plan::drawn(turnout, way),
                 plan::found(turnout, way),
                 plan::limits_of(2.0 * radius),
                 c.turnout.wheelset,
                 nominal_flange_height,
                 {},
                 {},
                 {},
                 {},
                 plan::kinematics(plan::route(geometry, way), c.passage.speed),
                 plan::speed_of_deficiency(geometry.diverging, plan::design_deficiency().value),
                 std::nullopt,
                 std::nullopt,
                 {},
                 {},
                 {}};
  s.nominal_margins = plan::margins(s.found, s.nominal, s.flange_height);
  s.least_margins = plan::least_margins(s.found, s.limits);
  s.nominal_touches = plan::touches(s.found, s.nominal);
  s.widest_touches = plan::touches(s.found, plan::widest(s.limits));
  s.face = plan::check_rail(turnout, s.found).face;
  s.met = first_met(s, radius, c.passage.direction);
  const double play = plan::touches(plan::drawn(turnout, plan::Way::through), s.nominal).stock;
  if (way == plan::Way::diverging && play > 0.0) {
    s.entry = plan::switch_entry(geometry.diverging, play);
  }
  hold(s);
  s.findings = findings_of(c, s);
  return s;
}

} // namespace wingnose::study
