#include "wingnose/assess/damage_field.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace wingnose::assess {
namespace {

using SummedColumn = std::vector<double> DamageMap::*;
constexpr std::array<SummedColumn, 5> sums{&DamageMap::wheels, &DamageMap::beyond_shakedown,
                                           &DamageMap::beyond_surface_flow, &DamageMap::friction_energy,
                                           &DamageMap::wear_depth};

long last(long first, std::size_t count) { return first + static_cast<long>(count); }

// Calls work(index in the small grid, index in the large one) for every node of the small grid.
template <class Work> void for_nodes(const Grid& small, const Grid& large, Work work) {
  const auto di = static_cast<std::size_t>(small.first_x - large.first_x);
  const auto dj = static_cast<std::size_t>(small.first_y - large.first_y);
  for (std::size_t i = 0; i < small.count_x; ++i) {
    for (std::size_t j = 0; j < small.count_y; ++j) {
      work(i * small.count_y + j, (i + di) * large.count_y + j + dj);
    }
  }
}

} // namespace

std::vector<double> Grid::all_x() const {
  std::vector<double> all;
  for (std::size_t i = 0; i < count_x; ++i) {
    all.push_back(x(i));
  }
  return all;
}

std::vector<double> Grid::all_y() const {
  std::vector<double> all;
  for (std::size_t j = 0; j < count_y; ++j) {
    all.push_back(y(j));
  }
  return all;
}

Grid grid_around(double spacing_x, double spacing_y, double x_low, double x_high, double y_low, double y_high) {
  if (!(spacing_x > 0.0 && spacing_y > 0.0 && std::isfinite(spacing_x) && std::isfinite(spacing_y))) {
    throw InputError("spacings of a damage map", number(spacing_x) + " m, " + number(spacing_y) + " m", "above 0",
                     "2 mm along and 0.5 mm across show a contact patch well.");
  }
  const double x0 = std::floor(x_low / spacing_x) - 1.0, x1 = std::ceil(x_high / spacing_x) + 1.0;
  const double y0 = std::floor(y_low / spacing_y) - 1.0, y1 = std::ceil(y_high / spacing_y) + 1.0;
  const double nodes = (x1 - x0 + 1.0) * (y1 - y0 + 1.0);
  if (!(nodes <= 1e7 && x_high >= x_low && y_high >= y_low)) {
    throw InputError("damage map", number(nodes) + " nodes", "up to 1e7",
                     "Choose wider spacings or a shorter stretch.");
  }
  return {spacing_x,
          spacing_y,
          static_cast<long>(x0),
          static_cast<long>(y0),
          static_cast<std::size_t>(x1 - x0) + 1,
          static_cast<std::size_t>(y1 - y0) + 1};
}

Grid union_of(const Grid& one, const Grid& other) {
  if (one.size() == 0) {
    return other;
  }
  if (other.size() == 0) {
    return one;
  }
  if (one.spacing_x != other.spacing_x || one.spacing_y != other.spacing_y) {
    throw InputError("spacings of damage maps", number(one.spacing_x) + " and " + number(other.spacing_x) + " m along",
                     "equal spacings", "Maps are added node by node; make them with the same spacings.");
  }
  Grid g = one;
  g.first_x = std::min(one.first_x, other.first_x);
  g.first_y = std::min(one.first_y, other.first_y);
  g.count_x = static_cast<std::size_t>(std::max(last(one.first_x, one.count_x), last(other.first_x, other.count_x)) -
                                       g.first_x);
  g.count_y = static_cast<std::size_t>(std::max(last(one.first_y, one.count_y), last(other.first_y, other.count_y)) -
                                       g.first_y);
  return g;
}

DamageMap empty_map(std::string body, const Grid& grid) {
  const std::vector<double> zeros(grid.size(), 0.0);
  return {std::move(body), grid, zeros, zeros, zeros, zeros, zeros, zeros};
}

DamageMap on_grid(const DamageMap& map, const Grid& grid) {
  if (union_of(map.grid, grid) != grid) {
    throw InputError("damage map of the " + map.body, std::to_string(map.grid.size()) + " nodes",
                     "a grid that holds them all", "Use union_of both grids.");
  }
  DamageMap larger = empty_map(map.body, grid);
  for_nodes(map.grid, grid, [&](std::size_t from, std::size_t to) {
    larger.peak_pressure[to] = map.peak_pressure[from];
    for (const SummedColumn c : sums) {
      (larger.*c)[to] = (map.*c)[from];
    }
  });
  return larger;
}

void add(DamageMap& into, const DamageMap& map, double weight) {
  if (!(weight >= 0.0 && std::isfinite(weight))) {
    throw InputError("weight of a wheel", number(weight), "0 or more", "It counts wheels.");
  }
  const Grid grid = union_of(into.grid, map.grid);
  if (grid != into.grid) {
    into = on_grid(into, grid);
  }
  for_nodes(map.grid, grid, [&](std::size_t from, std::size_t to) {
    if (weight > 0.0) {
      into.peak_pressure[to] = std::max(into.peak_pressure[to], map.peak_pressure[from]);
    }
    for (const SummedColumn c : sums) {
      (into.*c)[to] += weight * (map.*c)[from];
    }
  });
}

double integral(const Grid& grid, const std::vector<double>& density) {
  double sum = 0.0;
  for (const double value : density) {
    sum += value;
  }
  return sum * grid.cell_area();
}

double nearest(const Grid& grid, const std::vector<double>& values, double x, double y) {
  const long i = std::lround(x / grid.spacing_x) - grid.first_x, j = std::lround(y / grid.spacing_y) - grid.first_y;
  if (i < 0 || j < 0 || i >= static_cast<long>(grid.count_x) || j >= static_cast<long>(grid.count_y)) {
    return 0.0;
  }
  return values[static_cast<std::size_t>(i) * grid.count_y + static_cast<std::size_t>(j)];
}

Spot spot(const Grid& grid, double x, double y) {
  const double u = x / grid.spacing_x - static_cast<double>(grid.first_x);
  const double v = y / grid.spacing_y - static_cast<double>(grid.first_y);
  const auto i = static_cast<std::size_t>(u), j = static_cast<std::size_t>(v);
  const double s = u - static_cast<double>(i), t = v - static_cast<double>(j), density = 1.0 / grid.cell_area();
  return {i * grid.count_y + j, (1.0 - s) * (1.0 - t) * density, (1.0 - s) * t * density, s * (1.0 - t) * density,
          s * t * density};
}

} // namespace wingnose::assess
