// What a bearer feels as rows over its coordinates, made once, so that a passage can ask at many instants: the answers
// of statics.hpp to the bit of rounding, without allocation. SI, downward positive.
#pragma once

#include "wingnose/track/chain/statics.hpp"

#include <Eigen/Core>

#include <span>
#include <vector>

namespace wingnose::track::chain {

// Value = of q + of_rate q' + of_link x, with the bearer's coordinates q and the deviations x of its links.
struct Rows {
  using Matrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
  Matrix of, of_rate, of_link; // [values x coordinates], [values x coordinates], [values x links]
};

struct BearerRows {
  int bearer = 0;
  Rows ballast;             // N, at every spot
  std::vector<double> area; // m2, of every spot
  std::vector<double> y;    // m, places across of the two below; empty on a lumped bearer
  Rows moment, deflection;  // N m, tension below positive; m
};
// y: m, places on a bearer that is a beam; not read of a lumped one. Throws InputError beside the bearer.
[[nodiscard]] BearerRows bearer_rows(const Chain& chain, int bearer, std::vector<double> y);
// Under its seats and halfway between neighbouring ones; of one seat also halfway to both ends.
[[nodiscard]] std::vector<double> places_across(const Chain& chain, int bearer);

// Value r of the rows at an instant; rate of change of rows that depend on coordinates alone.
[[nodiscard]] double value(const Rows& rows, const Chain& chain, const Motion& motion, int bearer, int r);
[[nodiscard]] double rate(const Rows& rows, const Chain& chain, const Motion& motion, int bearer, int r);

} // namespace wingnose::track::chain
