// Direct finite elements of a chain::Model, written for the tests and sharing nothing with the room: every rail and
// bearer meshed finely, one big sparse matrix, unilateral ballast by trying which spots touch. Slow and plain.
#pragma once

#include "wingnose/track/chain/model.hpp"

#include <Eigen/SparseLU>

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <numbers>
#include <utility>
#include <vector>

namespace chain_elements {

using namespace wingnose::track;
using namespace wingnose::track::chain;
using Complex = std::complex<double>;
using Row = std::vector<std::pair<int, double>>; // a displacement as a sum of unknowns

struct Spot { // of ballast
  Row row;
  double stiffness, damping, loss, length, gap;
  bool lets_go;
  int bearer;
};

struct Elements {
  int unknowns = 0;
  std::vector<Eigen::Triplet<double>> K, M, C, loss; // of everything but ballast
  std::vector<Spot> ballast;
  std::vector<std::vector<double>> node;   // stations of the nodes of every rail
  std::vector<std::vector<int>> first;     // unknown of each
  std::vector<std::vector<double>> across; // y of the nodes of every bearer (empty: lumped)
  std::vector<int> bearer_first;
  Model model;
};

inline std::array<double, 4> cubic(double h, double s) {
  return {1 - 3 * s * s + 2 * s * s * s, h * s * (1 - s) * (1 - s), 3 * s * s - 2 * s * s * s, h * s * s * (s - 1)};
}

// Two-node Timoshenko element with linked interpolation (Phi = 0: Euler), consistent mass.
inline void add_beam(Elements& to, int first, double h, const RailProperties& r, double loss) {
  const double Phi = 12 * r.EI / (r.kappa_GA * h * h), f = r.EI / (h * h * h * (1 + Phi));
  const double k[4][4] = {{12, 6 * h, -12, 6 * h},
                          {6 * h, (4 + Phi) * h * h, -6 * h, (2 - Phi) * h * h},
                          {-12, -6 * h, 12, -6 * h},
                          {6 * h, (2 - Phi) * h * h, -6 * h, (4 + Phi) * h * h}};
  double m[4][4] = {};
  constexpr std::array<std::pair<double, double>, 5> gauss{{{0.0, 0.5688888888888889},
                                                            {0.5384693101056831, 0.4786286704993665},
                                                            {-0.5384693101056831, 0.4786286704993665},
                                                            {0.9061798459386640, 0.2369268850561891},
                                                            {-0.9061798459386640, 0.2369268850561891}}};
  for (const auto& [point, weight] : gauss) {
    const double s = 0.5 * (1 + point), d = 1 / (1 + Phi);
    const double w[4] = {d * (1 - 3 * s * s + 2 * s * s * s + Phi * (1 - s)),
                         d * h * (s - 2 * s * s + s * s * s + Phi / 2 * (s - s * s)),
                         d * (3 * s * s - 2 * s * s * s + Phi * s),
                         d * h * (-s * s + s * s * s + Phi / 2 * (s * s - s))};
    const double t[4] = {d * 6 / h * (s * s - s), d * (1 - 4 * s + 3 * s * s + Phi * (1 - s)), d * 6 / h * (s - s * s),
                         d * (3 * s * s - 2 * s + Phi * s)};
    for (int i = 0; i < 4; ++i) {
      for (int j = 0; j < 4; ++j) {
        m[i][j] += 0.5 * h * weight * (r.rho_A * w[i] * w[j] + r.rho_I * t[i] * t[j]);
      }
    }
  }
  for (int i = 0; i < 4; ++i) {
    for (int j = 0; j < 4; ++j) {
      to.K.emplace_back(first + i, first + j, f * k[i][j]);
      to.M.emplace_back(first + i, first + j, m[i][j]);
      to.loss.emplace_back(first + i, first + j, loss * f * k[i][j]);
    }
  }
}

inline void add_spring(std::vector<Eigen::Triplet<double>>& to, const Row& row, double k) {
  for (const auto& [i, a] : row) {
    for (const auto& [j, b] : row) {
      to.emplace_back(i, j, k * a * b);
    }
  }
}

// Deflection of a bearer at y.
inline Row bearer_row(const Elements& e, int i, double y) {
  const std::vector<double>& node = e.across[i];
  const auto at = std::clamp(std::upper_bound(node.begin(), node.end(), y) - node.begin() - 1, std::ptrdiff_t{0},
                             static_cast<std::ptrdiff_t>(node.size()) - 2);
  const double h = node[at + 1] - node[at];
  const auto shape = cubic(h, (y - node[at]) / h);
  Row row;
  for (int k = 0; k < 4; ++k) {
    row.emplace_back(e.bearer_first[i] + 2 * static_cast<int>(at) + k, shape[k]);
  }
  return row;
}

inline Row seat_row(const Elements& e, int i, int rail) {
  return e.across[i].empty() ? Row{{e.bearer_first[i] + rail, 1.0}} : bearer_row(e, i, e.model.bearers[i].seat[rail].y);
}

inline int rail_unknown(const Elements& e, int rail, double x) {
  const auto& node = e.node[rail];
  const auto nearest =
      std::min_element(node.begin(), node.end(), [&](double a, double b) { return std::abs(a - x) < std::abs(b - x); });
  return e.first[rail][nearest - node.begin()];
}

inline void add_rails(Elements& e, int per_bay) {
  const Model& m = e.model;
  for (const Rail& rail : m.rails) {
    std::vector<double> node;
    std::vector<int> first;
    for (std::size_t b = 0; b + 1 < m.bearers.size(); ++b) {
      const double x = m.bearers[b].x, h = (m.bearers[b + 1].x - x) / per_bay;
      for (int k = 0; k < per_bay; ++k) {
        node.push_back(x + k * h);
      }
    }
    node.push_back(m.bearers.back().x);
    for (std::size_t k = 0; k < node.size(); ++k, e.unknowns += 2) {
      first.push_back(e.unknowns);
    }
    for (std::size_t k = 0; k + 1 < node.size(); ++k) {
      RailProperties section = rail.section;
      for (const RailZone& zone : rail.zones) {
        const double middle = 0.5 * (node[k] + node[k + 1]);
        section = middle >= zone.begin && middle <= zone.end ? zone.rail : section;
      }
      add_beam(e, first[k], node[k + 1] - node[k], section, m.rail_loss);
    }
    e.node.push_back(node);
    e.first.push_back(first);
  }
}

inline void add_ballast(Elements& e, int i, const Row& row, double y, double length) {
  const Bearer& b = e.model.bearers[i];
  Ballast ballast = b.ballast;
  for (const BallastZone& zone : b.zones) {
    ballast = y >= zone.from && y <= zone.to ? zone.ballast : ballast;
  }
  double gap = 0.0;
  for (const Void& v : b.voids) {
    gap = y >= v.from && y <= v.to ? v.gap : gap;
  }
  double k = ballast.stiffness;
  if (b.under_sleeper_pad) {
    k = 1 / (1 / k + 1 / b.under_sleeper_pad->stiffness);
  }
  e.ballast.push_back({row, k * length, ballast.damping * length, ballast.loss, length, gap,
                       ballast.unilateral || !b.voids.empty(), i});
}

inline void add_bearer(Elements& e, int i, int elements) {
  const Bearer& b = e.model.bearers[i];
  e.bearer_first.push_back(e.unknowns);
  e.across.emplace_back();
  if (const auto* lumped = std::get_if<LumpedBearer>(&b.body)) {
    for (std::size_t r = 0; r < b.seat.size(); ++r) {
      e.M.emplace_back(e.unknowns, e.unknowns, lumped->mass);
      add_ballast(e, i, {{e.unknowns, 1.0}}, b.seat[r].y, 1.0);
      ++e.unknowns;
    }
  } else {
    const auto& beam = std::get<BeamBearer>(b.body);
    // Nodes under the rails, where the shear jumps, and many between.
    std::vector<double> stop{beam.from, beam.to};
    for (const RailSeat& s : b.seat) {
      stop.push_back(s.y);
    }
    for (const BallastZone& zone : b.zones) { // and where the ballast changes
      stop.push_back(std::clamp(zone.from, beam.from, beam.to));
      stop.push_back(std::clamp(zone.to, beam.from, beam.to));
    }
    for (const Void& v : b.voids) {
      stop.push_back(std::clamp(v.from, beam.from, beam.to));
      stop.push_back(std::clamp(v.to, beam.from, beam.to));
    }
    std::sort(stop.begin(), stop.end());
    stop.erase(std::unique(stop.begin(), stop.end()), stop.end());
    std::vector<double>& node = e.across.back();
    for (std::size_t p = 0; p + 1 < stop.size(); ++p) {
      const int pieces =
          std::max(1, static_cast<int>(std::lround(elements * (stop[p + 1] - stop[p]) / (beam.to - beam.from))));
      for (int k = 0; k < pieces; ++k) {
        node.push_back(stop[p] + (stop[p + 1] - stop[p]) * k / pieces);
      }
    }
    node.push_back(stop.back());
    const int first = e.unknowns;
    e.unknowns += 2 * static_cast<int>(node.size());
    for (std::size_t k = 0; k + 1 < node.size(); ++k) {
      add_beam(e, first + 2 * static_cast<int>(k), node[k + 1] - node[k], {beam.EI, 1e30, beam.mass_per_m, 0.0}, 0.0);
      for (const double side : {-1.0, 1.0}) {
        const double y = 0.5 * (node[k] + node[k + 1]) + side * 0.5 * (node[k + 1] - node[k]) / std::sqrt(3.0);
        add_ballast(e, i, bearer_row(e, i, y), y, 0.5 * (node[k + 1] - node[k]));
      }
    }
  }
  for (std::size_t r = 0; r < b.seat.size(); ++r) {
    Row row = seat_row(e, i, static_cast<int>(r));
    for (auto& term : row) {
      term.second = -term.second;
    }
    row.emplace_back(rail_unknown(e, static_cast<int>(r), b.x), 1.0);
    const Pad& pad = b.seat[r].pad;
    add_spring(e.K, row, pad.stiffness);
    add_spring(e.C, row, pad.damping);
    add_spring(e.loss, row, pad.stiffness * pad.loss);
  }
}

inline Elements mesh(const Model& model, int per_bay, int per_bearer) {
  Elements e;
  e.model = model;
  add_rails(e, per_bay);
  for (std::size_t i = 0; i < model.bearers.size(); ++i) {
    add_bearer(e, static_cast<int>(i), per_bearer);
  }
  return e;
}

inline double value(const Row& row, const Eigen::VectorXd& u) {
  double sum = 0.0;
  for (const auto& [i, a] : row) {
    sum += a * u[i];
  }
  return sum;
}

// Weight times g of everything, consistent.
inline Eigen::VectorXd weight(const Elements& e) {
  Eigen::SparseMatrix<double> M(e.unknowns, e.unknowns);
  M.setFromTriplets(e.M.begin(), e.M.end());
  Eigen::VectorXd ones = Eigen::VectorXd::Zero(e.unknowns);
  for (const auto& rail : e.first) {
    for (const int i : rail) {
      ones[i] = 1.0;
    }
  }
  for (std::size_t i = 0; i < e.across.size(); ++i) {
    for (std::size_t k = 0; k < e.across[i].size(); ++k) {
      ones[e.bearer_first[i] + 2 * static_cast<int>(k)] = 1.0;
    }
    for (std::size_t r = 0; e.across[i].empty() && r < e.model.rails.size(); ++r) {
      ones[e.bearer_first[i] + static_cast<int>(r)] = 1.0;
    }
  }
  return e.model.gravity * (M * ones);
}

// Static displacements under all forces (weight included by the caller), whatever touches found by trying.
inline Eigen::VectorXd statics(const Elements& e, const Eigen::VectorXd& force) {
  std::vector<bool> touches(e.ballast.size(), true);
  Eigen::VectorXd u;
  for (int round = 0; round < 100; ++round) {
    auto entries = e.K;
    Eigen::VectorXd rhs = force;
    for (std::size_t p = 0; p < e.ballast.size(); ++p) {
      if (touches[p]) {
        add_spring(entries, e.ballast[p].row, e.ballast[p].stiffness);
        for (const auto& [i, a] : e.ballast[p].row) {
          rhs[i] += a * e.ballast[p].stiffness * e.ballast[p].gap;
        }
      }
    }
    Eigen::SparseMatrix<double> K(e.unknowns, e.unknowns);
    K.setFromTriplets(entries.begin(), entries.end());
    const Eigen::SparseLU<Eigen::SparseMatrix<double>> lu(K);
    u = lu.solve(rhs);
    bool settled = true;
    for (std::size_t p = 0; p < e.ballast.size(); ++p) {
      const bool does = !e.ballast[p].lets_go || value(e.ballast[p].row, u) > e.ballast[p].gap;
      settled = settled && does == touches[p];
      touches[p] = does;
    }
    if (settled) {
      return u;
    }
  }
  return Eigen::VectorXd::Constant(e.unknowns, std::nan(""));
}

inline double ballast_force(const Elements& e, int bearer, const Eigen::VectorXd& u) {
  double sum = 0.0;
  for (const Spot& spot : e.ballast) {
    if (spot.bearer == bearer) {
      const double force = spot.stiffness * (value(spot.row, u) - spot.gap);
      sum += spot.lets_go ? std::max(force, 0.0) : force;
    }
  }
  return sum;
}

// Displacements under a unit force on unknown `at`, harmonic.
inline Eigen::VectorXcd harmonic(const Elements& e, int at, double hertz) {
  const double omega = 2 * std::numbers::pi * hertz;
  std::vector<Eigen::Triplet<Complex>> entries;
  const auto add = [&](const auto& from, Complex factor) {
    for (const auto& t : from) {
      entries.emplace_back(t.row(), t.col(), factor * t.value());
    }
  };
  add(e.K, 1.0);
  add(e.loss, Complex(0, 1));
  add(e.M, -omega * omega);
  add(e.C, Complex(0, omega));
  for (const Spot& spot : e.ballast) {
    std::vector<Eigen::Triplet<double>> one;
    add_spring(one, spot.row, 1.0);
    add(one, Complex(spot.stiffness, spot.stiffness * spot.loss + omega * spot.damping));
  }
  Eigen::SparseMatrix<Complex> D(e.unknowns, e.unknowns);
  D.setFromTriplets(entries.begin(), entries.end());
  const Eigen::SparseLU<Eigen::SparseMatrix<Complex>> lu(D);
  Eigen::VectorXcd force = Eigen::VectorXcd::Zero(e.unknowns);
  force[at] = 1.0;
  return lu.solve(force);
}

} // namespace chain_elements
