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
            typename V::Piece right) {
  const double least = negligible * std::max(largest(left), largest(right));
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

} // namespace wingnose::track::chain::detail
