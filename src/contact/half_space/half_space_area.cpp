#include "wingnose/contact/half_space/half_space.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace wingnose::contact {
namespace {

// p^2 of a pressure field and how it continues over the edge.
class Square {
public:
  Square(const HalfSpaceGrid& grid, std::span<const double> pressure)
      : nx_(static_cast<std::ptrdiff_t>(grid.nx())), ny_(static_cast<std::ptrdiff_t>(grid.ny())), pressure_(pressure) {}

  [[nodiscard]] bool loaded(std::ptrdiff_t ix, std::ptrdiff_t iy) const {
    return ix >= 0 && iy >= 0 && ix < nx_ && iy < ny_ && pressure(ix, iy) > 0.0;
  }
  // Loaded with four loaded neighbours: its pressure is not that of a partly filled cell.
  [[nodiscard]] bool inside(std::ptrdiff_t ix, std::ptrdiff_t iy) const {
    return loaded(ix, iy) && loaded(ix - 1, iy) && loaded(ix + 1, iy) && loaded(ix, iy - 1) && loaded(ix, iy + 1);
  }
  [[nodiscard]] double square(std::ptrdiff_t ix, std::ptrdiff_t iy) const {
    return pressure(ix, iy) * pressure(ix, iy);
  }

  // The part of a cell on the loaded side of the line where the extrapolated p^2 vanishes.
  [[nodiscard]] double loaded_part(std::ptrdiff_t ix, std::ptrdiff_t iy) const {
    if (inside(ix, iy)) {
      return 1.0;
    }
    double value = 0.0, weight = 0.0, fall_x = 0.0, fall_y = 0.0;
    const auto look = [&](std::ptrdiff_t step_x, std::ptrdiff_t step_y, double& fall) {
      for (std::ptrdiff_t k = 1; k <= 2; ++k) {
        const std::ptrdiff_t jx = ix + k * step_x, jy = iy + k * step_y;
        if (!inside(jx, jy) || !inside(jx + step_x, jy + step_y)) {
          continue;
        }
        const double near = square(jx, jy);
        const double slope = square(jx + step_x, jy + step_y) - near;
        // Directions in which the pressure falls fast cross the edge squarely and are trusted most.
        value += (near - static_cast<double>(k) * slope) * slope * slope;
        weight += slope * slope;
        fall = std::max(fall, std::abs(slope));
        return;
      }
    };
    look(-1, 0, fall_x);
    look(1, 0, fall_x);
    look(0, -1, fall_y);
    look(0, 1, fall_y);
    if (weight == 0.0) {
      return loaded(ix, iy) ? 1.0 : 0.0;
    }
    return std::clamp(0.5 + value / weight / (fall_x + fall_y), 0.0, 1.0);
  }

private:
  [[nodiscard]] double pressure(std::ptrdiff_t ix, std::ptrdiff_t iy) const {
    return pressure_[static_cast<std::size_t>(iy * nx_ + ix)];
  }
  std::ptrdiff_t nx_, ny_;
  std::span<const double> pressure_;
};

} // namespace

double smooth_contact_area(const HalfSpaceGrid& grid, std::span<const double> pressure) {
  if (pressure.size() != grid.cells()) {
    throw InputError("values of the pressure field", std::to_string(pressure.size()), std::to_string(grid.cells()),
                     "Give one value per cell of the grid.");
  }
  const Square square(grid, pressure);
  double cells = 0.0;
  for (std::ptrdiff_t iy = 0; iy < static_cast<std::ptrdiff_t>(grid.ny()); ++iy) {
    for (std::ptrdiff_t ix = 0; ix < static_cast<std::ptrdiff_t>(grid.nx()); ++ix) {
      cells += square.loaded_part(ix, iy);
    }
  }
  return cells * grid.dx() * grid.dy();
}

} // namespace wingnose::contact
