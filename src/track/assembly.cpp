#include "wingnose/track/assembly.hpp"

#include "check.hpp"
#include "element.hpp"
#include "matrices.hpp"

#include <algorithm>
#include <cmath>

namespace wingnose::track {
namespace detail {
namespace {

using Entries = std::vector<Eigen::Triplet<double>>;

void add_rail(Entries& to, const Assembly& a, double factor, Eigen::Matrix4d (*matrix)(const RailProperties&, double)) {
  for (std::size_t e = 0; e < a.element.size(); ++e) {
    const Eigen::Matrix4d m = factor * matrix(a.element[e], a.node[e + 1] - a.node[e]);
    const int first = 2 * static_cast<int>(e);
    for (int i = 0; i < 4; ++i) {
      for (int j = 0; j < 4; ++j) {
        to.emplace_back(first + i, first + j, m(i, j));
      }
    }
  }
}

// A spring (or dashpot) between rail and bearer, and one between bearer and ground.
void add_seat(Entries& to, int rail, int bearer, double pad, double ballast) {
  to.emplace_back(rail, rail, pad);
  to.emplace_back(rail, bearer, -pad);
  to.emplace_back(bearer, rail, -pad);
  to.emplace_back(bearer, bearer, pad + ballast);
}

Eigen::SparseMatrix<double> matrix_of(const Entries& entries, int n) {
  Eigen::SparseMatrix<double> m(n, n);
  m.setFromTriplets(entries.begin(), entries.end());
  return m;
}

int size_of(const Assembly& a) { return static_cast<int>(2 * a.node.size() + a.seat.size()); }

template <typename Pad, typename Ballast>
Eigen::SparseMatrix<double> sum(const Assembly& a, double rail_factor, Pad pad, Ballast ballast) {
  Entries entries;
  if (rail_factor != 0.0) {
    add_rail(entries, a, rail_factor, element_stiffness);
  }
  for (std::size_t j = 0; j < a.seat.size(); ++j) {
    add_seat(entries, 2 * a.seat_node[j], a.bearer_dof[j], pad(a.seat[j]), ballast(a.seat[j]));
  }
  return matrix_of(entries, size_of(a));
}

} // namespace

Eigen::SparseMatrix<double> stiffness(const Assembly& a) {
  return sum(
      a, 1.0, [](const Seat& s) { return s.pad_stiffness; }, [](const Seat& s) { return s.ballast_stiffness; });
}

Eigen::SparseMatrix<double> damping(const Assembly& a) {
  return sum(
      a, 0.0, [](const Seat& s) { return s.pad_damping; }, [](const Seat& s) { return s.ballast_damping; });
}

Eigen::SparseMatrix<double> hysteretic_stiffness(const Assembly& a) {
  return sum(
      a, a.input.rail_loss, [](const Seat& s) { return s.pad_stiffness * s.pad_loss; },
      [](const Seat& s) { return s.ballast_stiffness * s.ballast_loss; });
}

Eigen::SparseMatrix<double> mass(const Assembly& a) {
  Entries entries;
  add_rail(entries, a, 1.0, element_mass);
  for (std::size_t j = 0; j < a.seat.size(); ++j) {
    entries.emplace_back(a.bearer_dof[j], a.bearer_dof[j], a.seat[j].bearer_mass);
  }
  return matrix_of(entries, size_of(a));
}

} // namespace detail

namespace {

// Nodes on every seat and evenly between; the rail ends (free) on its first and last seat.
void lay_out(Assembly& a) {
  const Track& t = a.input;
  const double first = std::round((t.centre - t.first_seat) / t.spacing - 0.5 * t.bays);
  for (int k = 0; k <= t.bays; ++k) {
    a.seat_station.push_back(t.first_seat + (first + k) * t.spacing);
  }
  for (int k = 0; k < t.bays; ++k) {
    for (int i = 0; i < t.elements_per_bay; ++i) {
      a.node.push_back(a.seat_station[static_cast<std::size_t>(k)] + i * t.spacing / t.elements_per_bay);
    }
  }
  a.node.push_back(a.seat_station.back());
  const int nodes = static_cast<int>(a.node.size());
  for (int k = 0; k <= t.bays; ++k) {
    a.seat_node.push_back(k * t.elements_per_bay);
    a.bearer_dof.push_back(2 * nodes + k);
  }
}

void apply_zones(Assembly& a) {
  a.element.assign(a.node.size() - 1, a.input.rail);
  for (const auto& zone : a.input.zones) { // a later zone wins where two overlap
    bool hit = false;
    for (std::size_t e = 0; e < a.element.size(); ++e) {
      const double middle = 0.5 * (a.node[e] + a.node[e + 1]);
      if (middle >= zone.begin && middle <= zone.end) {
        a.element[e] = zone.rail;
        hit = true;
      }
    }
    detail::check_zone_hit(zone, hit, a.node.front(), a.node.back());
  }
}

void apply_overrides(Assembly& a) {
  a.seat.assign(a.seat_station.size(), a.input.seat);
  std::vector<bool> replaced(a.seat.size(), false);
  for (const auto& change : a.input.overrides) {
    const auto nearest = std::min_element(a.seat_station.begin(), a.seat_station.end(), [&](double p, double q) {
      return std::abs(p - change.station) < std::abs(q - change.station);
    });
    detail::check_override_distance(change.station, *nearest, a.input.spacing);
    const auto j = static_cast<std::size_t>(nearest - a.seat_station.begin());
    if (replaced[j]) {
      detail::refuse_second_override(*nearest);
    }
    replaced[j] = true;
    a.seat[j] = change.seat;
  }
}

} // namespace

Assembly laid_out(const Track& track) {
  detail::check_track(track);
  Assembly a;
  a.input = track;
  lay_out(a);
  apply_zones(a);
  apply_overrides(a);
  return a;
}

Assembly assemble(const Track& track) {
  Assembly a = laid_out(track);
  a.M = detail::mass(a);
  a.C = detail::damping(a);
  a.K = detail::stiffness(a);
  return a;
}

Interpolation interpolate(const Assembly& a, double x) {
  detail::check_station(x, a.node.front(), a.node.back());
  const auto after = std::upper_bound(a.node.begin() + 1, a.node.end() - 1, x);
  const auto e = static_cast<std::size_t>(after - a.node.begin()) - 1;
  const double L = a.node[e + 1] - a.node[e];
  const Eigen::Vector4d h = detail::deflection_shape(a.element[e], L, (x - a.node[e]) / L);
  return {static_cast<int>(e), {h[0], h[1], h[2], h[3]}};
}

double bubble_compliance(const Assembly& a, double x) {
  const auto e = static_cast<std::size_t>(interpolate(a, x).element);
  const double L = a.node[e + 1] - a.node[e];
  return detail::held_compliance(a.element[e], L, (x - a.node[e]) / L);
}

} // namespace wingnose::track
