#include "loose_motions.hpp"

#include <Eigen/Eigenvalues>

#include <cmath>

namespace wingnose::vehicle::detail {

std::string loose_motions(const Eigen::MatrixXd& K, std::span<const std::string> names) {
  const Eigen::VectorXd diagonal = K.diagonal();
  const Eigen::VectorXd scale = diagonal.unaryExpr([](double k) { return k > 0.0 ? 1.0 / std::sqrt(k) : 1.0; });
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen(scale.asDiagonal() * K * scale.asDiagonal());
  if (eigen.eigenvalues()(0) > 1e-10) {
    return "";
  }
  const Eigen::VectorXd loose = eigen.eigenvectors().col(0).cwiseAbs();
  std::string list;
  for (Eigen::Index i = 0; i < loose.size(); ++i) {
    if (loose(i) > 0.1 * loose.maxCoeff()) {
      list += (list.empty() ? "" : ", ") + names[static_cast<std::size_t>(i)];
    }
  }
  return list;
}

} // namespace wingnose::vehicle::detail
