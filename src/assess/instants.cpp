#include "wingnose/assess/instants.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>

namespace wingnose::assess {
namespace {

using passage::History;

// Forces of all bodies at sample i and share t of the way to the next.
Instant at(const History& h, Moment moment, std::size_t i, double t) {
  const std::size_t next = std::min(i + 1, h.time.size() - 1);
  const auto between = [&](const std::vector<double>& column) { return column[i] + t * (column[next] - column[i]); };
  Instant instant{moment, between(h.time), between(h.station), {}};
  for (std::size_t b = 0; b < h.bodies.size(); ++b) {
    instant.loads.push_back({h.bodies[b], between(h.body_force[b])});
  }
  return instant;
}

std::size_t sample(const History& h, double time) {
  const double i = std::round((time - h.time.front()) / h.step);
  return static_cast<std::size_t>(std::clamp(i, 0.0, static_cast<double>(h.time.size() - 1)));
}

Instant transfer(const History& h, const Measures& m) {
  const auto event = std::find_if(h.events.begin(), h.events.end(), [&](const passage::Event& e) {
    return e.kind == passage::Event::Kind::transfer && e.body == m.landing_body && e.time >= m.landing_time;
  });
  if (event == h.events.end()) {
    throw ComputeError(h.bodies.size() < 2 ? "a prescribed path has one body and no transfer; take landing or peak"
                                           : "the wheel goes from one body to the other without touching both at "
                                             "once; take landing or peak");
  }
  const double samples = (event->time - h.time.front()) / h.step;
  const double before = std::clamp(std::floor(samples), 0.0, static_cast<double>(h.time.size() - 2));
  return at(h, Moment::transfer, static_cast<std::size_t>(before), std::clamp(samples - before, 0.0, 1.0));
}

// Sample of the largest force on the body landed on (the only one of a prescribed path) within `window` of the landing.
std::size_t largest(const History& h, const Measures& m, double window) {
  const auto body = std::find(h.bodies.begin(), h.bodies.end(), m.landing_body);
  const auto& force =
      body == h.bodies.end() ? h.force : h.body_force[static_cast<std::size_t>(body - h.bodies.begin())];
  const auto from = force.begin() + static_cast<std::ptrdiff_t>(sample(h, m.landing_time));
  const auto to = force.begin() + static_cast<std::ptrdiff_t>(sample(h, m.landing_time + window)) + 1;
  return static_cast<std::size_t>(std::max_element(from, to) - force.begin());
}

} // namespace

Instant instant(const History& h, const Measures& m, const MeasureOptions& options, Moment moment) {
  switch (moment) {
  case Moment::transfer:
    return transfer(h, m);
  case Moment::landing:
    return at(h, moment,
              m.first_peak_delay ? sample(h, m.landing_time + *m.first_peak_delay)
                                 : largest(h, m, options.first_peak_window),
              0.0);
  case Moment::peak:
    break;
  }
  return at(h, moment, largest(h, m, options.window), 0.0);
}

} // namespace wingnose::assess
