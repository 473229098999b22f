#include "../element.hpp"
#include "free_shapes.hpp"
#include "parts.hpp"

#include "wingnose/words/error.hpp"

#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <string>

namespace wingnose::track::chain::detail {
namespace {

using track::detail::deflection_shape;

constexpr double element_length = 0.15;   // m, of a bearer's mesh at most
constexpr double limit_of_modes = 1200.0; // Hz, free modes of a bearer below it are kept
constexpr double ballast_length = 0.25;   // m of bearer at most for two spots of ballast (Gauss points)

// Ballast with the pad under the bearer: Kelvin bodies in series, stiffness exact, damping to first order in frequency.
Ballast in_series(Ballast b, const std::optional<UnderSleeperPad>& pad) {
  if (pad && b.stiffness > 0.0) {
    const double k1 = b.stiffness, k2 = pad->stiffness, sum = k1 + k2;
    b.damping = (b.damping * k2 * k2 + pad->damping * k1 * k1) / (sum * sum);
    b.loss *= k2 / sum; // the pad's own loss is its damping
    b.stiffness = k1 * k2 / sum;
    if (b.knee) { // the force at which it bends stays
      *b.knee *= k1 / b.stiffness;
      b.stiffness_beyond = b.stiffness_beyond * k2 / (b.stiffness_beyond + k2);
    }
  }
  return b;
}

Ballast ballast_at(const Bearer& bearer, double y) {
  Ballast found = bearer.ballast;
  for (const BallastZone& zone : bearer.zones) {
    if (y >= zone.from && y <= zone.to) {
      found = zone.ballast;
    }
  }
  return in_series(found, bearer.under_sleeper_pad);
}

double gap_at(const Bearer& bearer, double y) {
  double gap = 0.0;
  for (const Void& v : bearer.voids) {
    if (y >= v.from && y <= v.to) {
      gap = v.gap;
    }
  }
  return gap;
}

// Adds the spot and, where it is more than a spring, its law.
void add_point(BearerShape& to, const Bearer& bearer, double y, double length, const Ballast& ballast, double gap) {
  if (!(ballast.stiffness > 0.0 || ballast.damping > 0.0)) {
    return;
  }
  to.ballast.push_back({y, length, ballast.stiffness * length, ballast.damping * length, ballast.loss, {}});
  const bool lets_go = ballast.unilateral || !bearer.voids.empty();
  if (!lets_go && !ballast.knee) {
    return;
  }
  Link link;
  link.point = static_cast<int>(to.ballast.size()) - 1;
  link.law.stiffness = ballast.stiffness * length;
  link.law.damping = ballast.damping * length;
  link.law.gap = gap;
  if (ballast.knee) {
    link.law.knee = *ballast.knee;
    link.law.beyond = ballast.stiffness_beyond * length;
  }
  if (lets_go) {
    link.law.pull = 0.0;
  }
  to.links.push_back(link);
}

void add_pads(BearerShape& to, const Bearer& bearer) {
  for (std::size_t r = 0; r < bearer.seat.size(); ++r) {
    const Pad& pad = bearer.seat[r].pad;
    to.pad.push_back(pad);
    if (pad.knee || pad.clip_load) {
      Link link;
      link.pad = static_cast<int>(r);
      link.law.stiffness = pad.stiffness;
      link.law.damping = pad.damping;
      if (pad.knee) {
        link.law.knee = *pad.knee;
        link.law.beyond = pad.stiffness_beyond;
      }
      if (pad.clip_load) {
        link.law.pull = *pad.clip_load;
      }
      to.links.push_back(link);
    }
  }
}

BearerShape lumped(const Bearer& bearer, const LumpedBearer& body) {
  BearerShape shape;
  shape.n = static_cast<int>(bearer.seat.size());
  const double root = std::sqrt(body.mass);
  shape.seat = Eigen::MatrixXd::Identity(shape.n, shape.n) / root;
  shape.weight = Eigen::VectorXd::Constant(shape.n, root);
  shape.stiffness = Eigen::VectorXd::Zero(shape.n);
  shape.damping = shape.loss = Eigen::MatrixXd::Zero(shape.n, shape.n);
  add_pads(shape, bearer);
  const double gap = bearer.voids.empty() ? 0.0 : bearer.voids.back().gap;
  for (int r = 0; r < shape.n; ++r) {
    const std::size_t before = shape.ballast.size();
    add_point(shape, bearer, bearer.seat[r].y, 1.0, in_series(bearer.ballast, bearer.under_sleeper_pad), gap);
    if (shape.ballast.size() > before) {
      BallastPoint& point = shape.ballast.back();
      point.shape = shape.seat.col(r);
      shape.stiffness[r] = point.stiffness / body.mass;
      shape.damping(r, r) = point.damping / body.mass;
      shape.loss(r, r) = point.stiffness * point.loss / body.mass;
    }
  }
  return shape;
}

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

// Two Gauss points per piece of bedding, pieces ending wherever ballast or gap change.
void add_bedding(BearerShape& to, const Bearer& bearer, const BeamBearer& beam) {
  std::vector<double> edge{beam.from, beam.to};
  const auto add_edge = [&](double y) {
    if (y > beam.from && y < beam.to) {
      edge.push_back(y);
    }
  };
  for (const BallastZone& zone : bearer.zones) {
    add_edge(zone.from);
    add_edge(zone.to);
  }
  for (const Void& v : bearer.voids) {
    add_edge(v.from);
    add_edge(v.to);
  }
  std::sort(edge.begin(), edge.end());
  const double longest = std::max(ballast_length, (beam.to - beam.from) / 14.0);
  for (std::size_t i = 1; i < edge.size(); ++i) {
    const double length = edge[i] - edge[i - 1];
    const int pieces = std::max(1, static_cast<int>(std::ceil(length / longest - 1e-9)));
    for (int p = 0; p < pieces && length > 1e-9; ++p) {
      const double half = 0.5 * length / pieces, middle = edge[i - 1] + (2 * p + 1) * half;
      for (const double side : {-1.0, 1.0}) {
        const double y = middle + side * half / std::sqrt(3.0);
        add_point(to, bearer, y, half, ballast_at(bearer, y), gap_at(bearer, y));
      }
    }
  }
}

// Matrices of the beam alone, three diagonals below the main one: band(d, j) = A(j + d, j).
using Band = Eigen::Matrix<double, 4, Eigen::Dynamic>;

void add_to(Band& band, Eigen::Index first, const Eigen::Matrix4d& block) {
  for (int j = 0; j < 4; ++j) {
    for (int i = j; i < 4; ++i) {
      band(i - j, first + j) += block(i, j);
    }
  }
}

Eigen::MatrixXd times(const Band& a, const Eigen::MatrixXd& x) {
  const Eigen::Index n = a.cols();
  Eigen::MatrixXd y = a.row(0).transpose().asDiagonal() * x;
  for (Eigen::Index d = 1; d < 4; ++d) {
    y.bottomRows(n - d) += a.row(d).head(n - d).transpose().asDiagonal() * x.topRows(n - d);
    y.topRows(n - d) += a.row(d).head(n - d).transpose().asDiagonal() * x.bottomRows(n - d);
  }
  return y;
}

// x with A x = b by LDL^T within the band.
Eigen::MatrixXd solve(Band a, Eigen::MatrixXd b) {
  const Eigen::Index n = a.cols();
  for (Eigen::Index j = 0; j < n; ++j) {
    for (Eigen::Index d = 1; d < 4 && j + d < n; ++d) {
      const double factor = a(d, j) / a(0, j);
      for (Eigen::Index e = d; e < 4 && j + e < n; ++e) {
        a(e - d, j + d) -= factor * a(e, j);
      }
      b.row(j + d) -= factor * b.row(j);
    }
  }
  for (Eigen::Index j = n - 1; j >= 0; --j) {
    for (Eigen::Index d = 1; d < 4 && j + d < n; ++d) {
      b.row(j) -= a(d, j) * b.row(j + d);
    }
    b.row(j) /= a(0, j);
  }
  return b;
}

struct BeamMesh {
  Band K, M;       // of the beam alone
  Band on_ballast; // K with its bedding
};

BeamMesh mesh_of(const BearerShape& shape, const BeamBearer& beam) {
  const RailProperties section{beam.EI, std::numeric_limits<double>::infinity(), beam.mass_per_m, 0.0};
  const auto unknowns = 2 * static_cast<Eigen::Index>(shape.node.size());
  BeamMesh mesh{Band::Zero(4, unknowns), Band::Zero(4, unknowns), {}};
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

// Element that holds y and the deflection shapes there.
std::pair<Eigen::Index, Eigen::Vector4d> on_element(const BearerShape& shape, double y) {
  const auto after = std::upper_bound(shape.node.begin() + 1, shape.node.end() - 1, y);
  const auto e = static_cast<std::size_t>(after - shape.node.begin()) - 1;
  const double h = shape.node[e + 1] - shape.node[e];
  const RailProperties euler{1.0, std::numeric_limits<double>::infinity(), 1.0, 0.0};
  return {2 * static_cast<Eigen::Index>(e), deflection_shape(euler, h, (y - shape.node[e]) / h)};
}

// Lowest free shapes and one static shape on ballast per seat, [unknowns x coordinates].
Eigen::MatrixXd trial_shapes(const BearerShape& shape, const BeamBearer& beam, const std::vector<RailSeat>& seat,
                             const BeamMesh& mesh) {
  const auto seats = static_cast<Eigen::Index>(seat.size());
  const Eigen::Index unknowns = mesh.K.cols(), free = shape.n - seats;
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
  Eigen::MatrixXd load = Eigen::MatrixXd::Zero(unknowns, seats);
  for (Eigen::Index r = 0; r < seats; ++r) {
    const auto [first, at] = on_element(shape, seat[r].y);
    load.col(r).segment<4>(first) = at;
  }
  trial.rightCols(seats) = solve(std::move(held), std::move(load));
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
  return std::clamp(2 + bending + seats, least, most_coordinates);
}

BearerShape beam_on_bedding(const Bearer& bearer, const BeamBearer& beam) {
  BearerShape shape;
  shape.n = coordinates_of(beam, static_cast<int>(bearer.seat.size()));
  shape.EI = beam.EI;
  shape.depth = beam.depth;
  shape.node = nodes_of(beam, bearer.seat);
  add_pads(shape, bearer);
  add_bedding(shape, bearer, beam);
  BeamMesh mesh = mesh_of(shape, beam);
  for (const BallastPoint& point : shape.ballast) {
    const auto [first, at] = on_element(shape, point.y);
    add_to(mesh.on_ballast, first, point.stiffness * at * at.transpose());
  }
  const Eigen::MatrixXd trial = trial_shapes(shape, beam, bearer.seat, mesh);
  const Eigen::MatrixXd K = trial.transpose() * times(mesh.on_ballast, trial);
  const Eigen::MatrixXd M = trial.transpose() * times(mesh.M, trial);
  const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> eigen(K, M);
  shape.stiffness = eigen.eigenvalues();
  shape.shapes = trial * eigen.eigenvectors();
  shape.damping = shape.loss = Eigen::MatrixXd::Zero(shape.n, shape.n);
  const auto along = [&](double y) -> Eigen::VectorXd {
    const auto [first, at] = on_element(shape, y);
    return shape.shapes.middleRows<4>(first).transpose() * at;
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
  return shape;
}

} // namespace

BearerShape make_bearer(const Bearer& bearer) {
  const auto* beam = std::get_if<BeamBearer>(&bearer.body);
  BearerShape shape =
      beam != nullptr ? beam_on_bedding(bearer, *beam) : lumped(bearer, std::get<LumpedBearer>(bearer.body));
  shape.width = bearer.width;
  if (shape.links.size() > most_links) {
    throw InputError("bearer at " + number(bearer.x) + " m", std::to_string(shape.links.size()) + " spots of ballast",
                     "up to " + std::to_string(most_links) + " that may let go",
                     "Give fewer voids and zones along one bearer.");
  }
  return shape;
}

} // namespace wingnose::track::chain::detail
