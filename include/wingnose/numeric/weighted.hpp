// Statistics of weighted samples: how a quantity spreads over items of which some count more than others.
//
// - quantile: the inverse of the weighted empirical distribution function, the mean of two neighbours where it is flat
//   (definition 2 of Hyndman & Fan 1996, doi:10.1080/00031305.1996.10473566, with weights).
// - standard deviation: of the weighted population, no correction.
// - share: of weight, not of number.
//
// Weights are >= 0 and not all 0; values that are NaN do not count, and where none is left the answer is NaN.
#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <vector>

namespace wingnose {

struct SampleStatistic {
  enum class Kind { mean, quantile, share_above_zero };
  Kind kind = Kind::mean;
  double level = 0.5; // of a quantile
};

// Throw InputError: lists that are empty or of unequal length, a level outside 0 to 1.
[[nodiscard]] double weighted_mean(std::span<const double> values, std::span<const double> weights);
[[nodiscard]] double weighted_deviation(std::span<const double> values, std::span<const double> weights);
[[nodiscard]] double weighted_quantile(std::span<const double> values, std::span<const double> weights, double level);
[[nodiscard]] double weighted_share_above(std::span<const double> values, std::span<const double> weights,
                                          double limit);
[[nodiscard]] double evaluate(const SampleStatistic& statistic, std::span<const double> values,
                              std::span<const double> weights);

// For many statistics of the same values: places of the values that are numbers, by rising value.
using RisingOrder = std::vector<std::size_t>;
[[nodiscard]] RisingOrder rising_order(std::span<const double> values);
// The same as above, nothing checked.
[[nodiscard]] double weighted_quantile(const RisingOrder& order, std::span<const double> values,
                                       std::span<const double> weights, double level);
[[nodiscard]] double evaluate(const SampleStatistic& statistic, const RisingOrder& order,
                              std::span<const double> values, std::span<const double> weights);

// Equal items that would say as much (Kish 1965).
[[nodiscard]] double effective_count(std::span<const double> weights);

inline constexpr std::array quantile_levels{0.05, 0.25, 0.50, 0.75, 0.95, 0.99};
struct Distribution {
  std::size_t count = 0;                                           // items with a value and a weight
  double share = 0.0;                                              // of the weight of all items
  double mean = 0.0, deviation = 0.0, least = 0.0, greatest = 0.0; // NaN without a value
  std::array<double, quantile_levels.size()> quantiles{};
  std::vector<double> values, cumulative; // rising values, and the share of weight at or below each
};
[[nodiscard]] Distribution distribution_of(std::span<const double> values, std::span<const double> weights);

// The value that parts a sample into a lower half (up to it) and an upper one of about equal weight: the weighted
// median, or the value next below the greatest where more than half of the weight has that. The values differ.
[[nodiscard]] double parting_value(std::span<const double> values, std::span<const double> weights);

} // namespace wingnose
