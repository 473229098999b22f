#include "bay_parts.hpp"
#include "legendre.hpp"

#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace wingnose::track::chain::detail {
namespace {

constexpr int degree = BayPiece::degree;
using Table = Eigen::Matrix<double, degree + 1, degree + 1>;

// Integrals over [-1, 1] of products of the functions and their slopes, by Gauss' rule of degree + 1 points (exact).
struct Integrals {
  Table ff = Table::Zero(), df = Table::Zero(), dd = Table::Zero(); // f f, f' f, f' f'
  Eigen::Matrix<double, degree + 1, 1> f = Eigen::Matrix<double, degree + 1, 1>::Zero();
};
const Integrals& integrals() {
  static const Integrals made = [] {
    Integrals i;
    constexpr int points = degree + 1;
    for (int p = 0; p < points; ++p) {
      double x = std::cos(std::numbers::pi * (p + 0.75) / (points + 0.5)), slope = 1.0;
      for (int newton = 0; newton < 20; ++newton) {
        const auto P = legendre<points>(x);
        slope = points * (x * P[points] - P[points - 1]) / (x * x - 1.0);
        x -= P[points] / slope;
      }
      const double weight = 2.0 / ((1.0 - x * x) * slope * slope);
      const auto f = functions<degree>(x), d = slopes<degree>(x);
      i.ff += weight * f * f.transpose();
      i.df += weight * d * f.transpose();
      i.dd += weight * d * d.transpose();
      i.f += weight * f;
    }
    return i;
  }();
  return made;
}

} // namespace

BayMesh mesh_of(const std::vector<Stretch>& stretches, const Numbering& number) {
  const Eigen::Index n = number.inner() + 4;
  BayMesh mesh{Eigen::MatrixXd::Zero(n, n), Eigen::MatrixXd::Zero(n, n), Eigen::VectorXd::Zero(n)};
  const Integrals& I = integrals();
  for (int p = 0; p < number.pieces; ++p) {
    const auto& [h, r] = stretches[p];
    const Table ww = r.kappa_GA * (2.0 / h) * I.dd;
    const Table wt = -r.kappa_GA * I.df; // row: w, column: theta
    const Table tt = r.EI * (2.0 / h) * I.dd + r.kappa_GA * (h / 2.0) * I.ff;
    for (int i = 0; i <= degree; ++i) {
      const int wi = number.of(p, i, false), ti = number.of(p, i, true);
      mesh.weight[wi] += r.rho_A * 0.5 * h * I.f[i];
      for (int j = 0; j <= degree; ++j) {
        const int wj = number.of(p, j, false), tj = number.of(p, j, true);
        mesh.K(wi, wj) += ww(i, j);
        mesh.K(ti, tj) += tt(i, j);
        mesh.K(wi, tj) += wt(i, j);
        mesh.K(tj, wi) += wt(i, j);
        mesh.M(wi, wj) += r.rho_A * 0.5 * h * I.ff(i, j);
        mesh.M(ti, tj) += r.rho_I * 0.5 * h * I.ff(i, j);
      }
    }
  }
  return mesh;
}

HeldModes held_modes(const Eigen::MatrixXd& K, const Eigen::MatrixXd& M, const Numbering& number, int modes) {
  // M x = mu K x, mu = 1 / omega^2: the mass may be without rotary inertia, the stiffness is positive.
  const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> eigen(M, K);
  const Eigen::Index n = K.rows();
  Eigen::VectorXd deflects = Eigen::VectorXd::Zero(n); // 1 for w, 0 for theta
  for (int p = 0; p < number.pieces; ++p) {
    for (int j = 0; j <= degree; ++j) {
      const int i = number.of(p, j, false);
      if (i < n) {
        deflects[i] = 1.0;
      }
    }
  }
  std::vector<std::pair<double, Eigen::Index>> rank;
  for (Eigen::Index j = std::max<Eigen::Index>(0, n - 3 * modes); j < n; ++j) {
    const Eigen::VectorXd w = eigen.eigenvectors().col(j).cwiseProduct(deflects);
    rank.emplace_back(-eigen.eigenvalues()[j] * w.dot(M * w), j);
  }
  std::sort(rank.begin(), rank.end());
  HeldModes found{Eigen::MatrixXd(n, modes), Eigen::VectorXd(modes)};
  for (int k = 0; k < modes; ++k) {
    const Eigen::Index j = rank[k].second;
    found.shape.col(k) = eigen.eigenvectors().col(j) / std::sqrt(eigen.eigenvalues()[j]);
    found.stiffness[k] = 1.0 / eigen.eigenvalues()[j];
  }
  return found;
}

} // namespace wingnose::track::chain::detail
