// Symmetric matrices of a beam of two-node elements, kept by their band.
#pragma once

#include <Eigen/Core>

#include <utility>

namespace wingnose::track::chain::detail {

// The main diagonal and three below it: band(d, j) = A(j + d, j).
using Band = Eigen::Matrix<double, 4, Eigen::Dynamic>;

inline void add_to(Band& band, Eigen::Index first, const Eigen::Matrix4d& block) {
  for (int j = 0; j < 4; ++j) {
    for (int i = j; i < 4; ++i) {
      band(i - j, first + j) += block(i, j);
    }
  }
}

[[nodiscard]] inline Eigen::MatrixXd times(const Band& a, const Eigen::MatrixXd& x) {
  const Eigen::Index n = a.cols();
  Eigen::MatrixXd y = a.row(0).transpose().asDiagonal() * x;
  for (Eigen::Index d = 1; d < 4; ++d) {
    y.bottomRows(n - d) += a.row(d).head(n - d).transpose().asDiagonal() * x.topRows(n - d);
    y.topRows(n - d) += a.row(d).head(n - d).transpose().asDiagonal() * x.bottomRows(n - d);
  }
  return y;
}

// x with A x = b by LDL^T within the band.
[[nodiscard]] inline Eigen::MatrixXd solve(Band a, Eigen::MatrixXd b) {
  const Eigen::Index n = a.cols();
  for (Eigen::Index j = 0; j < n; ++j) {
    for (Eigen::Index d = 1; d < 4 && j + d < n; ++d) {
      const double factor = a(d, j) / a(0, j);
      for (Eigen::Index e = d; e < 4 && j + e < n; ++e) {
        a(e - d, j + d) -= factor * a(e, j);
      }
      b.row(j + d) -= factor * b.row(j);
    }
  }
  for (Eigen::Index j = n - 1; j >= 0; --j) {
    for (Eigen::Index d = 1; d < 4 && j + d < n; ++d) {
      b.row(j) -= a(d, j) * b.row(j + d);
    }
    b.row(j) /= a(0, j);
  }
  return b;
}

} // namespace wingnose::track::chain::detail
