// Views into the flat arrays of a Factor and a Field. A line is one plane in which one rail bends: two unknowns over
// every seat. One, two and four lines have kernels of fixed size; other numbers share one that reads it.
#pragma once

#include "wingnose/track/chain/factor.hpp"

namespace wingnose::track::chain::detail {

template <int lines> struct View {
  static constexpr int fixed = lines == Eigen::Dynamic ? Eigen::Dynamic : 2 * lines;
  static constexpr int most = lines == Eigen::Dynamic ? 2 * most_lines : 2 * lines;
  using Square = Eigen::Matrix<Complex, fixed, fixed, 0, most, most>;
  using Piece = Eigen::Matrix<Complex, fixed, 1, 0, most, 1>;
  int counted;
  explicit View(const Chain& chain) : counted(2 * chain.lines) {}
  // Unknowns over a seat.
  [[nodiscard]] int n() const {
    if constexpr (lines == Eigen::Dynamic) {
      return counted;
    } else {
      return fixed;
    }
  }
  [[nodiscard]] auto block(const std::vector<Complex>& v, int i) const {
    return Eigen::Map<const Square>(v.data() + i * n() * n(), n(), n());
  }
  [[nodiscard]] auto block(std::vector<Complex>& v, int i) const {
    return Eigen::Map<Square>(v.data() + i * n() * n(), n(), n());
  }
  [[nodiscard]] auto piece(Eigen::VectorXcd& v, int i) const { return v.segment(i * n(), Eigen::fix<fixed>(n())); }
  [[nodiscard]] Piece none() const { return Piece::Zero(n()); }
};

// Calls act with the view of the chain's number of lines. four: with one for four lines, which what runs in every step
// is worth; inverses take long to compile.
template <bool four, class Act> void with_lines(const Chain& chain, const Act& act) {
  if (chain.lines == 1) {
    act(View<1>(chain));
  } else if (chain.lines == 2) {
    act(View<2>(chain));
  } else if (four && chain.lines == 4) {
    act(View < four ? 4 : Eigen::Dynamic > (chain));
  } else {
    act(View<Eigen::Dynamic>(chain));
  }
}

// Modes of the bay a point lies in.
[[nodiscard]] inline Eigen::Index first_mode(const Chain& chain, int bay, int line) {
  return static_cast<Eigen::Index>(bay * chain.lines + line) * most_modes;
}
// First of the two unknowns of a line over a seat.
[[nodiscard]] inline Eigen::Index first_unknown(const Chain& chain, int seat, int line) {
  return static_cast<Eigen::Index>(seat * chain.lines + line) * 2;
}
// The four boundary unknowns of a line in a bay.
template <class Vector> [[nodiscard]] auto boundary(const Chain& chain, const Vector& seat, int bay, int line) {
  Eigen::Matrix<typename Vector::Scalar, 4, 1> u;
  u << seat.template segment<2>(first_unknown(chain, bay, line)),
      seat.template segment<2>(first_unknown(chain, bay + 1, line));
  return u;
}

} // namespace wingnose::track::chain::detail
