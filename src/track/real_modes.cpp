#include "real_modes.hpp"

#include "wingnose/words/error.hpp"

#include <Eigen/Eigenvalues>
#include <Eigen/SparseCholesky>

#include <numbers>
#include <string>

namespace wingnose::track::detail {

RealModes real_modes(const Assembly& a, double cut_off) {
  // K x = omega^2 M x in standard form with M = L L^T. In natural order L keeps the narrow band of M, so forming
  // L^-1 K L^-T costs little beside the eigenvalue problem itself.
  using Sparse = Eigen::SparseMatrix<double>;
  const Eigen::SimplicialLLT<Sparse, Eigen::Lower, Eigen::NaturalOrdering<int>> mass(a.M);
  if (mass.info() != Eigen::Success) {
    throw ComputeError("track modes: the mass matrix is not positive definite; check rail and bearer masses.");
  }
  Eigen::MatrixXd standard = a.K;
  mass.matrixL().solveInPlace(standard);
  standard.transposeInPlace();
  mass.matrixL().solveInPlace(standard);

  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver(standard);
  if (solver.info() != Eigen::Success) {
    throw ComputeError("track modes: the undamped eigenvalue problem did not converge.");
  }
  const double highest = 2.0 * std::numbers::pi * cut_off;
  Eigen::Index kept = 0;
  while (kept < standard.rows() && solver.eigenvalues()[kept] <= highest * highest) {
    ++kept;
  }
  if (kept == 0) {
    throw ComputeError("track modes: none lies below the cut-off of " + number(cut_off) + " Hz; raise cut_off.");
  }
  if (!(solver.eigenvalues()[0] > 0.0)) {
    throw ComputeError("track modes: the lowest one has no stiffness; support the rail.");
  }
  RealModes modes{solver.eigenvalues().head(kept).cwiseSqrt(), solver.eigenvectors().leftCols(kept)};
  mass.matrixU().solveInPlace(modes.shape);
  return modes;
}

} // namespace wingnose::track::detail
