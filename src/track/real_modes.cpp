#include "real_modes.hpp"

#include "wingnose/words/error.hpp"

#include <Eigen/Eigenvalues>
#include <Eigen/SparseCholesky>

#include <numbers>
#include <string>
#include <vector>

namespace wingnose::track::detail {
namespace {

using Sparse = Eigen::SparseMatrix<double>;

// Modes of a bay held at its seats count up to so many times the cut-off. Against all of them P1 of a dipped joint
// moves by 1e-5 and P2 by 1e-8 on 60E1, 8 elements a bay; without nearer() P1 by 2e-4.
constexpr double held_modes_beyond = 2.0;

// Vectors in which the track is solved, bay by bay (Craig and Bampton 1968, doi:10.2514/3.4741): every seat's rail node
// and bearer with the static shapes of the bays beside it, and the modes of each bay held at its seats up to
// `highest` (rad/s). With all of them nothing is left out.
Sparse bay_shapes(const Assembly& a, double highest) {
  std::vector<Eigen::Triplet<double>> entry;
  int column = 0;
  const auto seats = static_cast<int>(a.seat_node.size());
  std::vector<int> column_of(a.seat_node.size()); // of a seat's deflection; rotation and bearer follow it
  for (int j = 0; j < seats; ++j) {
    const int node = a.seat_node[static_cast<std::size_t>(j)];
    column_of[static_cast<std::size_t>(j)] = column;
    entry.emplace_back(2 * node, column++, 1.0);
    entry.emplace_back(2 * node + 1, column++, 1.0);
    entry.emplace_back(a.bearer_dof[static_cast<std::size_t>(j)], column++, 1.0);
    const int inner = j + 1 < seats ? 2 * (a.seat_node[static_cast<std::size_t>(j) + 1] - node - 1) : 0;
    if (inner == 0) {
      continue;
    }
    const int first = 2 * node + 2; // of the bay's inner unknowns, which follow one another
    const Eigen::MatrixXd K = a.K.block(first, first, inner, inner), M = a.M.block(first, first, inner, inner);
    const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> held(K, M);
    for (int k = 0; k < inner && held.eigenvalues()[k] <= highest * highest; ++k) {
      for (int i = 0; i < inner; ++i) {
        entry.emplace_back(first + i, column, held.eigenvectors()(i, k));
      }
      ++column;
    }
  }
  for (int j = 0; j + 1 < seats; ++j) {
    const int node = a.seat_node[static_cast<std::size_t>(j)], next = a.seat_node[static_cast<std::size_t>(j) + 1];
    const int first = 2 * node + 2, inner = 2 * (next - node - 1);
    if (inner == 0) {
      continue;
    }
    Eigen::MatrixXd beside(inner, 4);
    beside << Eigen::MatrixXd(a.K.block(first, 2 * node, inner, 2)),
        Eigen::MatrixXd(a.K.block(first, 2 * next, inner, 2));
    const Eigen::MatrixXd shape = -Eigen::MatrixXd(a.K.block(first, first, inner, inner)).llt().solve(beside);
    for (int k = 0; k < 4; ++k) {
      const int of = column_of[static_cast<std::size_t>(k < 2 ? j : j + 1)] + k % 2;
      for (int i = 0; i < inner; ++i) {
        entry.emplace_back(first + i, of, shape(i, k));
      }
    }
  }
  Sparse shapes(a.dofs(), column);
  shapes.setFromTriplets(entry.begin(), entry.end());
  return shapes;
}

// Modes of the whole track from near ones: by inverse iteration on all of them at once, which takes from each what
// other modes it holds in the proportion of their squared frequencies.
RealModes nearer(const Assembly& a, const RealModes& near) {
  const Eigen::SimplicialLDLT<Sparse> stiffness(a.K);
  const Eigen::MatrixXd loads = a.M * near.shape * near.omega.cwiseAbs2().asDiagonal(), moved = stiffness.solve(loads);
  const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> among(moved.transpose() * loads,
                                                                        moved.transpose() * (a.M * moved));
  return {among.eigenvalues().cwiseSqrt(), moved * among.eigenvectors()};
}

} // namespace

RealModes real_modes(const Assembly& a, double cut_off) {
  const double highest = 2.0 * std::numbers::pi * cut_off;
  const Sparse shapes = bay_shapes(a, held_modes_beyond * highest);
  const Sparse stiffness = shapes.transpose() * a.K * shapes, inertia = shapes.transpose() * a.M * shapes;
  // K x = omega^2 M x in standard form with M = L L^T. In natural order L keeps the narrow band of M, so forming
  // L^-1 K L^-T costs little beside the eigenvalue problem itself.
  const Eigen::SimplicialLLT<Sparse, Eigen::Lower, Eigen::NaturalOrdering<int>> mass(inertia);
  if (mass.info() != Eigen::Success) {
    throw ComputeError("track modes: the mass matrix is not positive definite; check rail and bearer masses.");
  }
  Eigen::MatrixXd standard = stiffness;
  mass.matrixL().solveInPlace(standard);
  standard.transposeInPlace();
  mass.matrixL().solveInPlace(standard);

  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver(standard);
  if (solver.info() != Eigen::Success) {
    throw ComputeError("track modes: the undamped eigenvalue problem did not converge.");
  }
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
  modes.shape = shapes * modes.shape;
  return shapes.cols() == a.dofs() ? modes : nearer(a, modes);
}

} // namespace wingnose::track::detail
