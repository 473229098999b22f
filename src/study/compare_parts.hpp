// Parts of a comparison: statistics on samples sorted once, resampling, what is kept of histories, and what is said.
#pragma once

#include "wingnose/study/compare.hpp"

#include <cstdint>
#include <span>
#include <string>
#include <vector>

namespace wingnose::study {

inline constexpr Range resamples_allowed{100, 100'000};

void check(const CompareOptions& options);                                                    // throws InputError
void check(std::span<const ComparedCrossing> crossings, const cases::Population& population); // throws InputError

// A wheel with its profile, to be put on any crossing.
struct Wheel {
  std::optional<cases::Wheel> shape; // its profile counts, not how it is held
  std::vector<cases::InputFile> inputs;
  std::vector<cases::Override> values; // for the crossing's case
  std::string failure;                 // why there is no profile
};

[[nodiscard]] Wheel wheel_of(std::span<const ComparedCrossing> crossings, const cases::Population& population,
                             std::size_t m);
// Throws InputError.
[[nodiscard]] Case put_on(const ComparedCrossing& crossing, const Wheel& wheel, const std::string& name);

// Every file the comparison rests on, by what it gave to which crossing or class.
[[nodiscard]] std::vector<cases::InputFile> inputs_of(std::span<const ComparedCrossing> crossings,
                                                      const cases::Population& population,
                                                      const CompareOptions& options);

// Places of the values that are numbers, by rising value.
using Sorted = std::vector<std::size_t>;
[[nodiscard]] Sorted sorted(std::span<const double> values);
[[nodiscard]] double quantile_of(const Sorted& order, std::span<const double> values, std::span<const double> weights,
                                 double level);
[[nodiscard]] double statistic_of(const Statistic& statistic, const Sorted& order, std::span<const double> values,
                                  std::span<const double> weights);
[[nodiscard]] Distribution distribution_of(std::span<const double> values, std::span<const double> weights);

// Some wheels on all crossings: values[crossing][quantity][wheel], weights[wheel].
struct Sample {
  std::vector<std::vector<std::vector<double>>> values;
  std::vector<double> weights;
  bool steel = false; // the quantities of the steel are there and count
};

struct Interval {
  double low, high;
};
// Statistics of every crossing on every resample of the wheels; the same resamples for all crossings.
class Bootstrap {
public:
  // of: the criteria, then the means of all quantities (as mean of the wheels' differences to the first crossing).
  Bootstrap(const Sample& sample, std::size_t resamples, std::uint64_t seed);
  // Of criterion k, crossing a less crossing b.
  [[nodiscard]] Interval criterion(std::size_t k, std::size_t a, std::size_t b, double confidence) const;
  // Of the mean difference of a quantity, crossing a less the first.
  [[nodiscard]] Interval mean_difference(std::size_t quantity, std::size_t a, double confidence) const;

private:
  std::size_t resamples_, crossings_;
  std::vector<std::vector<double>> criteria_; // [criterion * crossings + crossing][resample]
  std::vector<std::vector<double>> means_;    // [quantity * crossings + crossing][resample]
};

// Some wheels of a sample, by their places in it.
[[nodiscard]] Sample part_of(const Sample& sample, const std::vector<std::size_t>& places);

[[nodiscard]] std::vector<Ranking> rank(const Sample& sample, const Bootstrap& bootstrap, double confidence);
[[nodiscard]] std::vector<Difference> differences(const Sample& sample, const Bootstrap& bootstrap, double confidence);

// What is kept of the histories on one crossing: single precision, some kilobytes per wheel.
class Traces {
public:
  Traces() = default;
  Traces(const CompareOptions& options, std::size_t members);
  void keep(std::size_t member, const passage::History& history, const layout::Crossing& crossing);
  // Over some wheels; weights: one per such wheel.
  [[nodiscard]] Envelope envelope(const std::vector<std::size_t>& members, std::span<const double> weights) const;
  [[nodiscard]] NoseLoad nose_load(const std::vector<std::size_t>& members, std::span<const double> weights) const;

private:
  double from_ = 0.0, step_ = 0.0, thickness_step_ = 0.0;
  std::size_t cells_ = 0, bins_ = 0;
  std::vector<float> force_;                // N, [member][cell], NaN where not covered
  std::vector<float> nose_mean_, nose_max_; // N, [member][bin]
};

// Share of the weight of the wheels with a value that lie above a limit (SI); NaN when there are none.
[[nodiscard]] double share_above(const Sample& sample, std::size_t crossing, std::size_t observed, double limit);
// What is found of the steel, when it was asked for.
void find_of_steel(Comparison& comparison);
// Values of every criterion over all wheels, those not compared counted as the worst.
void rank_with_the_worst(Comparison& comparison);

// Wheel classes and the halves by speed and load; members: those of the sample, in its order.
[[nodiscard]] std::vector<Group> groups_of(const Comparison& comparison, const std::vector<std::size_t>& members,
                                           const Sample& sample);
// Fills dependence and findings from the rest of the comparison.
void add_words(Comparison& comparison, std::span<const ComparedCrossing> crossings);

} // namespace wingnose::study
