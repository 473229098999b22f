// Fixed-size views into the flat arrays of a Factor and a Field. [rails] is 1 or 2: two instances of each kernel.
#pragma once

#include "wingnose/track/chain/factor.hpp"

namespace wingnose::track::chain::detail {

template <int rails> struct View {
  static constexpr int n = 2 * rails;
  using Block = Eigen::Map<const Eigen::Matrix<Complex, n, n>>;
  using Piece = Eigen::Matrix<Complex, n, 1>;
  [[nodiscard]] static Block block(const std::vector<Complex>& v, int i) { return Block(v.data() + i * n * n); }
  [[nodiscard]] static auto piece(Eigen::VectorXcd& v, int i) { return v.segment<n>(i * n); }
  [[nodiscard]] static auto piece(const Eigen::VectorXcd& v, int i) { return v.segment<n>(i * n); }
};

// Modes of the bay a point lies in.
[[nodiscard]] inline Eigen::Index first_mode(const Chain& chain, int bay, int rail) {
  return static_cast<Eigen::Index>(bay * chain.rails + rail) * most_modes;
}
// First of the two unknowns of a rail over a seat.
[[nodiscard]] inline Eigen::Index first_unknown(const Chain& chain, int seat, int rail) {
  return static_cast<Eigen::Index>(seat * chain.rails + rail) * 2;
}
// The four boundary unknowns of a rail in a bay.
template <class Vector> [[nodiscard]] auto boundary(const Chain& chain, const Vector& seat, int bay, int rail) {
  Eigen::Matrix<typename Vector::Scalar, 4, 1> u;
  u << seat.template segment<2>(first_unknown(chain, bay, rail)),
      seat.template segment<2>(first_unknown(chain, bay + 1, rail));
  return u;
}

} // namespace wingnose::track::chain::detail
