#include "reduced_basis.hpp"

#include <Eigen/Eigenvalues>
#include <Eigen/SparseCholesky>

#include <cmath>
#include <cstddef>
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

// The track seen from its other side: rail nodes and bearers change places, rotations their sign.
class Mirror {
public:
  explicit Mirror(const Assembly& a) : place_(static_cast<std::size_t>(a.dofs())), sign_(place_.size(), 1.0) {
    const auto nodes = static_cast<int>(a.node.size()), seats = static_cast<int>(a.seat.size());
    for (int i = 0; i < 2 * nodes; ++i) {
      place_[static_cast<std::size_t>(i)] = 2 * (nodes - 1 - i / 2) + i % 2;
      sign_[static_cast<std::size_t>(i)] = i % 2 == 0 ? 1.0 : -1.0;
    }
    for (int j = 0; j < seats; ++j) {
      place_[static_cast<std::size_t>(a.bearer_dof[static_cast<std::size_t>(j)])] =
          a.bearer_dof[static_cast<std::size_t>(seats - 1 - j)];
    }
  }
  [[nodiscard]] Eigen::MatrixXd of(const Eigen::MatrixXd& shapes) const {
    Eigen::MatrixXd out(shapes.rows(), shapes.cols());
    for (Eigen::Index i = 0; i < shapes.rows(); ++i) {
      out.row(i) = sign_[static_cast<std::size_t>(i)] * shapes.row(place_[static_cast<std::size_t>(i)]);
    }
    return out;
  }
  // Whether it leaves a matrix of the track as it is.
  [[nodiscard]] bool keeps(const Eigen::SparseMatrix<double>& m) const {
    const double rounding = 1e-12 * m.coeffs().cwiseAbs().maxCoeff();
    for (Eigen::Index column = 0; column < m.outerSize(); ++column) {
      const auto c = static_cast<std::size_t>(column);
      for (Eigen::SparseMatrix<double>::InnerIterator entry(m, column); entry; ++entry) {
        const auto r = static_cast<std::size_t>(entry.row());
        if (std::abs(sign_[r] * sign_[c] * m.coeff(place_[r], place_[c]) - entry.value()) > rounding) {
          return false;
        }
      }
    }
    return true;
  }

private:
  std::vector<int> place_;
  std::vector<double> sign_;
};

// Modes of the track among all sums of some shapes.
RealModes among(const Assembly& a, const Eigen::MatrixXd& shapes) {
  const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> solver(shapes.transpose() * (a.K * shapes),
                                                                         shapes.transpose() * (a.M * shapes));
  return {solver.eigenvalues().cwiseSqrt(), shapes * solver.eigenvectors()};
}

// The same, of a track that is its own mirror image: even and odd ones apart, so that no damper joins them.
RealModes among(const Assembly& a, const Eigen::MatrixXd& shapes, const Mirror& mirror) {
  const Eigen::MatrixXd loads = a.M * shapes, seen = loads.transpose() * mirror.of(shapes);
  const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> sides(0.5 * (seen + seen.transpose()),
                                                                        loads.transpose() * shapes);
  const Eigen::Index odd = (sides.eigenvalues().array() < 0.0).count(), even = shapes.cols() - odd;
  const Eigen::MatrixXd one = shapes * sides.eigenvectors().leftCols(odd),
                        other = shapes * sides.eigenvectors().rightCols(even);
  const RealModes odd_ones = among(a, 0.5 * (one - mirror.of(one))),
                  even_ones = among(a, 0.5 * (other + mirror.of(other)));
  RealModes both{Eigen::VectorXd(shapes.cols()), Eigen::MatrixXd(shapes.rows(), shapes.cols())};
  both.omega << even_ones.omega, odd_ones.omega;
  both.shape << even_ones.shape, odd_ones.shape;
  return both;
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
  all << basis.shape, unit * (a.M * unit).cwiseProduct(unit).colwise().sum().cwiseSqrt().cwiseInverse().asDiagonal();
  const Mirror mirror(a);
  return mirror.keeps(a.K) && mirror.keeps(a.M) && mirror.keeps(a.C) ? among(a, all, mirror) : among(a, all);
}

} // namespace wingnose::track::detail
