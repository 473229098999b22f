#include "../element.hpp"
#include "bay_parts.hpp"

#include <Eigen/LU>

#include <algorithm>
#include <cmath>
#include <utility>

namespace wingnose::track::chain::detail {
namespace {

using track::detail::deflection_shape;
using track::detail::element_stiffness;
using track::detail::held_compliance;

// Static compliance of the nodes between pieces with held ends; two-node elements are exact for it.
Eigen::MatrixXd held_nodes(const std::vector<BayPiece>& piece) {
  const auto nodes = static_cast<Eigen::Index>(piece.size()) - 1;
  Eigen::MatrixXd K = Eigen::MatrixXd::Zero(2 * nodes, 2 * nodes);
  for (Eigen::Index p = 0; p <= nodes && nodes > 0; ++p) {
    const Eigen::Matrix4d k = element_stiffness(piece[p].section, piece[p].length);
    for (int i = 0; i < 4; ++i) {
      for (int j = 0; j < 4; ++j) {
        const Eigen::Index row = 2 * (p - 1) + i, column = 2 * (p - 1) + j;
        if (row >= 0 && row < 2 * nodes && column >= 0 && column < 2 * nodes) {
          K(row, column) += k(i, j);
        }
      }
    }
  }
  return K.inverse();
}

// Place in a bay: its piece and the coordinate along it in [0, 1].
std::pair<std::size_t, double> place(const RailBay& bay, double x) {
  std::size_t p = 0;
  while (p + 1 < bay.piece.size() && x >= bay.piece[p + 1].begin) {
    ++p;
  }
  return {p, std::clamp((x - bay.piece[p].begin) / bay.piece[p].length, 0.0, 1.0)};
}

// What the nodes between pieces contribute to the static deflection at (p, s) under a unit force at (q, t).
double through_nodes(const RailBay& bay, std::size_t p, double s, std::size_t q, double t) {
  const Eigen::Index inner = bay.held.rows();
  const Eigen::Vector4d a = deflection_shape(bay.piece[p].section, bay.piece[p].length, s);
  const Eigen::Vector4d b = deflection_shape(bay.piece[q].section, bay.piece[q].length, t);
  double sum = 0.0;
  for (int i = 0; i < 4 && inner > 0; ++i) {
    const Eigen::Index row = 2 * (static_cast<Eigen::Index>(p) - 1) + i;
    for (int j = 0; j < 4; ++j) {
      const Eigen::Index column = 2 * (static_cast<Eigen::Index>(q) - 1) + j;
      if (row >= 0 && row < inner && column >= 0 && column < inner) {
        sum += a[i] * b[j] * bay.held(row, column);
      }
    }
  }
  return sum;
}

} // namespace

// The polynomial through seven of its values.
void add_held(RailBay& bay) {
  static const auto invert = [] {
    Eigen::Matrix<double, 7, 7> powers;
    for (int i = 0; i < 7; ++i) {
      for (int c = 0; c < 7; ++c) {
        powers(i, c) = std::pow(i / 3.0 - 1.0, c);
      }
    }
    return Eigen::Matrix<double, 7, 7>(powers.inverse());
  }();
  bay.held = held_nodes(bay.piece);
  for (std::size_t p = 0; p < bay.piece.size(); ++p) {
    BayPiece& piece = bay.piece[p];
    Eigen::Matrix<double, 7, 1> value;
    for (int i = 0; i < 7; ++i) {
      const double s = i / 6.0;
      value[i] = through_nodes(bay, p, s, p, s) + held_compliance(piece.section, piece.length, s);
    }
    piece.held = invert * value;
  }
}

double held_between(const RailBay& bay, double x_load, double x) {
  const auto [p, s] = place(bay, x_load);
  const auto [q, t] = place(bay, x);
  double w = through_nodes(bay, q, t, p, s);
  if (p == q && s > 1e-9 && s < 1.0 - 1e-9) {
    // Split at the load into two exact elements with their outer ends held: what moves is the point between.
    const RailProperties& section = bay.piece[p].section;
    const double before = s * bay.piece[p].length, after = (1.0 - s) * bay.piece[p].length;
    const Eigen::Matrix2d middle = element_stiffness(section, before).bottomRightCorner<2, 2>() +
                                   element_stiffness(section, after).topLeftCorner<2, 2>();
    const Eigen::Vector2d moved = middle.inverse().col(0);
    w += t <= s ? moved.dot(deflection_shape(section, before, t / s).tail<2>())
                : moved.dot(deflection_shape(section, after, (t - s) / (1.0 - s)).head<2>());
  }
  return w;
}

} // namespace wingnose::track::chain::detail
