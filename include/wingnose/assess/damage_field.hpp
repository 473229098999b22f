// Damage mapped on the running surface: station x lateral position, one map per body.
//
// Nodes lie at whole multiples of the spacings (plan view), so that maps of different passages fit on each other
// without interpolation. Amounts are spread to the four nodes around a place, their sum is kept exactly to rounding; a
// density (J/m2, m) is the amount at a node over spacing_x * spacing_y. Frame: wingnose/words/frame.hpp. SI.
#pragma once

#include "wingnose/words/column.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace wingnose::assess {

struct Grid {
  double spacing_x = 0.002, spacing_y = 0.0005; // m, > 0
  long first_x = 0, first_y = 0;                // index of the first node: x = index * spacing
  std::size_t count_x = 0, count_y = 0;         // nodes
  [[nodiscard]] std::size_t size() const { return count_x * count_y; }
  [[nodiscard]] double x(std::size_t i) const {
    return spacing_x * static_cast<double>(first_x + static_cast<long>(i));
  }
  [[nodiscard]] double y(std::size_t j) const {
    return spacing_y * static_cast<double>(first_y + static_cast<long>(j));
  }
  [[nodiscard]] std::vector<double> all_x() const; // m, of the nodes
  [[nodiscard]] std::vector<double> all_y() const;
  [[nodiscard]] double cell_area() const { return spacing_x * spacing_y; }
  [[nodiscard]] friend bool operator==(const Grid&, const Grid&) = default;
};
// Smallest grid with all places x_low .. x_high, y_low .. y_high and one node more on every side. Throws InputError for
// spacings that are not positive or a map of more than ten million nodes.
[[nodiscard]] Grid grid_around(double spacing_x, double spacing_y, double x_low, double x_high, double y_low,
                               double y_high);
// Smallest grid with all nodes of both; an empty one adds nothing. Throws InputError when the spacings differ.
[[nodiscard]] Grid union_of(const Grid& one, const Grid& other);

// All values are [i * count_y + j], i along the track. For one passage the counts are 0 or 1; in an accumulation they
// are numbers of wheels.
struct DamageMap {
  std::string body;
  Grid grid;
  std::vector<double> peak_pressure;       // Pa, largest pressure seen
  std::vector<double> wheels;              // wheels that loaded the node
  std::vector<double> beyond_shakedown;    // wheels whose contact there lay beyond elastic shakedown
  std::vector<double> beyond_surface_flow; // wheels with a surface fatigue index above 0 there
  std::vector<double> friction_energy;     // J/m2, dissipated by sliding
  std::vector<double> wear_depth;          // m, Archard
};
inline constexpr auto map_columns = std::to_array<ListColumn<DamageMap>>(
    {{"peak_pressure_MPa", "peak pressure", "largest elastic pressure seen", &DamageMap::peak_pressure, 0},
     {"wheels", "wheels", "wheels that loaded the node", &DamageMap::wheels, 0},
     {"wheels_beyond_shakedown", "beyond shakedown", "wheels whose contact there lay beyond elastic shakedown",
      &DamageMap::beyond_shakedown, 0},
     {"wheels_beyond_surface_flow", "at the surface", "wheels whose surface fatigue index there was above 0",
      &DamageMap::beyond_surface_flow, 0},
     {"friction_energy_J_mm2", "friction energy", "dissipated by sliding", &DamageMap::friction_energy, 3},
     {"wear_depth_um", "wear depth", "Archard, the shape taken as unchanged", &DamageMap::wear_depth, 3}});
[[nodiscard]] DamageMap empty_map(std::string body, const Grid& grid);
// The same map on a larger grid. Throws InputError when the grid does not hold it.
[[nodiscard]] DamageMap on_grid(const DamageMap& map, const Grid& grid);
// Adds `weight` times the sums of `map` and takes the larger pressure. Grows the grid of `into`. Throws InputError for
// a negative weight or other spacings.
void add(DamageMap& into, const DamageMap& map, double weight);

// Sum over the nodes times the cell area: J of friction_energy, m3 of wear_depth.
[[nodiscard]] double integral(const Grid& grid, const std::vector<double>& density);
// Value at the node nearest to a place, 0 outside.
[[nodiscard]] double nearest(const Grid& grid, const std::vector<double>& values, double x, double y);
// The four nodes around a place inside the grid and their bilinear shares of an amount there, as densities (1/m2).
struct Spot {
  std::size_t node;          // the lowest of them
  double s00, s01, s10, s11; // first index along the track
};
[[nodiscard]] Spot spot(const Grid& grid, double x, double y);
// Spreads an amount to them.
inline void spread(const Grid& grid, std::vector<double>& density, const Spot& at, double amount) {
  double* node = density.data() + at.node;
  node[0] += at.s00 * amount;
  node[1] += at.s01 * amount;
  node[grid.count_y] += at.s10 * amount;
  node[grid.count_y + 1] += at.s11 * amount;
}

} // namespace wingnose::assess
