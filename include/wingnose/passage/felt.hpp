// What the track feels of a passage: the largest of every bearer, and the motion of points that sensors stand on. What
// loads add to the track under its own weight. SI, downward positive; frame.hpp.
#pragma once

#include "wingnose/words/column.hpp"

#include <array>
#include <limits>
#include <optional>
#include <vector>

namespace wingnose::passage {

// Of one bearer over the whole passage. NaN where the model of the track has no such thing.
struct BearerFelt {
  static constexpr double none = std::numeric_limits<double>::quiet_NaN();
  double station = 0.0;                       // m
  double rail_deflection = 0.0;               // m, largest, of the rail over it
  double deflection = 0.0;                    // m, largest, of the bearer under that rail
  double seat_force = 0.0, seat_uplift = 0.0; // N, of that rail: most pressed; most relieved, 0 or above
  double ballast_force = 0.0;                 // N, most of all spots together
  double ballast_pressure = none;             // Pa, largest
  double moment = none, moment_across = none; // N m, of the largest size, tension below positive; m, where across
  double strain = none;                       // -, largest size, of the outer fibre
  double rail_stress = none;                  // Pa, tension at the foot under a wheel that is nearest to this bearer
};
inline constexpr auto bearer_columns = std::to_array<Column<BearerFelt>>(
    {{"station_mm", "station", "station of the bearer", &BearerFelt::station, 0},
     {"rail_deflection_max_mm", "rail deflection", "largest deflection of the rail over it",
      &BearerFelt::rail_deflection, 3},
     {"bearer_deflection_max_mm", "bearer deflection", "largest deflection of the bearer under that rail",
      &BearerFelt::deflection, 3},
     {"seat_force_max_kN", "seat force", "largest force in the rail seat", &BearerFelt::seat_force, 2},
     {"seat_uplift_max_kN", "uplift", "most by which the rail seat is relieved of its dead load",
      &BearerFelt::seat_uplift, 2},
     {"ballast_force_max_kN", "ballast force", "largest force on the ballast", &BearerFelt::ballast_force, 2},
     {"ballast_pressure_max_kPa", "ballast pressure", "largest pressure on the ballast; the mean under a lumped bearer",
      &BearerFelt::ballast_pressure, 1},
     {"bearer_moment_max_kNm", "bearer moment", "bending moment of the largest size, tension below positive",
      &BearerFelt::moment, 2},
     {"bearer_moment_y_mm", "... at y", "where it is largest, across the track", &BearerFelt::moment_across, 0},
     {"bearer_strain_max_um_m", "bearer strain", "strain of the largest size of the outer fibre", &BearerFelt::strain,
      1},
     {"rail_foot_stress_max_MPa", "rail foot stress",
      "largest stress at the foot of the rail, under wheels nearest to this bearer", &BearerFelt::rail_stress, 1}});

// A point whose motion is recorded at every step: of the rail that carries the wheels at a station, or of the bearer
// nearest to it.
struct SensorPlace {
  double station = 0.0; // m
  bool on_bearer = false;
  std::optional<double> across = std::nullopt; // m, y on a bearer that bends; nullopt: under the rail
  bool other_rail = false;                     // not on the rail of the wheels but beside it, of a chain of two
  [[nodiscard]] friend bool operator==(const SensorPlace&, const SensorPlace&) = default;
};
struct PointMotion {
  double station = 0.0;                     // m, of the bearer where it stands on one
  std::vector<double> time;                 // s, of every step
  std::vector<double> deflection, velocity; // m, m/s
};

struct TrackFelt {
  std::vector<BearerFelt> bearers;
  double sampling = 0.0; // s, between the instants looked at
  int coordinates = 0;   // of a bearer that bends, the fewest; 0: bearers are lumped
  double top_mode = 0.0; // Hz, of the modes kept; 0: a chain, which has none to drop
  std::vector<PointMotion> points;
};

} // namespace wingnose::passage
