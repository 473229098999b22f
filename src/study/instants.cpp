#include "wingnose/study/instants.hpp"

#include "wingnose/words/error.hpp"
#include "wingnose/words/frame.hpp"

#include <algorithm>
#include <cmath>

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

// Forces of all bodies at sample i and share t of the way to the next. Prescribed paths lie on plain rail.
Instant at(const Case& c, const Result& r, Moment moment, std::size_t i, double t) {
  const passage::History& h = r.history;
  const std::size_t next = std::min(i + 1, h.time.size() - 1);
  const auto between = [&](const std::vector<double>& column) { return column[i] + t * (column[next] - column[i]); };
  Instant instant{moment, between(h.time), between(h.station), {}};
  for (std::size_t b = 0; b < h.bodies.size(); ++b) {
    instant.loads.push_back({r.geometry.crossing ? h.bodies[b] : c.plain_rail.head, between(h.body_force[b])});
  }
  return instant;
}

std::size_t sample(const passage::History& h, double time) {
  const double i = std::round((time - h.time.front()) / h.step);
  return static_cast<std::size_t>(std::clamp(i, 0.0, static_cast<double>(h.time.size() - 1)));
}

Instant transfer(const Case& c, const Result& r) {
  const passage::History& h = r.history;
  const auto event = std::find_if(h.events.begin(), h.events.end(), [&](const passage::Event& e) {
    return e.kind == passage::Event::Kind::transfer && e.body == r.assessment.measures->landing_body &&
           e.time >= r.assessment.measures->landing_time;
  });
  if (event == h.events.end()) {
    throw ComputeError(h.bodies.size() < 2 ? "a prescribed path has one body and no transfer; take landing or peak"
                                           : "the wheel goes from one body to the other without touching both at "
                                             "once; take landing or peak");
  }
  const double samples = (event->time - h.time.front()) / h.step;
  const double before = std::clamp(std::floor(samples), 0.0, static_cast<double>(h.time.size() - 2));
  return at(c, r, Moment::transfer, static_cast<std::size_t>(before), std::clamp(samples - before, 0.0, 1.0));
}

// Sample of the largest force on the body landed on (the only one of a prescribed path) within `window` of the landing.
std::size_t largest(const Result& r, double window) {
  const passage::History& h = r.history;
  const auto body = std::find(h.bodies.begin(), h.bodies.end(), r.assessment.measures->landing_body);
  const auto& force =
      body == h.bodies.end() ? h.force : h.body_force[static_cast<std::size_t>(body - h.bodies.begin())];
  const auto from = force.begin() + static_cast<std::ptrdiff_t>(sample(h, r.assessment.measures->landing_time));
  const auto to =
      force.begin() + static_cast<std::ptrdiff_t>(sample(h, r.assessment.measures->landing_time + window)) + 1;
  return static_cast<std::size_t>(std::max_element(from, to) - force.begin());
}

} // namespace

Instant instant(const Case& c, const Result& r, Moment moment) {
  const assess::Measures& m = *r.assessment.measures;
  switch (moment) {
  case Moment::transfer:
    return transfer(c, r);
  case Moment::landing:
    return at(c, r, moment,
              m.first_peak_delay ? sample(r.history, m.landing_time + *m.first_peak_delay)
                                 : largest(r, c.measures.first_peak_window),
              0.0);
  case Moment::peak:
    break;
  }
  return at(c, r, moment, largest(r, c.measures.window), 0.0);
}

contact::StationContact contact_at_instant(const Case& c, const Result& r, Moment moment,
                                           const contact::StationOptions& options, const WheelAttitude& attitude) {
  const Instant now = instant(c, r, moment);
  const auto bodies = bodies_under(c, r.geometry);
  auto loads = now.loads;
  std::erase_if(loads, [](const contact::BodyLoad& load) { return load.vertical == 0.0; });
  contact::StationContact contact =
      contact::contact_under(wheel_of(r.geometry), bodies, place(c, now.station, attitude), loads, c.material, options);
  contact.instant = wingnose::name(moment);
  contact.time = now.time;
  return contact;
}

contact::StationContact contact_standing(const Case& c, const Geometry& g, double station, double load,
                                         const contact::StationOptions& options, const WheelAttitude& attitude) {
  return contact::contact_at(wheel_of(g), bodies_under(c, g), place(c, station, attitude), load, c.material, options);
}

} // namespace wingnose::study
