// What one value of a case alone cannot show: what contradicts what.
#include "wingnose/case/case.hpp"

#include "wingnose/words/text.hpp"

#include <algorithm>
#include <cmath>

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

void check_track(const Track& t) {
  for (const VoidBelow& v : t.voids) {
    demand_ranges(v, "track.void");
  }
  if (!t.voids.empty() && t.method != TrackMethod::chain) {
    throw InputError("track.void", std::to_string(t.voids.size()), "none with track.method = \"modes\"",
                     "Modes cannot let go of the ballast: set track.method = \"chain\", or remove the voids.");
  }
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
  check_vehicle(c);
  assess::check(c.damage);
  (void)sets_of(c);
}

} // namespace wingnose::cases
