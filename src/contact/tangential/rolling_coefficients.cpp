#include "wingnose/contact/tangential/rolling_coefficients.hpp"

#include "rolling_influence.hpp"
#include "wingnose/contact/tangential/rolling_mesh.hpp"
#include "wingnose/words/error.hpp"

#include <Eigen/Dense>

#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

namespace wingnose::contact {
namespace {

using Eigen::Index;
using InfluenceRow = std::vector<detail::Influence>;

// Upper half (y > 0) of a mesh whose strips mirror each other; the lower half follows by symmetry.
struct Folded {
  Eigen::MatrixXd longitudinal; // p_x even, p_y odd in y: answers xi
  Eigen::MatrixXd lateral;      // p_x odd, p_y even: answers eta and phi
};

void add_row(Folded& f, const RollingMesh& mesh, Index row, const InfluenceRow& u) {
  const auto n = f.longitudinal.rows() / 2;
  const std::size_t strips = mesh.strips.size(), half = strips / 2;
  for (std::size_t j = half; j < strips; ++j) {
    const RollingStrip &upper = mesh.strips[j], &lower = mesh.strips[strips - 1 - j];
    for (std::size_t k = 0; k < upper.cells; ++k) {
      const detail::Influence &a = u[upper.first + k], &b = u[lower.first + k];
      const auto column = static_cast<Index>((j - half) * upper.cells + k);
      f.longitudinal(row, column) = a.xx + b.xx;
      f.longitudinal(row, n + column) = a.xy - b.xy;
      f.longitudinal(n + row, column) = a.xy + b.xy;
      f.longitudinal(n + row, n + column) = a.yy - b.yy;
      f.lateral(row, column) = a.xx - b.xx;
      f.lateral(row, n + column) = a.xy + b.xy;
      f.lateral(n + row, column) = a.xy - b.xy;
      f.lateral(n + row, n + column) = a.yy + b.yy;
    }
  }
}

} // namespace

CreepCoefficients half_space_coefficients(double axis_ratio, double poisson, int along, int across) {
  if (!(axis_ratio >= 0.01 && axis_ratio <= 100.0)) {
    throw InputError("axis ratio a/b of the contact ellipse", number(axis_ratio), "0.01 to 100",
                     "More slender contacts need more cells than a dense matrix holds.");
  }
  if (!(poisson >= 0.0 && poisson <= 0.5)) {
    throw InputError("Poisson's ratio", number(poisson), "0 to 0.5", "Steel has about 0.3.");
  }
  if (!(along >= 4 && along <= 48)) {
    throw InputError("cells along the ellipse", std::to_string(along), "4 to 48", "24 are a good start.");
  }
  if (!(across >= 4 && across <= 48 && across % 2 == 0)) {
    throw InputError("strips across the ellipse", std::to_string(across), "an even number from 4 to 48",
                     "The mirrored halves share their unknowns.");
  }
  const double a = std::sqrt(axis_ratio), b = 1.0 / a; // ab = 1 and G = 1: forces are the coefficients
  const RollingMesh mesh = elliptic_mesh(a, b, 1.0, along, across);
  const auto n = static_cast<Index>(mesh.cells() / 2);
  Folded f{Eigen::MatrixXd(2 * n, 2 * n), Eigen::MatrixXd(2 * n, 2 * n)};
  Eigen::VectorXd pure_xi = Eigen::VectorXd::Zero(2 * n);
  Eigen::MatrixXd eta_phi = Eigen::MatrixXd::Zero(2 * n, 2);
  Eigen::VectorXd area(n), x(n), y(n);
  InfluenceRow here(mesh.cells()), upstream(mesh.cells()), step(mesh.cells());
  const auto displace = [&mesh, poisson](double at_x, double at_y, InfluenceRow& row) {
    for (const RollingStrip& s : mesh.strips) {
      detail::influence_of_strip(s, false, poisson, at_x, at_y, std::span(row).subspan(s.first, s.cells));
    }
  };
  Index row = 0;
  for (std::size_t j = mesh.strips.size() / 2; j < mesh.strips.size(); ++j) {
    const RollingStrip& s = mesh.strips[j];
    displace(s.lead + 0.5 * s.cell, s.y, upstream);
    for (std::size_t k = 0; k < s.cells; ++k, ++row) {
      x[row] = s.lead - (static_cast<double>(k) + 0.5) * s.cell;
      y[row] = s.y;
      area[row] = 2.0 * s.cell * s.width; // both halves
      displace(x[row], s.y, here);
      for (std::size_t i = 0; i < here.size(); ++i) {
        step[i] = {here[i].xx - upstream[i].xx, here[i].xy - upstream[i].xy, here[i].yy - upstream[i].yy};
      }
      add_row(f, mesh, row, step);
      // No slip: the strained step cancels the rigid one, taken half a cell upstream.
      pure_xi[row] = -s.cell;
      eta_phi(n + row, 0) = -s.cell;
      eta_phi(row, 1) = s.cell * s.y;
      eta_phi(n + row, 1) = -s.cell * (x[row] + 0.5 * s.cell);
      here.swap(upstream);
    }
  }
  const Eigen::VectorXd p = f.longitudinal.partialPivLu().solve(pure_xi);
  const Eigen::MatrixXd q = f.lateral.partialPivLu().solve(eta_phi);
  const auto moment = [&](Index c) {
    return area.dot(x.cwiseProduct(q.col(c).tail(n)) - y.cwiseProduct(q.col(c).head(n)));
  };
  return {-area.dot(p.head(n)), -area.dot(q.col(0).tail(n)), 0.5 * (moment(0) - area.dot(q.col(1).tail(n))),
          -moment(1)};
}

CreepCoefficients extrapolated_coefficients(double axis_ratio, double poisson, int cells) {
  if (cells < 8 || cells % 4 != 0) {
    throw InputError("cells of the finer mesh", std::to_string(cells), "a multiple of 4 from 8 to 48",
                     "The coarser mesh has half as many, again an even number.");
  }
  const CreepCoefficients fine = half_space_coefficients(axis_ratio, poisson, cells, cells);
  const CreepCoefficients coarse = half_space_coefficients(axis_ratio, poisson, cells / 2, cells / 2);
  return {2.0 * fine.C11 - coarse.C11, 2.0 * fine.C22 - coarse.C22, 2.0 * fine.C23 - coarse.C23,
          2.0 * fine.C33 - coarse.C33};
}

} // namespace wingnose::contact
