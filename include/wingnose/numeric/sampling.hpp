// Values drawn from distributions, each by itself or as a Latin hypercube (McKay, Beckman & Conover 1979,
// doi:10.1080/00401706.1979.10489755). What is drawn is rounded to six significant digits, so that it is the same on
// every machine: logarithms and error functions differ in their last bits, six digits do not.
#pragma once

#include "wingnose/numeric/dice.hpp"

#include <cstddef>
#include <limits>
#include <span>
#include <vector>

namespace wingnose {

struct NormalSpread {
  double mean = 0.0, deviation = 1.0; // of the distribution before it is cut off; deviation > 0
  double from = -std::numeric_limits<double>::infinity(), to = std::numeric_limits<double>::infinity(); // cut off here
};
struct UniformSpread {
  double from = 0.0, to = 1.0; // from < to
};
// The value below which lies the share u (0 < u < 1). Throw InputError for a distribution that is none.
[[nodiscard]] double value_at(const NormalSpread& spread, double u);
[[nodiscard]] double value_at(const UniformSpread& spread, double u);
// The same of a list of so many values of which each comes as often as its weight says: the place in the list.
// weights: one per value, >= 0, not all 0.
[[nodiscard]] std::size_t choice_at(std::size_t values, std::span<const double> weights, double u);

// One dimension of a Latin hypercube of n items: a number of each of n parts of equal length of 0 .. 1, in any order.
[[nodiscard]] std::vector<double> latin_hypercube(std::size_t n, Dice& dice);

// `count` items given to classes by their shares, by largest remainders, but at least one each. count >= classes.
[[nodiscard]] std::vector<std::size_t> allotted(std::span<const double> shares, std::size_t count);

// Items drawn from classes; u: one number of 0 .. 1 per dimension of its class. Weights sum to 1.
struct ClassOfItems {
  double share; // against the other classes, > 0
  std::size_t dimensions;
};
struct DrawnItem {
  std::size_t item_class;
  double weight;
  std::vector<double> u;
};
// Every class gets its share of the count and is a Latin hypercube of its own; weights make up for the rounding.
[[nodiscard]] std::vector<DrawnItem> draw_stratified(std::span<const ClassOfItems> classes, std::size_t count,
                                                     Dice& dice);
// Class and numbers of each item are drawn independently; all weights are equal.
[[nodiscard]] std::vector<DrawnItem> draw_simple(std::span<const ClassOfItems> classes, std::size_t count, Dice& dice);

} // namespace wingnose
