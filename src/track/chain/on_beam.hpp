// Places on bearers that are beams.
#pragma once

#include "wingnose/track/chain/chain.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>

namespace wingnose::track::chain::detail {

struct OnBeam {
  Eigen::Index first; // unknown of the element
  double h, s;        // m, -
};

// Throws InputError beside a beam.
[[nodiscard]] inline OnBeam on_beam(const BearerShape& bearer, double y) {
  if (bearer.node.empty() || !(y >= bearer.node.front() && y <= bearer.node.back())) {
    throw InputError("place on the bearer", number(y) + " m across",
                     bearer.node.empty()
                         ? "none, the bearer is lumped"
                         : number(bearer.node.front()) + " to " + number(bearer.node.back()) + " m across",
                     "Describe the bearer as a beam and stay on it.");
  }
  const auto after = std::upper_bound(bearer.node.begin() + 1, bearer.node.end() - 1, y);
  const auto e = static_cast<std::size_t>(after - bearer.node.begin()) - 1;
  const double h = bearer.node[e + 1] - bearer.node[e];
  return {2 * static_cast<Eigen::Index>(e), h, (y - bearer.node[e]) / h};
}

// Deflection there per coordinate.
[[nodiscard]] inline Eigen::VectorXd shape_at(const BearerShape& bearer, const OnBeam& at) {
  const double s = at.s, h = at.h;
  const Eigen::Vector4d w(1 - 3 * s * s + 2 * s * s * s, h * s * (1 - s) * (1 - s), 3 * s * s - 2 * s * s * s,
                          h * s * s * (s - 1));
  return bearer.shapes.middleRows<4>(at.first).transpose() * w;
}

} // namespace wingnose::track::chain::detail
