#include "bearer_parts.hpp"

#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cmath>
#include <optional>

namespace wingnose::track::chain::detail {
namespace {

// Room for coordinates that are zero so far.
void grow(BearerShape& shape, int more) {
  const Eigen::Index n = shape.n, all = n + more;
  const auto larger = [&](const Eigen::MatrixXd& a, Eigen::Index rows, Eigen::Index columns) {
    Eigen::MatrixXd b = Eigen::MatrixXd::Zero(rows, columns);
    b.topLeftCorner(a.rows(), a.cols()) = a;
    return b;
  };
  shape.n = static_cast<int>(all);
  shape.stiffness = larger(shape.stiffness, all, 1);
  shape.damping = larger(shape.damping, all, all);
  shape.loss = larger(shape.loss, all, all);
  shape.seat = larger(shape.seat, all, 2 * shape.seat.cols());
  shape.weight = larger(shape.weight, all, 1);
  for (BallastPoint& point : shape.ballast) {
    point.shape = larger(point.shape, all, 1);
  }
  shape.shapes = larger(shape.shapes, shape.shapes.rows(), all);
  shape.shift = shape.ballast_force = shape.ballast_damping = Eigen::VectorXd::Zero(all);
}

// Coordinates are mixed, so that the stiffness, K by now, is diagonal again.
void rotate(BearerShape& shape, const Eigen::MatrixXd& K) {
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen(K);
  const Eigen::MatrixXd& Q = eigen.eigenvectors();
  shape.stiffness = eigen.eigenvalues();
  shape.damping = (Q.transpose() * shape.damping * Q).eval();
  shape.loss = (Q.transpose() * shape.loss * Q).eval();
  shape.seat = (Q.transpose() * shape.seat).eval();
  shape.shapes = (shape.shapes * Q).eval();
  for (Eigen::VectorXd* v : {&shape.weight, &shape.shift, &shape.ballast_force, &shape.ballast_damping}) {
    *v = (Q.transpose() * *v).eval();
  }
  for (BallastPoint& point : shape.ballast) {
    point.shape = (Q.transpose() * point.shape).eval();
  }
}

} // namespace

bool leans(const Bearer& bearer) {
  const std::optional<LateralBearer>& lateral = bearer.lateral;
  return lateral && (lateral->ballast_below != 0.0 ||
                     std::any_of(bearer.seat.begin(), bearer.seat.end(), [&](const RailSeat& seat) {
                       return lateral->pad_above + seat.lateral->height != 0.0;
                     }));
}

void add_lateral_pads(BearerShape& shape, const Bearer& bearer) {
  for (const RailSeat& seat : bearer.seat) {
    const LateralSeat& lateral = *seat.lateral;
    Kelvin e{lateral.stiffness, lateral.damping};
    if (lateral.roll_stiffness && lateral.height > 0.0) { // as felt at the height of the rail's line
      const double h2 = lateral.height * lateral.height;
      e = in_series(e, {*lateral.roll_stiffness / h2, lateral.roll_damping / h2});
    }
    shape.pad.push_back({e.stiffness, e.damping, lateral.loss});
  }
}

void add_lateral_bedding(BeamMesh& mesh, const BearerShape& shape, const Bearer& bearer) {
  const double below = bearer.lateral->ballast_below;
  if (below == 0.0) {
    return;
  }
  mesh.slopes = Band::Zero(4, mesh.K.cols());
  for (std::size_t e = 0; e + 1 < shape.node.size(); ++e) {
    const double h = shape.node[e + 1] - shape.node[e];
    Eigen::Matrix4d slopes; // of cubics
    slopes << 36, 3 * h, -36, 3 * h, 3 * h, 4 * h * h, -3 * h, -h * h, -36, -3 * h, 36, -3 * h, 3 * h, -h * h, -3 * h,
        4 * h * h;
    add_to(mesh.slopes, 2 * static_cast<Eigen::Index>(e), slopes / (30.0 * h));
  }
  mesh.on_ballast += bearer.lateral->stiffness * below * below * mesh.slopes;
}

Eigen::MatrixXd lateral_loads(const BearerShape& shape, const Bearer& bearer, Eigen::Index unknowns) {
  if (!leans(bearer)) {
    return Eigen::MatrixXd(unknowns, 0);
  }
  const auto seats = static_cast<Eigen::Index>(bearer.seat.size());
  const bool below = bearer.lateral->ballast_below != 0.0;
  Eigen::MatrixXd load = Eigen::MatrixXd::Zero(unknowns, seats + (below ? 1 : 0));
  for (Eigen::Index r = 0; r < seats; ++r) { // couples under the rails
    const OnElement at = on_element(shape, bearer.seat[r].y);
    load.col(r).segment<4>(at.first) = at.slope;
  }
  if (below) { // a couple along the whole bearer is two forces at its ends
    load(0, seats) = -1.0;
    load(unknowns - 2, seats) = 1.0;
  }
  return load;
}

void add_shift(BearerShape& shape, const Bearer& bearer, const BeamBearer& beam, const BeamMesh& mesh) {
  const LateralBearer& lateral = *bearer.lateral;
  const double L = beam.to - beam.from, below = lateral.ballast_below;
  const auto seats = static_cast<Eigen::Index>(bearer.seat.size());
  const Eigen::Index v = shape.n, ends = shape.shapes.rows() - 2;
  grow(shape, 1);
  add_lateral_pads(shape, bearer);
  shape.shift[v] = 1.0 / std::sqrt(beam.mass_per_m * L);
  for (Eigen::Index r = 0; r < seats; ++r) {
    const OnElement at = on_element(shape, bearer.seat[r].y);
    const double height = bearer.seat[r].lateral->height + lateral.pad_above;
    shape.seat.col(seats + r) = shape.shift + height * (shape.shapes.middleRows<4>(at.first).transpose() * at.slope);
  }
  // Where ballast resists, summed along the bearer: L v - below (w at its end - w at its beginning).
  const Eigen::VectorXd lean = -below * (shape.shapes.row(ends) - shape.shapes.row(0)).transpose();
  const Eigen::VectorXd moved = L * shape.shift + lean;
  shape.ballast_force = lateral.stiffness * moved;
  shape.ballast_damping = lateral.damping * moved;
  // ... and its square, [L v2 + 2 v lean + below2 (dw/dy)2].
  Eigen::MatrixXd square = L * shape.shift * shape.shift.transpose();
  if (below == 0.0) {
    shape.stiffness[v] = lateral.stiffness * square(v, v);
    shape.damping += lateral.damping * square;
    shape.loss += lateral.stiffness * lateral.loss * square;
    return;
  }
  square += lean * shape.shift.transpose() + shape.shift * lean.transpose();
  const Eigen::MatrixXd slopes = below * below * (shape.shapes.transpose() * times(mesh.slopes, shape.shapes));
  shape.damping += lateral.damping * (square + slopes);
  shape.loss += lateral.stiffness * lateral.loss * (square + slopes);
  Eigen::MatrixXd K = lateral.stiffness * square; // that of leaning is in the shapes' own stiffness
  K.diagonal() += shape.stiffness;
  rotate(shape, K);
}

void add_shift(BearerShape& shape, const Bearer& bearer, const LumpedBearer& lumped) {
  const LateralBearer& lateral = *bearer.lateral;
  const Eigen::Index seats = shape.n;
  grow(shape, shape.n);
  add_lateral_pads(shape, bearer);
  for (Eigen::Index v = seats; v < 2 * seats; ++v) {
    shape.seat(v, v) = 1.0 / std::sqrt(lumped.mass);
    shape.stiffness[v] = lateral.stiffness / lumped.mass;
    shape.damping(v, v) = lateral.damping / lumped.mass;
    shape.loss(v, v) = lateral.stiffness * lateral.loss / lumped.mass;
    shape.ballast_force[v] = lateral.stiffness * shape.seat(v, v);
    shape.ballast_damping[v] = lateral.damping * shape.seat(v, v);
    shape.shift[v] = shape.seat(v, v) / static_cast<double>(seats); // their mean
  }
}

} // namespace wingnose::track::chain::detail
