#include "wingnose/contact/stress/subsurface.hpp"

#include "half_space/half_space_memory.hpp"
#include "subsurface_rectangle.hpp"
#include "wingnose/words/error.hpp"

#include <Eigen/Dense>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <numbers>
#include <string>

namespace wingnose::contact {
namespace {

using std::numbers::pi;
using Member = double Stress::*;
constexpr std::array<Member, 6> members = {&Stress::xx, &Stress::yy, &Stress::zz,
                                           &Stress::xy, &Stress::yz, &Stress::zx};

void add(Stress& to, const Stress& part, double factor) {
  for (const Member m : members) {
    to.*m += factor * (part.*m);
  }
}

// x and y exchanged: what shear along y does follows from shear along x.
Stress exchanged(const Stress& s) { return {s.yy, s.xx, s.zz, s.xy, s.zx, s.yz}; }

void check(const HalfSpaceGrid& grid, const Tractions& tractions, double poisson) {
  const auto count = [&](const char* what, std::span<const double> values, bool needed) {
    if ((needed || !values.empty()) && values.size() != grid.cells()) {
      throw InputError(std::string("values of the ") + what, std::to_string(values.size()),
                       std::to_string(grid.cells()), "Give one value per cell of the grid.");
    }
  };
  count("pressure field", tractions.pressure, true);
  count("shear field along x", tractions.shear_x, false);
  count("shear field along y", tractions.shear_y, false);
  if (!(poisson > -1.0 && poisson <= 0.5)) {
    throw InputError("Poisson's ratio", number(poisson), "-1 to 0.5", "Steel has about 0.3.");
  }
}

void check_depth(double depth) {
  if (!(std::isfinite(depth) && depth >= 0.0)) {
    throw InputError("depth", number(depth) + " m", "0 or more", "Depth counts from the surface into the steel.");
  }
}

// Stresses of one cell under unit traction seen from all offsets, corners shared between neighbours.
class CellStress {
public:
  // shear along y is made by exchanging the axes.
  enum class Load { pressure, shear_x, shear_y };

  CellStress(const HalfSpaceGrid& grid, double z, double nu, Load load) : width_(grid.nx() + 1) {
    corners_.reserve(width_ * (grid.ny() + 1));
    for (std::size_t iy = 0; iy <= grid.ny(); ++iy) {
      for (std::size_t ix = 0; ix <= grid.nx(); ++ix) {
        const double X = (static_cast<double>(ix) - 0.5) * grid.dx();
        const double Y = (static_cast<double>(iy) - 0.5) * grid.dy();
        corners_.push_back(load == Load::pressure  ? corner_stress(X, Y, z, nu).pressure
                           : load == Load::shear_x ? corner_stress(X, Y, z, nu).shear_x
                                                   : exchanged(corner_stress(Y, X, z, nu).shear_x));
      }
    }
  }

  [[nodiscard]] double value(Member m, std::size_t ix, std::size_t iy) const {
    const Stress* south = &corners_[iy * width_ + ix];
    const Stress* north = south + width_;
    return ((north[1].*m - north[0].*m) - (south[1].*m - south[0].*m)) / (2.0 * pi);
  }

private:
  std::size_t width_;
  std::vector<Stress> corners_;
};

struct Symmetry {
  Parity in_x, in_y;
};
// Mirroring x turns the sign of every shear stress with one x, and once more if the load itself points along x.
Symmetry symmetry(Member m, CellStress::Load load) {
  const bool x_stress = m == &Stress::xy || m == &Stress::zx;
  const bool y_stress = m == &Stress::xy || m == &Stress::yz;
  const auto parity = [](bool a, bool b) { return a == b ? Parity::even : Parity::odd; };
  return {parity(x_stress, load == CellStress::Load::shear_x), parity(y_stress, load == CellStress::Load::shear_y)};
}

void refine(StressPeak& peak, const std::vector<double>& depth, const std::vector<double>& value) {
  const auto top = std::max_element(value.begin(), value.end());
  const auto i = static_cast<std::size_t>(top - value.begin());
  if (i == 0 || i + 1 == value.size()) {
    return;
  }
  // Vertex of the parabola through three unevenly spaced points, by divided differences.
  const double left = (value[i] - value[i - 1]) / (depth[i] - depth[i - 1]);
  const double right = (value[i + 1] - value[i]) / (depth[i + 1] - depth[i]);
  const double bend = (right - left) / (depth[i + 1] - depth[i - 1]);
  if (!(bend < 0.0)) {
    return;
  }
  const double vertex = 0.5 * (depth[i - 1] + depth[i] - left / bend);
  peak.depth = vertex;
  peak.value = value[i - 1] + left * (vertex - depth[i - 1]) + bend * (vertex - depth[i - 1]) * (vertex - depth[i]);
}

} // namespace

double von_mises(const Stress& s) {
  const double xy = s.xx - s.yy, yz = s.yy - s.zz, zx = s.zz - s.xx;
  return std::sqrt(0.5 * (xy * xy + yz * yz + zx * zx) + 3.0 * (s.xy * s.xy + s.yz * s.yz + s.zx * s.zx));
}

double max_shear(const Stress& s) {
  Eigen::Matrix3d tensor;
  tensor << s.xx, s.xy, s.zx, s.xy, s.yy, s.yz, s.zx, s.yz, s.zz;
  Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> principal;
  principal.computeDirect(tensor, Eigen::EigenvaluesOnly);
  return 0.5 * (principal.eigenvalues()(2) - principal.eigenvalues()(0));
}

Stress rectangle_stress(double x, double y, double z, double dx, double dy, const Traction& traction, double poisson) {
  Stress sum;
  for (const double sign_x : {1.0, -1.0}) {
    for (const double sign_y : {1.0, -1.0}) {
      const double X = x + 0.5 * sign_x * dx, Y = y + 0.5 * sign_y * dy;
      const CornerStress corner = corner_stress(X, Y, z, poisson);
      const double weight = sign_x * sign_y / (2.0 * pi);
      add(sum, corner.pressure, weight * traction.pressure);
      if (traction.shear_x != 0.0) {
        add(sum, corner.shear_x, weight * traction.shear_x);
      }
      if (traction.shear_y != 0.0) {
        add(sum, exchanged(corner_stress(Y, X, z, poisson).shear_x), weight * traction.shear_y);
      }
    }
  }
  return sum;
}

Stress stress_at(const HalfSpaceGrid& grid, const Tractions& tractions, double x, double y, double z, double poisson) {
  check(grid, tractions, poisson);
  check_depth(z);
  Stress sum;
  for (std::size_t i = 0; i < grid.cells(); ++i) {
    const Traction here{tractions.pressure[i], tractions.shear_x.empty() ? 0.0 : tractions.shear_x[i],
                        tractions.shear_y.empty() ? 0.0 : tractions.shear_y[i]};
    if (here.pressure != 0.0 || here.shear_x != 0.0 || here.shear_y != 0.0) {
      add(sum,
          rectangle_stress(x - grid.x(i % grid.nx()), y - grid.y(i / grid.nx()), z, grid.dx(), grid.dy(), here,
                           poisson),
          1.0);
    }
  }
  return sum;
}

std::vector<Stress> stress_at_depth(const HalfSpaceGrid& grid, const Tractions& tractions, double depth,
                                    double poisson) {
  check(grid, tractions, poisson);
  check_depth(depth);
  const Convolution& plan = grid.influence().plan;
  Convolution::Workspace workspace(plan);
  std::vector<Stress> result(grid.cells());
  std::vector<double> part(grid.cells());
  const auto load = [&](std::span<const double> field, CellStress::Load kind) {
    if (std::all_of(field.begin(), field.end(), [](double value) { return value == 0.0; })) {
      return;
    }
    const CellStress cell(grid, depth, poisson, kind);
    for (const Member m : members) {
      const Symmetry parity = symmetry(m, kind);
      const auto value = [&](std::size_t ix, std::size_t iy) { return cell.value(m, ix, iy); };
      plan.apply(plan.kernel(value, parity.in_x, parity.in_y), field, part, workspace);
      for (std::size_t i = 0; i < part.size(); ++i) {
        result[i].*m += part[i];
      }
    }
  };
  load(tractions.pressure, CellStress::Load::pressure);
  load(tractions.shear_x, CellStress::Load::shear_x);
  load(tractions.shear_y, CellStress::Load::shear_y);
  return result;
}

Subsurface subsurface_stress(const HalfSpaceGrid& grid, const Tractions& tractions, std::span<const double> depths,
                             double poisson) {
  check(grid, tractions, poisson);
  if (depths.empty()) {
    throw InputError("depths", "none", "one or more", "Twenty depths down to twice the patch width show the maximum.");
  }
  for (std::size_t k = 0; k < depths.size(); ++k) {
    check_depth(depths[k]);
    if (k > 0 && !(depths[k] > depths[k - 1])) {
      throw InputError("depths", number(depths[k]) + " m after " + number(depths[k - 1]) + " m", "increasing",
                       "Sort the depths and leave out repeated ones.");
    }
  }
  Subsurface result;
  result.depth.assign(depths.begin(), depths.end());
  const auto see = [&](StressPeak& worst, double value, std::size_t cell, double depth) {
    if (value > worst.value) {
      worst = {value, grid.x(cell % grid.nx()), grid.y(cell / grid.nx()), depth};
    }
  };
  for (const double depth : depths) {
    const std::vector<Stress> plane = stress_at_depth(grid, tractions, depth, poisson);
    double mises = 0.0, shear = 0.0;
    for (std::size_t i = 0; i < plane.size(); ++i) {
      const double m = von_mises(plane[i]), t = max_shear(plane[i]);
      mises = std::max(mises, m);
      shear = std::max(shear, t);
      see(result.worst_von_mises, m, i, depth);
      see(result.worst_shear, t, i, depth);
    }
    result.von_mises.push_back(mises);
    result.max_shear.push_back(shear);
  }
  refine(result.worst_von_mises, result.depth, result.von_mises);
  refine(result.worst_shear, result.depth, result.max_shear);
  return result;
}

} // namespace wingnose::contact
