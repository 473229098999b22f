#include "rolling_influence.hpp"
#include "wingnose/contact/tangential/rolling.hpp"
#include "wingnose/words/error.hpp"

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace wingnose::contact {
namespace {

using InfluenceRows = std::vector<detail::Influence>;

void displacement(const RollingMesh& mesh, double nu, double x, double y, InfluenceRows& row) {
  for (const RollingStrip& s : mesh.strips) {
    detail::influence_of_strip(s, mesh.plane, nu, x, y, std::span(row).subspan(s.first, s.cells));
  }
}

void fill_row(RollingMatrix& m, std::size_t cell, const InfluenceRows& here, const InfluenceRows* upstream,
              double scale) {
  auto x_row = m.slip.row(static_cast<Eigen::Index>(2 * cell));
  auto y_row = m.slip.row(static_cast<Eigen::Index>(2 * cell + 1));
  for (std::size_t j = 0; j < here.size(); ++j) {
    detail::Influence u = here[j];
    if (upstream != nullptr) {
      u = {u.xx - (*upstream)[j].xx, u.xy - (*upstream)[j].xy, u.yy - (*upstream)[j].yy};
    }
    const auto column = static_cast<Eigen::Index>(2 * j);
    x_row[column] = scale * u.xx;
    x_row[column + 1] = y_row[column] = scale * u.xy;
    y_row[column + 1] = scale * u.yy;
  }
}

} // namespace

RollingMatrix rolling_matrix(RollingMesh mesh, const Elastic& material, Sliding sliding) {
  constexpr std::size_t most = 4000;
  const std::size_t n = mesh.cells();
  if (n == 0 || n > most) {
    throw InputError("cells of the rolling contact", std::to_string(n), "1 to " + std::to_string(most),
                     "The matrix is dense: choose a coarser grid.");
  }
  if (!(material.poisson >= 0.0 && material.poisson <= 0.5)) {
    throw InputError("Poisson's ratio", number(material.poisson), "0 to 0.5", "Steel has about 0.3.");
  }
  if (!(material.young > 0.0)) {
    throw InputError("Young's modulus", number(material.young) + " Pa", "greater than 0", "Steel has about 210e9 Pa.");
  }
  if (mesh.plane && sliding == Sliding::shift) {
    throw InputError("rigid shift", "of a two-dimensional contact", "three-dimensional contacts",
                     "An endless strip on a half-space has no stiffness; use an elliptic or grid mesh.");
  }
  const double scale = 2.0 * (1.0 + material.poisson) / material.young; // 1/G
  RollingMatrix matrix{std::move(mesh), sliding, {}};
  const auto size = static_cast<Eigen::Index>(2 * n);
  matrix.slip.resize(size, size);
  InfluenceRows here(n), upstream(n);
  for (const RollingStrip& s : matrix.mesh.strips) {
    // The point one cell ahead of a cell is the middle of the cell before it.
    displacement(matrix.mesh, material.poisson, s.lead + 0.5 * s.cell, s.y, upstream);
    for (std::size_t k = 0; k < s.cells; ++k) {
      displacement(matrix.mesh, material.poisson, s.lead - (static_cast<double>(k) + 0.5) * s.cell, s.y, here);
      fill_row(matrix, s.first + k, here, sliding == Sliding::rolling ? &upstream : nullptr, scale);
      std::swap(here, upstream);
    }
  }
  return matrix;
}

} // namespace wingnose::contact
