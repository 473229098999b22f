#include "wingnose/contact/half_space/half_space_gap.hpp"

#include "wingnose/words/constants.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace wingnose::contact {
namespace {

void check_count(const char* what, std::size_t given, std::size_t needed, const char* per) {
  if (given != needed) {
    throw InputError(what, std::to_string(given), std::to_string(needed),
                     std::string("Give one value per ") + per + " of the grid.");
  }
}

} // namespace

std::vector<double> quadratic_gap(const HalfSpaceGrid& grid, double curvature_x, double curvature_y) {
  for (const double curvature : {curvature_x, curvature_y}) {
    if (!std::isfinite(curvature)) {
      throw InputError("curvature of the gap", number(curvature) + " 1/m", "finite", "A straight line has 0.");
    }
  }
  std::vector<double> gap(grid.cells());
  for (std::size_t iy = 0; iy < grid.ny(); ++iy) {
    for (std::size_t ix = 0; ix < grid.nx(); ++ix) {
      gap[iy * grid.nx() + ix] = 0.5 * (curvature_x * grid.x(ix) * grid.x(ix) + curvature_y * grid.y(iy) * grid.y(iy));
    }
  }
  return gap;
}

std::vector<double> rolling_gap(const HalfSpaceGrid& grid, std::span<const double> lateral, double rolling_radius) {
  check_count("values of the lateral gap", lateral.size(), grid.ny(), "row");
  if (!(std::isfinite(rolling_radius) && rolling_radius > 0.0)) {
    throw InputError("rolling radius", number(rolling_radius) + " m", "greater than 0", "Wheels have about 0.46 m.");
  }
  std::vector<double> gap(grid.cells());
  for (std::size_t iy = 0; iy < grid.ny(); ++iy) {
    for (std::size_t ix = 0; ix < grid.nx(); ++ix) {
      gap[iy * grid.nx() + ix] = lateral[iy] + 0.5 * grid.x(ix) * grid.x(ix) / rolling_radius;
    }
  }
  return gap;
}

HalfSpaceGrid grid_for_hertz(std::size_t nx, std::size_t ny, const HertzPatch& patch, double margin) {
  if (!(std::isfinite(margin) && margin > 1.0)) {
    throw InputError("margin of the contact grid", number(margin), "greater than 1", "4/3 leaves room at the edge.");
  }
  if (!(patch.a_x > 0.0 && patch.a_y > 0.0)) {
    throw InputError("semi-axes of the patch", number(std::min(patch.a_x, patch.a_y)) + " m", "greater than 0",
                     "Without force there is no patch.");
  }
  return {nx, ny, 2.0 * margin * patch.a_x / static_cast<double>(nx),
          2.0 * margin * patch.a_y / static_cast<double>(ny)};
}

NormalTurn normal_turn(const HalfSpaceGrid& grid, std::span<const double> pressure,
                       std::span<const double> contact_angle) {
  check_count("values of the pressure field", pressure.size(), grid.cells(), "cell");
  check_count("contact angles", contact_angle.size(), grid.ny(), "row");
  double lowest = 0.0, highest = 0.0;
  bool found = false;
  for (std::size_t iy = 0; iy < grid.ny(); ++iy) {
    const auto row = pressure.subspan(iy * grid.nx(), grid.nx());
    if (std::none_of(row.begin(), row.end(), [](double p) { return p > 0.0; })) {
      continue;
    }
    lowest = found ? std::min(lowest, contact_angle[iy]) : contact_angle[iy];
    highest = found ? std::max(highest, contact_angle[iy]) : contact_angle[iy];
    found = true;
  }
  const double turn = highest - lowest;
  return {turn, turn > stretched_angle};
}

} // namespace wingnose::contact
