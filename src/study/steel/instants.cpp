#include "wingnose/study/instants.hpp"

#include "wingnose/words/frame.hpp"

#include <algorithm>

namespace wingnose::study {
namespace {

// A joint or a given path has no surface of its own: plain rail.
std::vector<layout::Body> bodies_under(const Case& c, const Geometry& g) {
  return g.crossing ? g.crossing->bodies
                    : std::vector{layout::plain_rail(profile::rail_head(c.plain_rail.head, c.plain_rail.inclination))};
}

contact::WheelSurface wheel_of(const Geometry& g) { return {g.wheel, g.path->wheel_radius}; }

contact::WheelPlace place(const Case& c, double station, const WheelAttitude& a) {
  return {.station = station,
          .lateral = taping_line_y + c.wheel.lateral_offset,
          .roll = a.roll.value_or(c.wheel.roll),
          .yaw = a.yaw.value_or(c.wheel.yaw)};
}

} // namespace

Instant instant(const Case& c, const Result& r, Moment moment) {
  Instant now = assess::instant(r.history, *r.assessment.measures, c.measures, moment);
  if (!r.geometry.crossing) { // prescribed paths lie on plain rail
    for (contact::BodyLoad& load : now.loads) {
      load.body = c.plain_rail.head;
    }
  }
  return now;
}

contact::StationContact contact_at_instant(const Case& c, const Result& r, Moment moment,
                                           const contact::StationOptions& options, const WheelAttitude& attitude) {
  Instant now = instant(c, r, moment);
  std::erase_if(now.loads, [](const contact::BodyLoad& load) { return load.vertical == 0.0; });
  contact::StationContact contact =
      contact::contact_under(wheel_of(r.geometry), bodies_under(c, r.geometry), place(c, now.station, attitude),
                             now.loads, c.material, options);
  contact.instant = wingnose::name(moment);
  contact.time = now.time;
  return contact;
}

contact::StationContact contact_standing(const Case& c, const Geometry& g, double station, double load,
                                         const contact::StationOptions& options, const WheelAttitude& attitude) {
  return contact::contact_at(wheel_of(g), bodies_under(c, g), place(c, station, attitude), load, c.material, options);
}

contact::StationContact contact_of(const Case& c, const ContactQuestion& q) {
  const auto with = [](const Findings& before, contact::StationContact contact) { // those of the way to this place
    contact.findings.insert(contact.findings.begin(), before.begin(), before.end());
    return contact;
  };
  if (q.at) {
    const Result r = run(c);
    return with(r.assessment.findings, contact_at_instant(c, r, *q.at, q.options, q.attitude));
  }
  const Geometry g = geometry(c);
  return with(g.findings, contact_standing(c, g, q.station ? *q.station : landing_station(g),
                                           q.load ? *q.load : static_load(c), q.options, q.attitude));
}

contact::StationOptions station_options(std::string_view law, std::string_view what) {
  if (law == "half-space") {
    return {.half_space = true};
  }
  auto known = names_of<contact::NormalLaw>();
  known.emplace_back("half-space");
  if (std::find(known.begin(), known.end(), law) == known.end()) {
    refuse_name(what, law, known);
  }
  return {.law = named<contact::NormalLaw>(law, what)};
}

} // namespace wingnose::study
