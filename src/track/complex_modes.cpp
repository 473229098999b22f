#include "complex_modes.hpp"

#include "wingnose/words/error.hpp"

#include <Eigen/Eigenvalues>
#include <Eigen/LU>

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>
#include <numeric>
#include <vector>

namespace wingnose::track::detail {
namespace {

using Complex = std::complex<double>;

// With y = (Omega q, dq/dt): dy/dt = A y, A = [0 Omega; -Omega -C]. A^T = S A S with S = diag(-1, 1): the left
// eigenvectors are S times the right ones, so eigenvectors are orthogonal in the bilinear form y^T S y.
Eigen::MatrixXd state_matrix(const Eigen::VectorXd& omega, const Eigen::MatrixXd& damping) {
  const Eigen::Index m = omega.size();
  Eigen::MatrixXd A = Eigen::MatrixXd::Zero(2 * m, 2 * m);
  A.topRightCorner(m, m).diagonal() = omega;
  A.bottomLeftCorner(m, m).diagonal() = -omega;
  A.bottomRightCorner(m, m) = -damping;
  return A;
}

std::vector<Eigen::Index> kept_in_order(const Eigen::VectorXcd& lambda) {
  std::vector<Eigen::Index> kept;
  for (Eigen::Index k = 0; k < lambda.size(); ++k) {
    if (lambda[k].imag() >= 0.0) {
      kept.push_back(k);
    }
  }
  std::stable_sort(kept.begin(), kept.end(),
                   [&](Eigen::Index i, Eigen::Index j) { return std::abs(lambda[i]) < std::abs(lambda[j]); });
  return kept;
}

// Groups of eigenvalues too close for the solver to separate their vectors; most groups have one member. The two ends
// of a damped track, for one, have end modes with equal eigenvalues.
std::vector<std::vector<Eigen::Index>> clusters(const Eigen::VectorXcd& lambda) {
  constexpr double close = 1e-8; // relative
  std::vector<std::vector<Eigen::Index>> groups;
  std::vector<bool> taken(static_cast<std::size_t>(lambda.size()), false);
  for (Eigen::Index i = 0; i < lambda.size(); ++i) {
    if (taken[static_cast<std::size_t>(i)]) {
      continue;
    }
    std::vector<Eigen::Index> group{i};
    const double radius = close * std::abs(lambda[i]);
    for (Eigen::Index j = i + 1; j < lambda.size() && std::abs(lambda[j]) - std::abs(lambda[i]) <= radius; ++j) {
      if (!taken[static_cast<std::size_t>(j)] && std::abs(lambda[j] - lambda[i]) <= radius) {
        taken[static_cast<std::size_t>(j)] = true;
        group.push_back(j);
      }
    }
    groups.push_back(std::move(group));
  }
  return groups;
}

// T with T^T G T = 1 for a complex symmetric G: the inverse principal square root, itself symmetric.
Eigen::MatrixXcd inverse_square_root(const Eigen::MatrixXcd& G) {
  if (G.rows() == 1) {
    return Eigen::MatrixXcd::Constant(1, 1, 1.0 / std::sqrt(G(0, 0)));
  }
  const Eigen::ComplexEigenSolver<Eigen::MatrixXcd> solver(G);
  const Eigen::MatrixXcd& X = solver.eigenvectors();
  const Eigen::VectorXcd d = solver.eigenvalues().cwiseSqrt().cwiseInverse();
  return X * d.asDiagonal() * X.inverse();
}

// Of a group whose modes all may damp each other.
ComplexModes of_group(const Eigen::VectorXd& omega, const Eigen::MatrixXd& damping) {
  const Eigen::Index m = omega.size();
  const Eigen::EigenSolver<Eigen::MatrixXd> solver(state_matrix(omega, damping));
  if (solver.info() != Eigen::Success) {
    throw ComputeError("track modes: the damped eigenvalue problem did not converge.");
  }
  const Eigen::MatrixXcd vectors = solver.eigenvectors();
  const std::vector<Eigen::Index> kept = kept_in_order(solver.eigenvalues());
  const auto count = static_cast<Eigen::Index>(kept.size());
  ComplexModes modes{Eigen::VectorXcd(count), Eigen::MatrixXcd(m, count)};
  Eigen::MatrixXcd y(2 * m, count);
  for (Eigen::Index k = 0; k < count; ++k) {
    modes.lambda[k] = solver.eigenvalues()[kept[static_cast<std::size_t>(k)]];
    y.col(k) = vectors.col(kept[static_cast<std::size_t>(k)]);
  }
  for (const auto& group : clusters(modes.lambda)) {
    const auto size = static_cast<Eigen::Index>(group.size());
    Eigen::MatrixXcd members(2 * m, size);
    for (Eigen::Index c = 0; c < size; ++c) {
      members.col(c) = y.col(group[static_cast<std::size_t>(c)]);
    }
    const auto u = members.topRows(m);
    const auto v = members.bottomRows(m);
    // y^T S y = lambda q^T (2 lambda + C) q, which must become lambda; q = v / lambda.
    const Eigen::MatrixXcd T = inverse_square_root(v.transpose() * v - u.transpose() * u);
    const Eigen::MatrixXcd turned = v * T;
    for (Eigen::Index c = 0; c < size; ++c) {
      const Complex lambda = modes.lambda[group[static_cast<std::size_t>(c)]];
      const double fold = lambda.imag() > 0.0 ? std::numbers::sqrt2 : 1.0;
      modes.q.col(group[static_cast<std::size_t>(c)]) = turned.col(c) * (fold / std::sqrt(lambda));
    }
  }
  if (!modes.q.allFinite()) {
    throw ComputeError("track modes: two damped modes coincide (critical damping); change a pad or ballast damping "
                       "slightly.");
  }
  return modes;
}

// Groups of modes that no damping joins: even and odd ones of a track that is its own mirror image.
std::vector<std::vector<Eigen::Index>> groups_of(const Eigen::MatrixXd& damping) {
  const Eigen::Index m = damping.rows();
  const double rounding = 1e-12 * damping.diagonal().cwiseAbs().maxCoeff();
  std::vector<bool> taken(static_cast<std::size_t>(m), false);
  std::vector<std::vector<Eigen::Index>> groups;
  for (Eigen::Index first = 0; first < m; ++first) {
    if (taken[static_cast<std::size_t>(first)]) {
      continue;
    }
    std::vector<Eigen::Index> group{first};
    taken[static_cast<std::size_t>(first)] = true;
    for (std::size_t k = 0; k < group.size(); ++k) {
      for (Eigen::Index other = first + 1; other < m; ++other) {
        if (!taken[static_cast<std::size_t>(other)] && std::abs(damping(other, group[k])) > rounding) {
          taken[static_cast<std::size_t>(other)] = true;
          group.push_back(other);
        }
      }
    }
    std::sort(group.begin(), group.end());
    groups.push_back(std::move(group));
  }
  return groups;
}

} // namespace

ComplexModes complex_modes(const Eigen::VectorXd& omega, const Eigen::MatrixXd& damping) {
  const std::vector<std::vector<Eigen::Index>> groups = groups_of(damping);
  std::vector<ComplexModes> found;
  Eigen::Index count = 0;
  for (const std::vector<Eigen::Index>& group : groups) {
    found.push_back(of_group(omega(group), damping(group, group)));
    count += found.back().lambda.size();
  }
  ComplexModes all{Eigen::VectorXcd(count), Eigen::MatrixXcd::Zero(omega.size(), count)};
  Eigen::Index next = 0;
  for (std::size_t g = 0; g < groups.size(); ++g) {
    for (Eigen::Index k = 0; k < found[g].lambda.size(); ++k, ++next) {
      all.lambda[next] = found[g].lambda[k];
      for (std::size_t i = 0; i < groups[g].size(); ++i) {
        all.q(groups[g][i], next) = found[g].q(static_cast<Eigen::Index>(i), k);
      }
    }
  }
  std::vector<Eigen::Index> order(static_cast<std::size_t>(count));
  std::iota(order.begin(), order.end(), Eigen::Index{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](Eigen::Index i, Eigen::Index j) { return std::abs(all.lambda[i]) < std::abs(all.lambda[j]); });
  return {all.lambda(order), all.q(Eigen::all, order)};
}

} // namespace wingnose::track::detail
