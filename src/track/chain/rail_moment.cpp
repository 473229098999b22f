// Bending moment of a rail under a wheel, by mode acceleration (Craig 1981, Structural Dynamics, ch. 15): what the few
// modes of a bay cannot tell of the bend right under the wheel is what it is at rest.
#include "wingnose/track/chain/statics.hpp"

#include "blocks.hpp"
#include "legendre.hpp"
#include "parts.hpp"

namespace wingnose::track::chain {
namespace {

const BayPiece& piece_at(const RailBay& bay, double inside) {
  std::size_t i = 0;
  while (i + 1 < bay.piece.size() && inside >= bay.piece[i + 1].begin) {
    ++i;
  }
  return bay.piece[i];
}

// Second derivative (1/(m N)) right under a unit force on a bay with held ends: a cubic on either side of it, told
// exactly by four of its values on the longer one.
double held_bend(const RailBay& bay, const BayPiece& piece, double inside) {
  const double before = inside - piece.begin, after = piece.begin + piece.length - inside;
  const double d = (after >= before ? after : -before) / 3.0;
  const auto w = [&](int i) { return detail::held_between(bay, inside, inside + i * d); };
  return (2.0 * w(0) - 5.0 * w(1) + 4.0 * w(2) - w(3)) / (d * d);
}

} // namespace

const RailProperties& rail_section(const Chain& chain, const RailPoint& at) {
  return piece_at(chain.bay_of(at.bay, at.line), at.inside).section;
}

double rail_moment(const Chain& chain, const Motion& m, const RailPoint& at, double force) {
  const RailBay& bay = chain.bay_of(at.bay, at.line);
  const BayPiece& piece = piece_at(bay, at.inside);
  const RailProperties& rail = piece.section;
  const double s = 2.0 * (at.inside - piece.begin) / piece.length - 1.0;
  const Eigen::Matrix<double, 4 + most_modes, 1> bend =
      (4.0 / (piece.length * piece.length)) * (piece.w.transpose() * detail::bends<BayPiece::degree>(s));
  const auto q = m.bay.segment<most_modes>(detail::first_mode(chain, at.bay, at.line));
  // theta' of the rail. Shear that does not change along the rail bends nothing; a mode's does, by its own inertia:
  // kappa GA (w' - theta)' = -rho A omega^2 w.
  double turn = bend.head<4>().dot(detail::boundary(chain, m.seat, at.bay, at.line));
  turn += force * held_bend(bay, piece, at.inside);
  for (int j = 0; j < bay.modes; ++j) {
    const double of_mode = bend[4 + j] + rail.rho_A * bay.stiffness[j] / rail.kappa_GA * at.modal[j];
    turn += of_mode * (q[j] - at.modal[j] * force / bay.stiffness[j]);
  }
  return -rail.EI * turn;
}

} // namespace wingnose::track::chain
