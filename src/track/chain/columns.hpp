// Columns of D^-1: what a force at one seat moves along the track.
#pragma once

#include "blocks.hpp"

#include <algorithm>

namespace wingnose::track::chain::detail {

// A column of D^-1 decays from seat to seat; what lies this far below its largest is nothing.
inline constexpr double negligible = 1e-15;

// Largest real or imaginary part: as good a measure as the magnitude, without its roots.
template <class Piece> double largest(const Piece& z) {
  return std::max(z.real().cwiseAbs().maxCoeff(), z.imag().cwiseAbs().maxCoeff());
}

// Solution at seats `from` and `to` = from or from + 1 has been added; carry it outward.
template <class V>
void spread(const Chain& chain, const V& view, const Factor& f, Field& field, int from, typename V::Piece left, int to,
            typename V::Piece right, double share = negligible) {
  const double least = share * std::max(largest(left), largest(right));
  for (int i = from - 1; i >= 0; --i) {
    left = -(view.block(f.back, i) * left).eval();
    view.piece(field.seat, i) += left;
    if (largest(left) <= least) {
      break;
    }
  }
  for (int i = to + 1; i < chain.seats(); ++i) {
    right = -(view.block(f.ahead, i - 1) * right).eval();
    view.piece(field.seat, i) += right;
    if (largest(right) <= least) {
      break;
    }
  }
}

// What a unit force at a point brings onto the boundary of its bay once the modes are eliminated.
[[nodiscard]] Eigen::Vector4cd onto_boundary(const Chain& chain, const Factor& f, const RailPoint& at);
// As those of factor.hpp, with that at hand.
void add_rail_column(const Chain& chain, const Factor& f, Field& field, const RailPoint& at,
                     const Eigen::Vector4cd& onto, Complex force);
[[nodiscard]] Complex deflection(const Chain& chain, const Factor& f, const Field& field, const RailPoint& at,
                                 const Eigen::Vector4cd& onto);
[[nodiscard]] Complex compliance(const Chain& chain, const Factor& f, const RailPoint& at,
                                 const Eigen::Vector4cd& onto);
// Deflection at one point per force at another of the same bay, without the residual compliance (m/N).
[[nodiscard]] Complex compliance(const Chain& chain, const Factor& f, const RailPoint& at, const Eigen::Vector4cd& onto,
                                 const RailPoint& load, const Eigen::Vector4cd& of_load);
// Forces at points of one bay, all at once; what lies this far below the largest they move is nothing beside the forces
// themselves, of which these are the changes in a step.
inline constexpr double negligible_change = 1e-10;
struct InBay {
  const RailPoint* at;
  const Eigen::Vector4cd* onto;
  Complex force;
};
void add_rail_columns(const Chain& chain, const Factor& f, Field& field, std::span<const InBay> forces);

// Forces on a right-hand side whose bays and bearers are eliminated already: at the seats, and inside where they act.
// Of a bearer what its own dynamic stiffness makes of them, as `reduce` leaves it.
void add_reduced_force(const Chain& chain, Field& field, const RailPoint& at, const Eigen::Vector4cd& onto,
                       Complex force);
void add_reduced_links(const Chain& chain, const Factor& f, Field& field, int bearer, std::span<const double> force,
                       Complex scale);

} // namespace wingnose::track::chain::detail
