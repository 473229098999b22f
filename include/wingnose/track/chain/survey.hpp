// How a chain answers loads at rest from place to place: stiffness along it, what every bearer carries with the load
// over it, the shape under all wheels, and which voids close under how much. SI, downward positive.
#pragma once

#include "wingnose/track/chain/statics.hpp"
#include "wingnose/words/column.hpp"

#include <array>
#include <span>
#include <vector>

namespace wingnose::track::chain {

// With the load over it, on every rail alike.
struct LoadedBearer {
  double station;         // m
  double length;          // m; NaN when lumped
  double rail_deflection; // m, of the first rail over it
  double deflection;      // m, of the bearer below that rail
  double seat_force;      // N, in that rail's pad
  double ballast_force;   // N, under the bearer; half of one where there is one rail
  double pressure;        // Pa, largest on the ballast
  double moment, strain;  // N m, -: largest in size along a bending bearer, tension below positive; NaN when lumped
};
inline constexpr auto loaded_bearer_columns = std::to_array<Column<LoadedBearer>>(
    {{"station_mm", "station", "of the bearer", &LoadedBearer::station, 0},
     {"rail_deflection_mm", "rail", "deflection of the rail over it", &LoadedBearer::rail_deflection, 3},
     {"bearer_deflection_mm", "bearer", "deflection of the bearer below that rail", &LoadedBearer::deflection, 3},
     {"seat_force_kN", "seat", "force in the pad", &LoadedBearer::seat_force, 1},
     {"ballast_force_kN", "ballast", "force of the bearer on the ballast; of half a one where one rail is modelled",
      &LoadedBearer::ballast_force, 1},
     {"ballast_pressure_kPa", "pressure", "largest pressure on the ballast", &LoadedBearer::pressure, 0},
     {"bearer_moment_kNm", "moment", "bending moment of the bearer, largest in size; tension below is positive",
      &LoadedBearer::moment, 2},
     {"bearer_strain_um_m", "strain", "strain of its lower fibre where that is largest in size", &LoadedBearer::strain,
      0}});
[[nodiscard]] std::vector<LoadedBearer> loaded_bearers(const Chain& chain, double load, double from, double to);

// Largest in size along a bending bearer, of its moment (N m) with the strain there; NaN when lumped.
struct Bending {
  double moment, strain;
};
[[nodiscard]] Bending largest_bending(const Chain& chain, const Motion& motion, int bearer);

// A bearer over a void as the load over it grows.
struct Closing {
  double station;                    // m
  double gap;                        // m, the largest under it before the track's own weight acts
  double left;                       // m, what its own weight leaves of it; 0 where it rests on its ballast
  double closes_at;                  // N, load on every rail over it that closes it; NaN beyond the largest tried
  std::vector<double> deflection;    // m, of the first rail over it under each load
  std::vector<double> ballast_force; // N
};
[[nodiscard]] std::vector<Closing> closings(const Chain& chain, std::span<const double> loads);

} // namespace wingnose::track::chain
