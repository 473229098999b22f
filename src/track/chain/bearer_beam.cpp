#include "../element.hpp"
#include "bearer_parts.hpp"
#include "free_shapes.hpp"

#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <utility>

namespace wingnose::track::chain::detail {
namespace {

using track::detail::deflection_shape;

constexpr double element_length = 0.15;   // m, of a bearer's mesh at most
constexpr double limit_of_modes = 1200.0; // Hz, free modes of a bearer below it are kept

// Nodes at the ends, under the rails and not too far apart.
std::vector<double> nodes_of(const BeamBearer& beam, const std::vector<RailSeat>& seat) {
  std::vector<double> fixed{beam.from, beam.to};
  for (const RailSeat& s : seat) {
    fixed.push_back(s.y);
  }
  std::sort(fixed.begin(), fixed.end());
  std::vector<double> node{fixed.front()};
  for (std::size_t i = 1; i < fixed.size(); ++i) {
    const int pieces = std::max(1, static_cast<int>(std::ceil((fixed[i] - fixed[i - 1]) / element_length - 1e-9)));
    for (int p = 1; p <= pieces; ++p) {
      node.push_back(p == pieces ? fixed[i] : fixed[i - 1] + (fixed[i] - fixed[i - 1]) * p / pieces);
    }
  }
  return node;
}

BeamMesh mesh_of(const BearerShape& shape, const BeamBearer& beam) {
  const RailProperties section{beam.EI, std::numeric_limits<double>::infinity(), beam.mass_per_m, 0.0};
  const auto unknowns = 2 * static_cast<Eigen::Index>(shape.node.size());
  BeamMesh mesh{Band::Zero(4, unknowns), Band::Zero(4, unknowns), {}, {}};
  for (std::size_t e = 0; e + 1 < shape.node.size(); ++e) {
    const double h = shape.node[e + 1] - shape.node[e];
    add_to(mesh.K, 2 * static_cast<Eigen::Index>(e), track::detail::element_stiffness(section, h));
    // Consistent: without shear the mean with the lumped mass, which rails take, would be less exact.
    const double half = 0.5 * beam.mass_per_m * h;
    add_to(mesh.M, 2 * static_cast<Eigen::Index>(e),
           2.0 * track::detail::element_mass(section, h) -
               Eigen::Matrix4d(Eigen::Vector4d(half, 0.0, half, 0.0).asDiagonal()));
  }
  mesh.on_ballast = mesh.K;
  return mesh;
}

// Forces where the bearer needs a static shape: under the rails, and what acts on it laterally.
Eigen::MatrixXd loads_on(const BearerShape& shape, const Bearer& bearer, Eigen::Index unknowns) {
  const auto seats = static_cast<Eigen::Index>(bearer.seat.size());
  Eigen::MatrixXd load = Eigen::MatrixXd::Zero(unknowns, seats);
  for (Eigen::Index r = 0; r < seats; ++r) {
    const OnElement at = on_element(shape, bearer.seat[r].y);
    load.col(r).segment<4>(at.first) = at.w;
  }
  if (bearer.lateral) {
    const Eigen::MatrixXd more = lateral_loads(shape, bearer, unknowns);
    load.conservativeResize(Eigen::NoChange, seats + more.cols());
    load.rightCols(more.cols()) = more;
  }
  return load;
}

// Lowest free shapes and one static shape on ballast per load, [unknowns x coordinates].
Eigen::MatrixXd trial_shapes(const BearerShape& shape, const BeamBearer& beam, Eigen::MatrixXd load,
                             const BeamMesh& mesh) {
  const Eigen::Index unknowns = mesh.K.cols(), loads = load.cols(), free = shape.n - loads;
  Eigen::MatrixXd trial = Eigen::MatrixXd::Zero(unknowns, shape.n);
  const double L = beam.to - beam.from;
  for (std::size_t i = 0; i < shape.node.size(); ++i) {
    for (Eigen::Index j = 0; j < free; ++j) {
      const auto [w, slope] = free_shape(static_cast<int>(j), (shape.node[i] - beam.from) / L);
      trial(2 * static_cast<Eigen::Index>(i), j) = w;
      trial(2 * static_cast<Eigen::Index>(i) + 1, j) = slope / L;
    }
  }
  Band held = mesh.on_ballast;
  if (shape.ballast.empty()) { // nothing holds it: any bedding gives shapes of use
    held += beam.EI / (L * L * L * L * beam.mass_per_m) * mesh.M;
  }
  trial.rightCols(loads) = solve(std::move(held), std::move(load));
  for (Eigen::Index j = free; j < shape.n; ++j) {
    trial.col(j) /= trial.col(j).cwiseAbs().maxCoeff();
  }
  return trial;
}

// Two rigid shapes, the free modes up to the limit, the static ones.
int coordinates_of(const BeamBearer& beam, int seats) {
  if (beam.coordinates != 0) {
    return beam.coordinates;
  }
  constexpr int least = 8;
  const double L = beam.to - beam.from;
  const double root = L * std::sqrt(2.0 * std::numbers::pi * limit_of_modes * std::sqrt(beam.mass_per_m / beam.EI));
  const int bending = static_cast<int>(std::floor(root / std::numbers::pi - 0.5)); // roots lie near (j + 1/2) pi
  constexpr int usual = 12;
  return std::clamp(2 + bending + seats, least, std::max(usual, 10 + seats));
}

} // namespace

OnElement on_element(const BearerShape& shape, double y) {
  const auto after = std::upper_bound(shape.node.begin() + 1, shape.node.end() - 1, y);
  const auto e = static_cast<std::size_t>(after - shape.node.begin()) - 1;
  const double h = shape.node[e + 1] - shape.node[e], s = (y - shape.node[e]) / h;
  const RailProperties euler{1.0, std::numeric_limits<double>::infinity(), 1.0, 0.0};
  const Eigen::Vector4d slope(6 * (s * s - s) / h, 1 - 4 * s + 3 * s * s, 6 * (s - s * s) / h, 3 * s * s - 2 * s);
  return {2 * static_cast<Eigen::Index>(e), deflection_shape(euler, h, s), slope};
}

BearerShape beam_on_bedding(const Bearer& bearer, const BeamBearer& beam) {
  BearerShape shape;
  shape.EI = beam.EI;
  shape.depth = beam.depth;
  shape.node = nodes_of(beam, bearer.seat);
  add_pads(shape, bearer);
  add_bedding(shape, bearer, beam);
  BeamMesh mesh = mesh_of(shape, beam);
  for (const BallastPoint& point : shape.ballast) {
    const OnElement at = on_element(shape, point.y);
    add_to(mesh.on_ballast, at.first, point.stiffness * at.w * at.w.transpose());
  }
  if (bearer.lateral) {
    add_lateral_bedding(mesh, shape, bearer);
  }
  Eigen::MatrixXd load = loads_on(shape, bearer, mesh.K.cols());
  const auto seats = static_cast<int>(bearer.seat.size());
  shape.n = coordinates_of(beam, seats) + static_cast<int>(load.cols()) - seats;
  const Eigen::MatrixXd trial = trial_shapes(shape, beam, std::move(load), mesh);
  const Eigen::MatrixXd K = trial.transpose() * times(mesh.on_ballast, trial);
  const Eigen::MatrixXd M = trial.transpose() * times(mesh.M, trial);
  const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> eigen(K, M);
  shape.stiffness = eigen.eigenvalues();
  shape.shapes = trial * eigen.eigenvectors();
  shape.damping = shape.loss = Eigen::MatrixXd::Zero(shape.n, shape.n);
  const auto along = [&](double y) -> Eigen::VectorXd {
    const OnElement at = on_element(shape, y);
    return shape.shapes.middleRows<4>(at.first).transpose() * at.w;
  };
  for (BallastPoint& point : shape.ballast) {
    point.shape = along(point.y);
    shape.damping.noalias() += point.damping * point.shape * point.shape.transpose();
    shape.loss.noalias() += point.stiffness * point.loss * point.shape * point.shape.transpose();
  }
  shape.seat.resize(shape.n, static_cast<Eigen::Index>(bearer.seat.size()));
  for (std::size_t r = 0; r < bearer.seat.size(); ++r) {
    shape.seat.col(static_cast<Eigen::Index>(r)) = along(bearer.seat[r].y);
  }
  // Weight: the mass times a deflection of 1 everywhere.
  Eigen::VectorXd ones = Eigen::VectorXd::Zero(mesh.M.cols());
  for (Eigen::Index i = 0; i < ones.size(); i += 2) {
    ones[i] = 1.0;
  }
  shape.weight = shape.shapes.transpose() * times(mesh.M, ones);
  if (bearer.lateral) {
    add_shift(shape, bearer, beam, mesh);
  }
  return shape;
}

} // namespace wingnose::track::chain::detail
