// Gaps, clips and stiffening pads and ballast of a chain at rest.
#pragma once

#include "wingnose/track/chain/factor.hpp"

#include <vector>

namespace wingnose::track::chain::detail {

struct Where {
  int bearer, link;
};
[[nodiscard]] std::vector<Where> all_links(const Chain& chain);
// Deviations x (N) of the links from their springs: x = law(dead + e) - dead force - k e with e = free - Y x, by
// Newton's method on what touches. free: shortenings without any deviation.
[[nodiscard]] Eigen::VectorXd deviations(const Chain& chain, const Factor& f, const std::vector<Where>& where,
                                         const Eigen::VectorXd& free);

} // namespace wingnose::track::chain::detail
