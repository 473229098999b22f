// What one value of a case alone cannot show: what contradicts what.
#include "wingnose/case/case.hpp"

#include "wingnose/vehicle/space/model.hpp"
#include "wingnose/words/text.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace wingnose::cases {
namespace {

void check_crossing(const Case& c) {
  if (const auto* shape = std::get_if<layout::CrossingShape>(&c.excitation)) {
    layout::check(*shape);
  } else if (const auto* sections = std::get_if<layout::SectionedShape>(&c.excitation)) {
    demand_ranges(*sections, "crossing");
  } else if (const auto* joint = std::get_if<layout::DippedJoint>(&c.excitation)) {
    demand_ranges(*joint, "joint");
  }
  demand_ranges(c.plain_rail, "plain rail");
}

// A joint or a given path has no surface to be searched, which a turned wheel would meet elsewhere.
void check_surface(const Case& c) {
  if (layout::is_crossing(c.excitation)) {
    return;
  }
  const std::string kind = "with crossing.kind = \"" + std::string(name(c.excitation)) + "\"";
  const std::string advice =
      "It has no surface to search or to turn a wheel on; remove the key or run over a crossing.";
  for (const auto& [key, value] :
       {std::pair{"wheel.roll_mrad", c.wheel.roll}, std::pair{"wheel.yaw_mrad", c.wheel.yaw}}) {
    if (value != 0.0) {
      throw InputError(key, number(value * 1e3) + " mrad", "0 " + kind, advice);
    }
  }
  if (c.contact.search == contact::SearchAt::step) {
    throw InputError("contact.search", "\"step\"", "\"path\" " + kind, advice);
  }
}

void check_passage(const Case& c) {
  const Passage& p = c.passage;
  demand_ranges(p, "passage");
  if (p.longest_step) {
    demand_within("passage longest_step", *p.longest_step, range_of<&Passage::step>(), "s");
  }
  if (p.from >= p.to) {
    throw Contradiction("from", p.from, Bound::below, p.to, "to",
                        "Stations grow from wing to nose, whatever the direction of travel.");
  }
  if (c.contact.search == contact::SearchAt::step && p.method != passage::Method::modal_exponential) {
    throw InputError("contact.search", "\"step\"",
                     "\"path\" with passage.method = \"" + std::string(name(p.method)) + "\"",
                     "Remove one of the two keys.");
  }
  if (c.track.method == TrackMethod::chain && p.method != passage::Method::modal_exponential) {
    throw InputError("track.method", "\"chain\"",
                     "\"modes\" with passage.method = \"" + std::string(name(p.method)) + "\"",
                     "Remove one of the two keys.");
  }
  // Filters end well below half of the sampling rate.
  const double most = 0.45 / p.step;
  for (const auto& [member, cut_off] : {std::pair{"p2_cut_off", c.measures.p2_cut_off},
                                        std::pair{"acceleration_cut_off", c.measures.acceleration_cut_off}}) {
    if (cut_off >= most) {
      throw Contradiction(member, cut_off, Bound::below, most, "step", "Take a shorter step or a lower cut-off.");
    }
  }
}

void check_vehicle(const Case& c) {
  const vehicle::Vehicle v = vehicle_of(c);
  if (c.passage.reported_wheel > static_cast<int>(v.wheels.size())) {
    throw InputError("passage.reported_wheel", std::to_string(c.passage.reported_wheel),
                     "1 to " + std::to_string(v.wheels.size()) + " with vehicle." +
                         (c.vehicle.table ? "file" : "preset") + " \"" +
                         (c.vehicle.table ? c.vehicle.table->file : c.vehicle.preset) + "\"",
                     "The vehicle has no more wheels on one rail.");
  }
}

void check_turnout(const Case& c) {
  const layout::turnout::CheckRail& rail = c.turnout.drawing.check_rail;
  if (rail.nose_protection && rail.flangeway) {
    throw InputError("turnout.check_flangeway_mm", plain(*rail.flangeway * 1e3) + " mm",
                     "left out beside turnout.nose_protection_mm = " + plain(*rail.nose_protection * 1e3) + " mm",
                     "Gauge less nose protection is the flangeway of the check rail: give one of the two.");
  }
  if (const auto turnout = turnout_of(c)) {
    layout::turnout::check(*turnout);
    demand_ranges(c.turnout.wheelset, "turnout");
  }
}

void check_bearer(const Bearer& b, const std::string& whose) {
  demand_ranges(b, whose);
  const auto demand = [&](const std::optional<double>& value, const Range& range, const char* what, const char* unit) {
    if (value) {
      demand_within(whose + " " + what, *value, range, unit);
    }
  };
  demand(b.pad_knee, knee_range, "pad_knee", "m");
  demand(b.ballast_knee, knee_range, "ballast_knee", "m");
  demand(b.clip_load, clip_range, "clip_load", "N");
  demand(b.under_sleeper_pad, under_sleeper_range, "under_sleeper_pad", "N/m3");
}

std::string in_mm(double value) { return number(value * 1e3, digits_of_a_key) + " mm"; }

// That bearers lie under their rails and beside each other. section: "track.bearers".
void check_place(const Track& t, const Bearer& b, const std::string& section) {
  const double rail = 0.5 * t.rail_distance, from = b.offset - 0.5 * b.length, to = b.offset + 0.5 * b.length;
  if (t.bearers.kind == BearerKind::bending && !(from < -rail && to > rail)) {
    throw InputError(section + ".length_mm", in_mm(b.length) + " with " + section + ".offset_mm = " + in_mm(b.offset),
                     "more than from " + in_mm(-rail) + " to " + in_mm(rail) +
                         " across with track.rail_distance_mm = " + in_mm(t.rail_distance),
                     "The bearer is too short to reach under this rail: lengthen it or move it across.");
  }
  if (t.spacing < b.width) {
    throw InputError("track.spacing_mm", in_mm(t.spacing),
                     "at least the width of a bearer, " + section + ".width_mm = " + in_mm(b.width),
                     "They would overlap: make them narrower or lay them further apart.");
  }
}

// What modes cannot do, and what goes with what on a chain.
void check_bearers(const Track& t) {
  demand_ranges(t.variation, "track.variation");
  check_bearer(t.bearers.all, "track.bearers");
  for (const OtherBearer& other : t.bearers.other) {
    demand_ranges(other, "track.bearer");
    check_bearer(other.bearer, "track.bearer");
  }
  for (const VoidBelow& v : t.voids) {
    demand_ranges(v, "track.void");
    for (const auto& [key, end] : {std::pair{"track.void.from_mm", v.from}, std::pair{"track.void.to_mm", v.to}}) {
      if (end) {
        demand_within("track.void across", *end, across_range, "m");
      }
      if (end && t.bearers.kind == BearerKind::lumped) {
        throw InputError(key, in_mm(*end), "none with track.bearers.kind = \"lumped\"",
                         "A lumped bearer hangs as a whole: remove it, or let the bearers bend.");
      }
    }
  }
  if (t.method != TrackMethod::chain) {
    const auto only_on_a_chain = [](const std::string& what, const std::string& given, const std::string& why) {
      throw InputError(what, given, "none with track.method = \"modes\"",
                       why + ": set track.method = \"chain\", or remove it.");
    };
    if (!t.voids.empty()) {
      only_on_a_chain("track.void", std::to_string(t.voids.size()), "Modes cannot let go of the ballast");
    }
    if (t.rails == Rails::two) {
      only_on_a_chain("track.rails", '"' + std::string(name(t.rails)) + '"', "Modes know one rail");
    }
    if (!(t.bearers == Bearers{})) {
      only_on_a_chain("track.bearers", "given", "Modes know lumped bearers at even distances");
    }
  }
  if (t.method == TrackMethod::chain) {
    check_place(t, t.bearers.all, "track.bearers");
    for (const OtherBearer& other : t.bearers.other) {
      check_place(t, other.bearer, "track.bearer");
    }
  }
  if (t.bearers.kind == BearerKind::bending && t.rails == Rails::one) {
    throw InputError("track.bearers.kind", "\"bending\"", "\"lumped\" with track.rails = \"one\"",
                     "A bearer bends under both rails: remove track.rails, or set it to \"two\".");
  }
}

void check_track(const Track& t) {
  demand_ranges(t, "track");
  check_bearers(t);
  demand_ranges(static_cast<const track::Track&>(t), "track");
  demand_ranges(t.seat, "track");
  for (const track::SeatOverride& other : t.overrides) {
    demand_ranges(other.seat, "track.seat");
  }
  for (std::size_t i = 0; i < t.castings.size(); ++i) {
    const Casting& casting = t.castings[i];
    demand_ranges(casting, "track.casting");
    if (casting.begin >= casting.end) {
      const std::string section = "track.casting[" + std::to_string(i + 1) + "].";
      throw InputError(section + "begin_m", plain(casting.begin) + " m",
                       "less than " + section + "end_m (" + plain(casting.end) + " m)",
                       "Stations grow from wing to nose.");
    }
  }
}

void check_sensors(const Case& c) {
  for (std::size_t i = 0; i < c.sensors.size(); ++i) {
    const assess::Sensor& sensor = c.sensors[i];
    const std::string where = "sensor[" + std::to_string(i + 1) + "]";
    assess::check(sensor, where);
    if (sensor.station < c.passage.from || sensor.station > c.passage.to) {
      throw InputError(where + ".station_m", plain(sensor.station) + " m",
                       "between passage.from_m and passage.to_m, " + plain(c.passage.from) + " to " +
                           plain(c.passage.to) + " m",
                       "No wheel comes to it otherwise.");
    }
    if (sensor.across && (sensor.on != assess::Sensor::On::bearer || c.track.bearers.kind != BearerKind::bending)) {
      throw InputError(
          where + ".across_mm", plain(1e3 * *sensor.across) + " mm",
          "only on bearers that bend, track.bearers.kind = \"bending\"",
          "Leave the key out: the sensor then stands on the rail, or under it on a bearer that is a lump.");
    }
    if (sensor.on == assess::Sensor::On::other_rail &&
        !(c.track.method == TrackMethod::chain && has_two_rails(c.track))) {
      throw InputError(where + ".on", "\"other_rail\"", "on a track of two rails",
                       "Take track.method = \"chain\" with track.rails = \"two\", or \"rail\" here.");
    }
    for (std::size_t j = 0; j < i; ++j) {
      if (c.sensors[j].name == sensor.name) {
        throw InputError(where + ".name", "\"" + sensor.name + "\"", "a name of its own",
                         "Sensor " + std::to_string(j + 1) + " has it already.");
      }
    }
  }
  if (!c.sensors.empty() && !c.passage.probes) {
    throw InputError("passage.probes", "false", "true where there are sensors",
                     "Remove the sensors, or leave the probes on.");
  }
}

// What a ride in space needs, and what it cannot take.
void check_spatial(const Case& c) {
  const Spatial& s = c.spatial;
  demand_ranges(s, "spatial");
  for (const auto& [what, given] :
       {std::pair{"spatial stock_friction", s.stock_friction}, std::pair{"spatial wing_friction", s.wing_friction},
        std::pair{"spatial nose_friction", s.nose_friction}}) {
    if (given) {
      demand_within(what, *given, body_frictions);
    }
  }
  for (const auto& [key, end, above] : {std::tuple{"least_check_stiffness", s.least_check_stiffness, false},
                                        std::tuple{"most_check_stiffness", s.most_check_stiffness, true}}) {
    if (!end) {
      continue;
    }
    demand_within(std::string("spatial ") + key, *end, range_of<&Spatial::check_stiffness>(), "N/m");
    if (above ? *end < s.check_stiffness : *end > s.check_stiffness) {
      throw Contradiction(key, *end, above ? Bound::above : Bound::below, s.check_stiffness, "check_stiffness",
                          "The range stated for the check rail has its stiffness inside.");
    }
  }
  if (c.rung != Rung::spatial) {
    return;
  }
  const auto not_here = [](const std::string& key, const std::string& value, const std::string& allowed,
                           const std::string& advice) {
    throw InputError(key, value, allowed + " with case.rung = \"spatial\"", advice);
  };
  if (c.turnout.geometry == TurnoutFrom::none) {
    not_here("turnout.geometry", "\"none\"", "a turnout",
             "A vehicle in space runs on both rails of one; give [turnout], such as geometry = \"preset\" with preset "
             "= \"R300-1:9\".");
  }
  if (!std::holds_alternative<layout::CrossingShape>(c.excitation)) {
    not_here("crossing.kind", '"' + std::string(name(c.excitation)) + '"', "\"generated\"",
             "The crossing is laid at the rate at which the rails of the turnout cross.");
  }
  if (c.passage.direction != Direction::facing) {
    not_here("passage.direction", "\"trailing\"", "\"facing\"",
             "Where wheels change over, what they land on and how near flanges come to the nose are told of facing "
             "moves of a vehicle in space; trailing ones run in C++ alone (passage/space/ride.hpp).");
  }
  if (!within(c.wheel.lateral_offset, entering_shifts)) {
    not_here("wheel.lateral_offset_mm", plain(1e3 * c.wheel.lateral_offset) + " mm", "-20 to 20 mm",
             "It is the shift with which the vehicle enters.");
  }
  (void)vehicle::space::assemble(space_vehicle_of(c));
}

} // namespace

void check(const Case& c) {
  check_crossing(c);
  demand_ranges(c.wheel, "wheel");
  demand_ranges(c.wheel.hollow, "wheel hollow");
  check_surface(c);
  check_track(c.track);
  demand_ranges(c.material, "contact");
  demand_ranges(c.kinematics, "kinematics");
  demand_ranges(c.measures, "measures");
  check_passage(c);
  check_sensors(c);
  check_vehicle(c);
  assess::check(c.damage);
  check_turnout(c);
  check_spatial(c);
  (void)sets_of(c);
}

} // namespace wingnose::cases
