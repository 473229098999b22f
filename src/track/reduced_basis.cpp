#include "reduced_basis.hpp"

#include <Eigen/Eigenvalues>
#include <Eigen/SparseCholesky>

#include <vector>

namespace wingnose::track::detail {
namespace {

// One unit force per seat with a pad damper, [dofs x seats].
Eigen::MatrixXd damper_forces(const Assembly& a) {
  std::vector<int> rail;
  for (std::size_t j = 0; j < a.seat.size(); ++j) {
    if (a.seat[j].pad_damping > 0.0) {
      rail.push_back(2 * a.seat_node[j]);
    }
  }
  Eigen::MatrixXd force = Eigen::MatrixXd::Zero(a.dofs(), static_cast<Eigen::Index>(rail.size()));
  for (std::size_t j = 0; j < rail.size(); ++j) {
    force(rail[j], static_cast<Eigen::Index>(j)) = 1.0;
  }
  return force;
}

} // namespace

RealModes reduced_basis(const Assembly& a, double cut_off) {
  RealModes basis = real_modes(a, cut_off);
  const Eigen::MatrixXd force = damper_forces(a);
  if (force.cols() == 0) {
    return basis;
  }
  const Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> stiffness(a.K);
  const Eigen::MatrixXd total = stiffness.solve(force);
  const Eigen::MatrixXd held_by_modes =
      basis.shape * (basis.omega.cwiseAbs2().cwiseInverse().asDiagonal() * (basis.shape.transpose() * force));
  const Eigen::MatrixXd left_out = total - held_by_modes;

  // The stiffness of the residual shapes is the residual compliance at the seats. Directions in which the modes are
  // already complete (all of them, when the cut-off exceeds every mode) are noise and are left away.
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> compliance(force.transpose() * left_out);
  const double negligible = 1e-8 * (force.transpose() * total).trace() / static_cast<double>(force.cols());
  Eigen::Index noise = 0;
  while (noise < force.cols() && compliance.eigenvalues()[noise] <= negligible) {
    ++noise;
  }
  const Eigen::Index added = force.cols() - noise;
  if (added == 0) {
    return basis;
  }
  const Eigen::MatrixXd unit = left_out * compliance.eigenvectors().rightCols(added) *
                               compliance.eigenvalues().tail(added).cwiseSqrt().cwiseInverse().asDiagonal();
  // Together once more: modes solved bay by bay are orthogonal to these in stiffness, and in mass nearly.
  Eigen::MatrixXd all(a.dofs(), basis.shape.cols() + added);
  all << basis.shape, unit;
  const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> together(all.transpose() * (a.K * all),
                                                                           all.transpose() * (a.M * all));
  return {together.eigenvalues().cwiseSqrt(), all * together.eigenvectors()};
}

} // namespace wingnose::track::detail
