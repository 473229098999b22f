// What happened during one passage: arrays over time for the reported wheel, and the located events. SI; frame.hpp.
#pragma once

#include "wingnose/layout/role.hpp"
#include "wingnose/words/names.hpp"

#include <array>
#include <string>
#include <vector>

namespace wingnose::passage {

struct Event {
  enum class Kind { touch, lift_off, transfer };
  Kind kind;
  std::string body;     // the body touched or left; for transfer the body that now carries more
  double time, station; // s, m
};
constexpr auto names(Event::Kind) {
  return std::array{Name{Event::Kind::touch, "touch"}, Name{Event::Kind::lift_off, "lift-off"},
                    Name{Event::Kind::transfer, "transfer", "the body named carries more from here on"}};
}

struct History {
  std::vector<double> time;                    // s, uniform
  std::vector<double> station;                 // m, of the reported wheel's axle
  std::vector<std::string> bodies;             // names, order of the force arrays
  std::vector<layout::Role> roles;             // of these bodies
  std::vector<std::vector<double>> body_force; // N, [body][step]
  std::vector<double> force;                   // N, total
  std::vector<double> wheel_height;            // m, relative to static equilibrium level with undeflected track, up
  std::vector<double> wheel_acceleration;      // m/s2, up
  std::vector<double> rail_deflection;         // m, under the wheel, downward
  // Probes (empty unless asked for): fixed points.
  double rail_probe_station = 0.0, bearer_probe_station = 0.0; // m
  std::vector<double> rail_acceleration, bearer_acceleration;  // m/s2, downward positive
  std::vector<double> wheel_peaks;                             // N, largest force of every wheel (all wheels in order)
  std::vector<Event> events;
  double static_load = 0.0; // N, of the reported wheel
  double step = 0.0;        // s
  std::string method;
};

} // namespace wingnose::passage
