// Steps on the way from the stretches of a bay to its RailBay: a fine mesh, its modes with held ends, the static
// compliance that is left. SI.
#pragma once

#include "parts.hpp"

#include <vector>

namespace wingnose::track::chain::detail {

struct BayMesh {
  Eigen::MatrixXd K, M;
  Eigen::VectorXd weight; // kg
};

// Unknowns of a mesh: inner nodes (w, theta), then inside of each piece (w's, theta's), then w, theta of the two ends.
struct Numbering {
  static constexpr int inside =
      BayPiece::degree - 1; // functions of w, or of theta, that vanish at both ends of a piece
  int pieces;
  [[nodiscard]] int inner() const { return 2 * (pieces - 1) + 2 * inside * pieces; }
  [[nodiscard]] int node(int i) const { return i == 0 ? inner() : (i == pieces ? inner() + 2 : 2 * (i - 1)); }
  // of function j of w (rotation: of theta) along piece p
  [[nodiscard]] int of(int p, int j, bool rotation) const {
    return j < 2 ? node(p + j) + (rotation ? 1 : 0)
                 : 2 * (pieces - 1) + 2 * inside * p + (rotation ? inside : 0) + j - 2;
  }
};

[[nodiscard]] BayMesh mesh_of(const std::vector<Stretch>& stretches, const Numbering& number);

struct HeldModes {
  Eigen::MatrixXd shape;     // [inner x modes], mass 1
  Eigen::VectorXd stiffness; // omega^2
};
// The modes with held ends that deflections would miss most: from some 5 kHz on every other one is a mode of shear, in
// which a rail hardly deflects. A mode left out lacks phi^2 omega^2 / omega_j^4 of receptance.
[[nodiscard]] HeldModes held_modes(const Eigen::MatrixXd& K, const Eigen::MatrixXd& M, const Numbering& number,
                                   int modes);

// Fills in the static compliance with held ends: of the nodes between pieces, then of any point.
void add_held(RailBay& bay);

} // namespace wingnose::track::chain::detail
