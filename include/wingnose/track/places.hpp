// How a track answers a load on one rail at typical places: static deflection under the load, receptance over
// frequency. SI.
#pragma once

#include "wingnose/track/modal.hpp"
#include "wingnose/words/column.hpp"

#include <array>
#include <complex>
#include <span>
#include <string>
#include <vector>

namespace wingnose::track {

struct Place {
  std::string name;                             // "over a bearer"
  double station;                               // m
  double deflection;                            // m, under the load, downward
  double stiffness;                             // N/m, load over deflection
  std::vector<std::complex<double>> receptance; // m/N, at each frequency
};
inline constexpr auto place_columns = std::to_array<Column<Place>>(
    {{"station_mm", "station", "of the load", &Place::station, 0},
     {"static_deflection_mm", "deflection", "of the rail under the load, downward", &Place::deflection, 3},
     {"point_stiffness_MN_m", "point stiffness", "load over deflection", &Place::stiffness, 2}});

// Over the bearer nearest to the middle of the track, and mid-span behind it. load: N, > 0; frequency: Hz. Throws as
// static_deflection and receptance do.
[[nodiscard]] std::vector<Place> typical_places(const Assembly& assembly, double load,
                                                std::span<const double> frequency);

} // namespace wingnose::track
