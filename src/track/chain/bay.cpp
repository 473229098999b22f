#include "../element.hpp"
#include "parts.hpp"

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>
#include <Eigen/LU>

#include <algorithm>

namespace wingnose::track::chain::detail {
namespace {

using track::detail::deflection_coefficients;
using track::detail::deflection_shape;
using track::detail::element_mass;
using track::detail::element_stiffness;
using track::detail::held_compliance;

struct Mesh {
  Eigen::MatrixXd K, M;
  Eigen::VectorXd weight; // kg, consistent with the exact static shapes
};

// Unknowns in the order inner nodes, first end, second end.
int unknown(int node_unknown, int nodes) {
  if (node_unknown < 2) {
    return 2 * nodes - 4 + node_unknown;
  }
  return node_unknown >= 2 * nodes - 2 ? node_unknown : node_unknown - 2;
}

Mesh mesh_of(const std::vector<RailProperties>& element, double h) {
  const int nodes = static_cast<int>(element.size()) + 1;
  Mesh mesh{Eigen::MatrixXd::Zero(2 * nodes, 2 * nodes), Eigen::MatrixXd::Zero(2 * nodes, 2 * nodes),
            Eigen::VectorXd::Zero(2 * nodes)};
  Eigen::Matrix4d k, m;
  for (int e = 0; e + 1 < nodes; ++e) {
    if (e == 0 || !(element[e] == element[e - 1])) {
      k = element_stiffness(element[e], h);
      m = element_mass(element[e], h);
    }
    const double mass = element[e].rho_A * h;
    const Eigen::Vector4d weight(mass / 2, mass * h / 12, mass / 2, -mass * h / 12);
    for (int i = 0; i < 4; ++i) {
      const int row = unknown(2 * e + i, nodes);
      mesh.weight[row] += weight[i];
      for (int j = 0; j < 4; ++j) {
        const int column = unknown(2 * e + j, nodes);
        mesh.K(row, column) += k(i, j);
        mesh.M(row, column) += m(i, j);
      }
    }
  }
  return mesh;
}

void add_cubics(RailBay& bay, double h) {
  const auto shapes = bay.shapes.cols();
  for (std::size_t e = 0; e < bay.element.size(); ++e) {
    Eigen::Matrix<double, 4, 4 + most_modes> cubic = decltype(cubic)::Zero();
    cubic.leftCols(shapes) =
        deflection_coefficients(bay.element[e], h) * bay.shapes.middleRows(2 * static_cast<Eigen::Index>(e), 4);
    bay.cubic.push_back(cubic);
  }
}

// Deflection shapes of the inner nodes in an element: rows of `held` they act on, out of range where an end is held.
double held_at(const RailBay& bay, std::size_t e, const Eigen::Vector4d& p, std::size_t f, const Eigen::Vector4d& q) {
  const auto inner = bay.held.rows();
  double sum = 0.0;
  for (int i = 0; i < 4; ++i) {
    const Eigen::Index row = 2 * static_cast<Eigen::Index>(e) + i - 2;
    for (int j = 0; j < 4; ++j) {
      const Eigen::Index column = 2 * static_cast<Eigen::Index>(f) + j - 2;
      if (row >= 0 && row < inner && column >= 0 && column < inner) {
        sum += p[i] * q[j] * bay.held(row, column);
      }
    }
  }
  return sum;
}

void add_residual(RailBay& bay, double h) {
  for (std::size_t e = 0; e < bay.element.size(); ++e) {
    for (int p = 0; p < RailBay::residual_points; ++p) {
      const double s = static_cast<double>(p) / (RailBay::residual_points - 1);
      const Eigen::Vector4d at = deflection_shape(bay.element[e], h, s);
      double left = held_at(bay, e, at, e, at) + held_compliance(bay.element[e], h, s);
      for (int j = 0; j < bay.modes; ++j) {
        const double mode = bay.cubic[e].col(4 + j).dot(Eigen::Vector4d(1.0, s, s * s, s * s * s));
        left -= mode * mode / bay.stiffness[j];
      }
      bay.residual.push_back(std::max(left, 0.0));
    }
  }
}

} // namespace

RailBay make_bay(double length, const std::vector<RailProperties>& element, int modes) {
  RailBay bay;
  bay.length = length;
  bay.modes = modes;
  bay.element = element;
  const auto elements = static_cast<Eigen::Index>(element.size());
  const double h = length / static_cast<double>(elements);
  for (Eigen::Index e = 0; e <= elements; ++e) {
    bay.node.push_back(static_cast<double>(e) * h);
  }
  const Mesh mesh = mesh_of(element, h);
  const Eigen::Index inner = 2 * elements - 2;
  const Eigen::MatrixXd Kii = mesh.K.topLeftCorner(inner, inner), Mii = mesh.M.topLeftCorner(inner, inner);
  const Eigen::LLT<Eigen::MatrixXd> held(Kii);
  bay.held = held.solve(Eigen::MatrixXd::Identity(inner, inner));
  const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> eigen(Kii, Mii);
  // Reduced basis over all unknowns: boundary shapes, then modes.
  Eigen::MatrixXd T = Eigen::MatrixXd::Zero(inner + 4, 4 + modes);
  T.topLeftCorner(inner, 4).noalias() = -held.solve(mesh.K.topRightCorner(inner, 4));
  T.bottomLeftCorner(4, 4).setIdentity();
  T.topRightCorner(inner, modes) = eigen.eigenvectors().leftCols(modes);
  const Eigen::MatrixXd MT = mesh.M * T, M = T.transpose() * MT;
  bay.K = T.leftCols<4>().transpose() * (mesh.K * T.leftCols<4>());
  bay.K = 0.5 * (bay.K + bay.K.transpose()).eval();
  bay.M = M.topLeftCorner<4, 4>();
  bay.M = 0.5 * (bay.M + bay.M.transpose()).eval();
  bay.coupling.setZero();
  bay.coupling.leftCols(modes) = M.topRightCorner(4, modes);
  bay.stiffness.head(modes) = eigen.eigenvalues().head(modes);
  const Eigen::VectorXd weight = T.transpose() * mesh.weight;
  bay.weight = weight.head<4>();
  bay.modal_weight.head(modes) = weight.tail(modes);
  bay.shapes.resize(inner + 4, 4 + modes); // back to the order of the nodes
  bay.shapes.topRows(2) = T.middleRows(inner, 2);
  bay.shapes.middleRows(2, inner) = T.topRows(inner);
  bay.shapes.bottomRows(2) = T.bottomRows(2);
  add_cubics(bay, h);
  add_residual(bay, h);
  return bay;
}

double held_between(const RailBay& bay, double x_load, double x) {
  const double h = bay.length / static_cast<double>(bay.element.size());
  const auto place = [&](double at) {
    const auto e = std::min(static_cast<std::size_t>(at / h), bay.element.size() - 1);
    return std::pair{e, at / h - static_cast<double>(e)};
  };
  const auto [e, s] = place(x_load);
  const auto [f, r] = place(x);
  double w = held_at(bay, e, deflection_shape(bay.element[e], h, s), f, deflection_shape(bay.element[f], h, r));
  if (e == f && s > 1e-9 && s < 1.0 - 1e-9) {
    // Split at the load into two exact elements with their outer ends held: what moves is the point between.
    const Eigen::Matrix2d middle = element_stiffness(bay.element[e], s * h).bottomRightCorner<2, 2>() +
                                   element_stiffness(bay.element[e], (1.0 - s) * h).topLeftCorner<2, 2>();
    const Eigen::Vector2d moved = middle.inverse().col(0);
    w += r <= s ? moved.dot(deflection_shape(bay.element[e], s * h, r / s).tail<2>())
                : moved.dot(deflection_shape(bay.element[e], (1.0 - s) * h, (r - s) / (1.0 - s)).head<2>());
  }
  return w;
}

} // namespace wingnose::track::chain::detail
