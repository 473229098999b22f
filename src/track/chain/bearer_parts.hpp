// Steps on the way from a Bearer to its BearerShape. SI.
#pragma once

#include "band.hpp"

#include "wingnose/track/chain/chain.hpp"

namespace wingnose::track::chain::detail {

struct Kelvin {
  double stiffness, damping; // N/m, N s/m
};
// As one: stiffness exact, damping to first order in frequency.
[[nodiscard]] Kelvin in_series(Kelvin a, Kelvin b);
// Ballast with the pad under the bearer.
[[nodiscard]] Ballast in_series(Ballast ballast, const std::optional<UnderSleeperPad>& pad);

// Adds the spot of ballast at y that `length` of the bearer stands on and, where it is more than a spring, its law.
void add_point(BearerShape& to, const Bearer& bearer, double y, double length, const Ballast& ballast, double gap);
// Two Gauss points per piece of bedding, pieces ending wherever ballast or gap change.
void add_bedding(BearerShape& to, const Bearer& bearer, const BeamBearer& beam);
void add_pads(BearerShape& to, const Bearer& bearer);

// A mesh of a bearer that bends: two unknowns, w and dw/dy, at every node.
struct BeamMesh {
  Band K, M;       // of the beam alone
  Band on_ballast; // K with its bedding
  Band slopes;     // integral of dw/dy squared; empty unless ballast resists laterally off the neutral line
};
// Rows of its element that give w or dw/dy at y.
struct OnElement {
  Eigen::Index first;
  Eigen::Vector4d w, slope;
};
[[nodiscard]] OnElement on_element(const BearerShape& shape, double y);
// A bearer that bends, in coordinates of its own.
[[nodiscard]] BearerShape beam_on_bedding(const Bearer& bearer, const BeamBearer& beam);

// What acts laterally gives the bearer couples.
[[nodiscard]] bool leans(const Bearer& bearer);
// Lateral: bedding that leans with the bearer, loads that need a static shape of their own, [unknowns x loads] ...
void add_lateral_bedding(BeamMesh& mesh, const BearerShape& shape, const Bearer& bearer);
[[nodiscard]] Eigen::MatrixXd lateral_loads(const BearerShape& shape, const Bearer& bearer, Eigen::Index unknowns);
// ... and, once there are coordinates, the shift as one more.
void add_shift(BearerShape& shape, const Bearer& bearer, const BeamBearer& beam, const BeamMesh& mesh);
void add_shift(BearerShape& shape, const Bearer& bearer, const LumpedBearer& lumped);
void add_lateral_pads(BearerShape& shape, const Bearer& bearer);

} // namespace wingnose::track::chain::detail
