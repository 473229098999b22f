#include "bay_parts.hpp"

#include <Eigen/Cholesky>

#include <utility>

namespace wingnose::track::chain::detail {

RailBay make_bay(const std::vector<Stretch>& stretches, int modes) {
  RailBay bay;
  bay.modes = modes;
  const Numbering number{static_cast<int>(stretches.size())};
  const BayMesh mesh = mesh_of(stretches, number);
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
    for (int j = 0; j <= BayPiece::degree; ++j) {
      piece.w.row(j).head(4 + modes) = T.row(number.of(p, j, false));
    }
    bay.length += piece.length;
    bay.piece.push_back(std::move(piece));
  }
  add_held(bay);
  return bay;
}

} // namespace wingnose::track::chain::detail
