// The lateral plane of chain_elements: rails as fine beams of their own, the roll of every rail on its pad as an
// unknown of its own, bearers that shift and lean. Written for the tests and sharing nothing with the room.
#pragma once

#include "chain_elements.hpp"

#include "wingnose/track/chain/chain.hpp"

namespace chain_elements {

struct LateralElements {
  Elements all;                       // vertical unknowns first, as mesh() has them
  std::vector<std::vector<int>> rail; // lateral unknown of every node of every rail
  std::vector<int> shift;             // of every bearer (lumped: of its first rail)
};

// Slope of a bearer at y.
inline Row slope_row(const Elements& e, int i, double y) {
  const std::vector<double>& node = e.across[i];
  const auto at = std::clamp(std::upper_bound(node.begin(), node.end(), y) - node.begin() - 1, std::ptrdiff_t{0},
                             static_cast<std::ptrdiff_t>(node.size()) - 2);
  const double h = node[at + 1] - node[at], s = (y - node[at]) / h;
  const double slope[4] = {(6 * s * s - 6 * s) / h, 1 - 4 * s + 3 * s * s, (6 * s - 6 * s * s) / h, 3 * s * s - 2 * s};
  Row row;
  for (int k = 0; k < 4; ++k) {
    row.emplace_back(e.bearer_first[i] + 2 * static_cast<int>(at) + k, slope[k]);
  }
  return row;
}

inline void append(Row& to, const Row& more, double factor) {
  for (const auto& [i, a] : more) {
    to.emplace_back(i, factor * a);
  }
}

inline void add_kelvin(Elements& e, const Row& row, double k, double c, double loss) {
  add_spring(e.K, row, k);
  add_spring(e.C, row, c);
  add_spring(e.loss, row, k * loss);
}

inline void add_lateral_rails(LateralElements& l) {
  Elements& e = l.all;
  for (std::size_t r = 0; r < e.model.rails.size(); ++r) {
    const Rail& rail = e.model.rails[r];
    const std::vector<double>& node = e.node[r];
    l.rail.emplace_back();
    for (std::size_t k = 0; k < node.size(); ++k, e.unknowns += 2) {
      l.rail[r].push_back(e.unknowns);
    }
    for (std::size_t k = 0; k + 1 < node.size(); ++k) {
      const double middle = 0.5 * (node[k] + node[k + 1]);
      double mass = rail.section.rho_A;
      for (const RailZone& zone : rail.zones) {
        mass = middle >= zone.begin && middle <= zone.end ? zone.rail.rho_A : mass;
      }
      LateralRail section = *rail.lateral;
      for (const LateralRailZone& zone : rail.lateral_zones) {
        section = middle >= zone.begin && middle <= zone.end ? zone.rail : section;
      }
      add_beam(e, l.rail[r][k], node[k + 1] - node[k], {section.EI, section.kappa_GA, mass, section.rho_I},
               e.model.rail_loss);
    }
  }
}

// Foot of a rail at a seat: the rail's line less what its roll takes away; roll is a new unknown, without inertia.
inline void add_fastening(LateralElements& l, int i, std::size_t r, int shift, bool leans) {
  Elements& e = l.all;
  const LateralSeat& seat = *e.model.bearers[i].seat[r].lateral;
  const LateralBearer& bearer = *e.model.bearers[i].lateral;
  const auto at =
      static_cast<std::size_t>(rail_unknown(e, static_cast<int>(r), e.model.bearers[i].x) - e.first[r][0]) / 2;
  const double y = e.model.bearers[i].seat[r].y;
  const int roll = e.unknowns++;
  const Row slope = leans ? slope_row(e, i, y) : Row{};
  Row slip{{l.rail[r][at], 1.0}, {roll, -seat.height}, {shift, -1.0}};
  append(slip, slope, -bearer.pad_above);
  add_kelvin(e, slip, seat.stiffness, seat.damping, seat.loss);
  Row turn{{roll, 1.0}};
  append(turn, slope, -1.0);
  // Rigid where no stiffness is given.
  add_kelvin(e, turn, seat.roll_stiffness.value_or(1e13), seat.roll_damping, seat.loss);
}

inline void add_lateral_bearer(LateralElements& l, int i) {
  Elements& e = l.all;
  const Bearer& b = e.model.bearers[i];
  const LateralBearer& lateral = *b.lateral;
  l.shift.push_back(e.unknowns);
  if (const auto* lumped = std::get_if<LumpedBearer>(&b.body)) {
    for (std::size_t r = 0; r < b.seat.size(); ++r) {
      const int shift = e.unknowns++;
      e.M.emplace_back(shift, shift, lumped->mass);
      add_kelvin(e, {{shift, 1.0}}, lateral.stiffness, lateral.damping, lateral.loss);
      add_fastening(l, i, r, shift, false);
    }
    return;
  }
  const auto& beam = std::get<BeamBearer>(b.body);
  const int shift = e.unknowns++;
  e.M.emplace_back(shift, shift, beam.mass_per_m * (beam.to - beam.from));
  const std::vector<double>& node = e.across[i];
  for (std::size_t k = 0; k + 1 < node.size(); ++k) {
    for (const auto& [point, weight] :
         {std::pair{-0.7745966692414834, 5.0 / 9}, {0.0, 8.0 / 9}, {0.7745966692414834, 5.0 / 9}}) {
      const double h = node[k + 1] - node[k], length = 0.5 * h * weight;
      Row row{{shift, 1.0}};
      append(row, slope_row(e, i, 0.5 * (node[k] + node[k + 1]) + 0.5 * h * point), -lateral.ballast_below);
      add_kelvin(e, row, lateral.stiffness * length, lateral.damping * length, lateral.loss);
    }
  }
  for (std::size_t r = 0; r < b.seat.size(); ++r) {
    add_fastening(l, i, r, shift, true);
  }
}

inline LateralElements lateral_mesh(const Model& model, int per_bay, int per_bearer) {
  LateralElements l{mesh(model, per_bay, per_bearer), {}, {}};
  add_lateral_rails(l);
  for (std::size_t i = 0; i < model.bearers.size(); ++i) {
    add_lateral_bearer(l, static_cast<int>(i));
  }
  return l;
}

// Unknown of the rail's deflection at x in a plane.
inline int unknown(const LateralElements& l, int rail, double x, Plane plane) {
  const int vertical = rail_unknown(l.all, rail, x);
  return plane == Plane::vertical ? vertical : l.rail[rail][(vertical - l.all.first[rail][0]) / 2];
}

} // namespace chain_elements
