#include "../element.hpp"
#include "legendre.hpp"
#include "parts.hpp"

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>
#include <Eigen/LU>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace wingnose::track::chain::detail {
namespace {

using track::detail::deflection_shape;
using track::detail::element_stiffness;
using track::detail::held_compliance;

constexpr int degree = BayPiece::degree;
constexpr int inside = degree - 1; // functions of w, or of theta, that vanish at both ends of a piece
using Table = Eigen::Matrix<double, degree + 1, degree + 1>;

// Integrals over [-1, 1] of products of the functions and their slopes, by Gauss' rule of degree + 1 points (exact).
struct Integrals {
  Table ff = Table::Zero(), df = Table::Zero(), dd = Table::Zero(); // f f, f' f, f' f'
  Eigen::Matrix<double, degree + 1, 1> f = Eigen::Matrix<double, degree + 1, 1>::Zero();
};
const Integrals& integrals() {
  static const Integrals made = [] {
    Integrals i;
    constexpr int points = degree + 1;
    for (int p = 0; p < points; ++p) {
      double x = std::cos(std::numbers::pi * (p + 0.75) / (points + 0.5)), slope = 1.0;
      for (int newton = 0; newton < 20; ++newton) {
        const auto P = legendre<points>(x);
        slope = points * (x * P[points] - P[points - 1]) / (x * x - 1.0);
        x -= P[points] / slope;
      }
      const double weight = 2.0 / ((1.0 - x * x) * slope * slope);
      const auto f = functions<degree>(x), d = slopes<degree>(x);
      i.ff += weight * f * f.transpose();
      i.df += weight * d * f.transpose();
      i.dd += weight * d * d.transpose();
      i.f += weight * f;
    }
    return i;
  }();
  return made;
}

struct Mesh {
  Eigen::MatrixXd K, M;
  Eigen::VectorXd weight; // kg
};

// Unknowns: inner nodes (w, theta), then inside of each piece (w's, theta's), then w, theta of the two ends.
struct Numbering {
  int pieces;
  [[nodiscard]] int inner() const { return 2 * (pieces - 1) + 2 * inside * pieces; }
  [[nodiscard]] int node(int i) const { return i == 0 ? inner() : (i == pieces ? inner() + 2 : 2 * (i - 1)); }
  // of function j of w (rotation: of theta) along piece p
  [[nodiscard]] int of(int p, int j, bool rotation) const {
    return j < 2 ? node(p + j) + (rotation ? 1 : 0)
                 : 2 * (pieces - 1) + 2 * inside * p + (rotation ? inside : 0) + j - 2;
  }
};

Mesh mesh_of(const std::vector<Stretch>& stretches, const Numbering& number) {
  const Eigen::Index n = number.inner() + 4;
  Mesh mesh{Eigen::MatrixXd::Zero(n, n), Eigen::MatrixXd::Zero(n, n), Eigen::VectorXd::Zero(n)};
  const Integrals& I = integrals();
  for (int p = 0; p < number.pieces; ++p) {
    const auto& [h, r] = stretches[p];
    const Table ww = r.kappa_GA * (2.0 / h) * I.dd;
    const Table wt = -r.kappa_GA * I.df; // row: w, column: theta
    const Table tt = r.EI * (2.0 / h) * I.dd + r.kappa_GA * (h / 2.0) * I.ff;
    for (int i = 0; i <= degree; ++i) {
      const int wi = number.of(p, i, false), ti = number.of(p, i, true);
      mesh.weight[wi] += r.rho_A * 0.5 * h * I.f[i];
      for (int j = 0; j <= degree; ++j) {
        const int wj = number.of(p, j, false), tj = number.of(p, j, true);
        mesh.K(wi, wj) += ww(i, j);
        mesh.K(ti, tj) += tt(i, j);
        mesh.K(wi, tj) += wt(i, j);
        mesh.K(tj, wi) += wt(i, j);
        mesh.M(wi, wj) += r.rho_A * 0.5 * h * I.ff(i, j);
        mesh.M(ti, tj) += r.rho_I * 0.5 * h * I.ff(i, j);
      }
    }
  }
  return mesh;
}

struct HeldModes {
  Eigen::MatrixXd shape;     // [inner x modes], mass 1
  Eigen::VectorXd stiffness; // omega^2
};

// The modes with held ends that deflections would miss most: from some 5 kHz on every other one is a mode of shear, in
// which a rail hardly deflects. A mode left out lacks phi^2 omega^2 / omega_j^4 of receptance.
HeldModes held_modes(const Eigen::MatrixXd& K, const Eigen::MatrixXd& M, const Numbering& number, int modes) {
  // M x = mu K x, mu = 1 / omega^2: the mass may be without rotary inertia, the stiffness is positive.
  const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> eigen(M, K);
  const Eigen::Index n = K.rows();
  Eigen::VectorXd deflects = Eigen::VectorXd::Zero(n); // 1 for w, 0 for theta
  for (int p = 0; p < number.pieces; ++p) {
    for (int j = 0; j <= degree; ++j) {
      const int i = number.of(p, j, false);
      if (i < n) {
        deflects[i] = 1.0;
      }
    }
  }
  std::vector<std::pair<double, Eigen::Index>> rank;
  for (Eigen::Index j = std::max<Eigen::Index>(0, n - 3 * modes); j < n; ++j) {
    const Eigen::VectorXd w = eigen.eigenvectors().col(j).cwiseProduct(deflects);
    rank.emplace_back(-eigen.eigenvalues()[j] * w.dot(M * w), j);
  }
  std::sort(rank.begin(), rank.end());
  HeldModes found{Eigen::MatrixXd(n, modes), Eigen::VectorXd(modes)};
  for (int k = 0; k < modes; ++k) {
    const Eigen::Index j = rank[k].second;
    found.shape.col(k) = eigen.eigenvectors().col(j) / std::sqrt(eigen.eigenvalues()[j]);
    found.stiffness[k] = 1.0 / eigen.eigenvalues()[j];
  }
  return found;
}

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

} // namespace

RailBay make_bay(const std::vector<Stretch>& stretches, int modes) {
  RailBay bay;
  bay.modes = modes;
  const Numbering number{static_cast<int>(stretches.size())};
  const Mesh mesh = mesh_of(stretches, number);
  const Eigen::Index inner = number.inner();
  const Eigen::MatrixXd Kii = mesh.K.topLeftCorner(inner, inner), Mii = mesh.M.topLeftCorner(inner, inner);
  const HeldModes held = held_modes(Kii, Mii, number, modes);
  // Reduced basis over all unknowns: boundary shapes, then modes.
  Eigen::MatrixXd T = Eigen::MatrixXd::Zero(inner + 4, 4 + modes);
  T.topLeftCorner(inner, 4).noalias() = -Kii.llt().solve(mesh.K.topRightCorner(inner, 4));
  T.bottomLeftCorner(4, 4).setIdentity();
  T.topRightCorner(inner, modes) = held.shape;
  const Eigen::MatrixXd M = T.transpose() * (mesh.M * T);
  bay.K = T.leftCols<4>().transpose() * (mesh.K * T.leftCols<4>());
  bay.K = 0.5 * (bay.K + bay.K.transpose()).eval();
  bay.M = M.topLeftCorner<4, 4>();
  bay.M = 0.5 * (bay.M + bay.M.transpose()).eval();
  bay.coupling.setZero();
  bay.coupling.leftCols(modes) = M.topRightCorner(4, modes);
  bay.stiffness.head(modes) = held.stiffness;
  const Eigen::VectorXd weight = T.transpose() * mesh.weight;
  bay.weight = weight.head<4>();
  bay.modal_weight.head(modes) = weight.tail(modes);
  for (int p = 0; p < number.pieces; ++p) {
    BayPiece piece;
    piece.begin = bay.length;
    piece.length = stretches[p].length;
    piece.section = stretches[p].section;
    piece.w.setZero();
    for (int j = 0; j <= degree; ++j) {
      piece.w.row(j).head(4 + modes) = T.row(number.of(p, j, false));
    }
    bay.length += piece.length;
    bay.piece.push_back(std::move(piece));
  }
  bay.held = held_nodes(bay.piece);
  add_held(bay);
  return bay;
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
