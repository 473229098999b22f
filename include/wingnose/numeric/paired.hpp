// Alternatives observed on the same weighted items: ranked, and held against the first one item by item (paired), so
// that what the items have in common cancels.
//
// Intervals: percentile bootstrap (Efron 1979, doi:10.1214/aos/1176344552) over items, weights carried along, the same
// resamples for all alternatives. Of a stratified sample they are on the wide side.
#pragma once

#include "wingnose/numeric/weighted.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace wingnose {

struct PairedSample {
  std::vector<std::vector<std::vector<double>>> values; // [alternative][variable][item]; NaN: the item has none
  std::vector<double> weights;                          // [item]
};
// Some items of it, by their places.
[[nodiscard]] PairedSample part_of(const PairedSample& sample, std::span<const std::size_t> items);

// What alternatives are ranked by.
struct Criterion {
  std::size_t variable = 0;
  SampleStatistic statistic;
  bool higher_is_better = false;
};

struct Interval {
  double low, high;
  [[nodiscard]] bool without_zero() const { return low > 0.0 || high < 0.0; }
};

// Criteria of every alternative, and every variable's mean of the items' differences to the first alternative, on
// every resample.
class PairedBootstrap {
public:
  PairedBootstrap(const PairedSample& sample, std::span<const Criterion> criteria, std::size_t resamples,
                  std::uint64_t seed, double confidence);
  // Of criterion k, alternative a less alternative b.
  [[nodiscard]] Interval criterion(std::size_t k, std::size_t a, std::size_t b) const;
  // Of the mean difference of a variable, alternative a less the first.
  [[nodiscard]] Interval mean_difference(std::size_t variable, std::size_t a) const;

private:
  std::size_t alternatives_;
  double confidence_;
  std::vector<std::vector<double>> criteria_; // [criterion * alternatives + alternative][resample]
  std::vector<std::vector<double>> means_;    // [variable * alternatives + alternative][resample]
};

struct PairedRanking {
  std::vector<double> values;     // per alternative
  std::vector<std::size_t> order; // alternatives, best first; equal values in the order given
  // Per place but the last: the interval of the difference to the next place does not hold 0.
  std::vector<bool> apart;
  // Per alternative: 1 for the best; equal values share a place, values that do not exist share the last.
  std::vector<std::size_t> places;
};
// One per criterion.
[[nodiscard]] std::vector<PairedRanking> rank(const PairedSample& sample, std::span<const Criterion> criteria,
                                              const PairedBootstrap& bootstrap);
[[nodiscard]] std::vector<std::size_t> places_of(bool higher_is_better, std::span<const double> values);

// An alternative less the first.
struct PairedDifference {
  std::size_t alternative = 1, variable = 0;
  std::optional<std::size_t> criterion; // difference of the statistic; none: mean of the items' differences
  double value = 0.0;
  Interval interval{};
  double higher = 0.0; // share of weight whose value is higher than on the first; NaN for shares
};
// Per alternative but the first: the criteria, then the means of the variables whose mean is no criterion.
[[nodiscard]] std::vector<PairedDifference> differences(const PairedSample& sample, std::span<const Criterion> criteria,
                                                        const PairedBootstrap& bootstrap);

} // namespace wingnose
