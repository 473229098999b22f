#include "residual.hpp"

#include "check.hpp"
#include "element.hpp"

#include <Eigen/SparseCholesky>

#include <array>

namespace wingnose::track::detail {

Eigen::MatrixXd static_compliance(const Assembly& a) {
  const Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> solver(a.K);
  if (solver.info() != Eigen::Success || solver.vectorD().minCoeff() <= 1e-14 * solver.vectorD().maxCoeff()) {
    refuse_loose_track();
  }
  const auto elements = static_cast<Eigen::Index>(a.element.size());
  const Eigen::MatrixXd inverse = solver.solve(Eigen::MatrixXd::Identity(a.dofs(), 2 * elements + 2));
  Eigen::MatrixXd blocks(4, 4 * elements);
  for (Eigen::Index e = 0; e < elements; ++e) {
    blocks.middleCols<4>(4 * e) = inverse.block<4, 4>(2 * e, 2 * e);
  }
  return blocks;
}

std::vector<double> residual(const Assembly& a, const Eigen::MatrixXd& compliance, const Eigen::VectorXcd& lambda,
                             const NodalShapes& nodal) {
  std::vector<double> values;
  values.reserve(a.element.size() * residual_points);
  const Eigen::VectorXcd weight = -lambda.cwiseInverse();
  const Eigen::VectorXd weight_re = weight.real();
  const Eigen::VectorXd weight_im = weight.imag();
  for (std::size_t e = 0; e < a.element.size(); ++e) {
    const auto i = static_cast<Eigen::Index>(e);
    const Eigen::Matrix<double, 4, Eigen::Dynamic> re = nodal.re.middleRows<4>(2 * i);
    const Eigen::Matrix<double, 4, Eigen::Dynamic> im = nodal.im.middleRows<4>(2 * i);
    // Re of sum theta theta^T / (-lambda); the mixed term enters with its transpose, hence twice in a quadratic form.
    const Eigen::Matrix4d modal = re * weight_re.asDiagonal() * re.transpose() -
                                  im * weight_re.asDiagonal() * im.transpose() -
                                  2.0 * re * weight_im.asDiagonal() * im.transpose();
    const Eigen::Matrix4d left_out = compliance.middleCols<4>(4 * i) - modal;
    const double L = a.node[e + 1] - a.node[e];
    for (int p = 0; p < residual_points; ++p) {
      const double s = static_cast<double>(p) / (residual_points - 1);
      const Eigen::Vector4d h = deflection_shape(a.element[e], L, s);
      values.push_back(h.dot(left_out * h) + held_compliance(a.element[e], L, s));
    }
  }
  return values;
}

double interpolate_residual(std::span<const double> values, double s) {
  // Barycentric form of the polynomial of degree 6 through seven even points (Berrut and Trefethen 2004,
  // doi:10.1137/S0036144502417715, eq 5.1).
  constexpr std::array<double, 7> weight{1.0, -6.0, 15.0, -20.0, 15.0, -6.0, 1.0};
  double top = 0.0;
  double bottom = 0.0;
  for (std::size_t i = 0; i < weight.size(); ++i) {
    const double distance = s - static_cast<double>(i) / 6.0;
    if (distance == 0.0) {
      return values[2 * i];
    }
    top += weight[i] / distance * values[2 * i];
    bottom += weight[i] / distance;
  }
  return top / bottom;
}

} // namespace wingnose::track::detail
