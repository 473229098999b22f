// What happened during one passage: arrays over time for the reported wheel, and the located events. SI; frame.hpp.
#pragma once

#include "wingnose/layout/role.hpp"
#include "wingnose/passage/felt.hpp"
#include "wingnose/words/column.hpp"
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
inline constexpr auto event_columns =
    std::to_array<Column<Event>>({{"time_s", "time", "time of the event", &Event::time, 5},
                                  {"station_mm", "station", "station of the axle at the event", &Event::station, 1}});
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
  TrackFelt track;                                             // with the probes
  std::vector<double> wheel_peaks;                             // N, largest force of every wheel (all wheels in order)
  std::vector<Event> events;
  double static_load = 0.0; // N, of the reported wheel
  double step = 0.0;        // s
  std::string method;
};
inline constexpr auto history_columns = std::to_array<ListColumn<History>>(
    {{"time_s", "time", "time since the start, uniform", &History::time, 5},
     {"station_mm", "station", "station of the reported wheel's axle", &History::station, 1},
     {"force_N", "contact force", "total contact force, not filtered", &History::force, 0}});
inline constexpr auto motion_columns = std::to_array<ListColumn<History>>(
    {{"wheel_height_mm", "wheel height", "height of the wheel, up, from static equilibrium over an undeflected track",
      &History::wheel_height, 4},
     {"wheel_acceleration_m_s2", "wheel acceleration", "acceleration of the wheel, up", &History::wheel_acceleration,
      2},
     {"rail_deflection_mm", "rail deflection", "rail under the wheel, downward", &History::rail_deflection, 4}});
inline constexpr auto probe_columns = std::to_array<ListColumn<History>>(
    {{"rail_acceleration_m_s2", "rail acceleration", "rail at the fixed probe near the landing, downward",
      &History::rail_acceleration, 1},
     {"bearer_acceleration_m_s2", "bearer acceleration", "bearer at the fixed probe near the landing, downward",
      &History::bearer_acceleration, 1}});

} // namespace wingnose::passage
