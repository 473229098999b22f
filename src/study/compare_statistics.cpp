// Statistics of weighted samples.
#include "wingnose/study/compare.hpp"
#include "wingnose/words/error.hpp"

#include "compare_parts.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace wingnose::study {
namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();

void check(std::span<const double> values, std::span<const double> weights) {
  if (values.empty() || values.size() != weights.size()) {
    throw InputError("a weighted sample needs as many weights as values, and at least one; it has " +
                     std::to_string(values.size()) + " values and " + std::to_string(weights.size()) + " weights");
  }
}

} // namespace

Sorted sorted(std::span<const double> values) {
  Sorted s;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (!std::isnan(values[i])) {
      s.push_back(i);
    }
  }
  std::stable_sort(s.begin(), s.end(), [&](std::size_t a, std::size_t b) { return values[a] < values[b]; });
  return s;
}

// Hyndman & Fan (1996), definition 2, with weights: the inverse of the distribution function, the mean of both
// neighbours where it is flat at `level`. Sums that should be equal differ in their last bits; they count as equal.
double quantile_of(const Sorted& order, std::span<const double> values, std::span<const double> weights, double level) {
  double total = 0.0;
  for (const std::size_t i : order) {
    total += weights[i];
  }
  const double wanted = level * total, slack = 1e-12 * total;
  double below = 0.0;
  for (std::size_t k = 0; k < order.size(); ++k) {
    if (weights[order[k]] <= 0.0) {
      continue;
    }
    below += weights[order[k]];
    if (below > wanted + slack) {
      return values[order[k]];
    }
    if (below >= wanted - slack) {
      for (std::size_t next = k + 1; next < order.size(); ++next) {
        if (weights[order[next]] > 0.0) {
          return 0.5 * (values[order[k]] + values[order[next]]);
        }
      }
      return values[order[k]];
    }
  }
  return none;
}

double statistic_of(const Statistic& statistic, const Sorted& order, std::span<const double> values,
                    std::span<const double> weights) {
  if (statistic.kind == Statistic::Kind::quantile) {
    return quantile_of(order, values, weights, statistic.level);
  }
  const bool share = statistic.kind == Statistic::Kind::share_above_zero;
  // In the order given, not by size: the mean of the negatives is the negative of the mean to the last bit.
  double total = 0.0, sum = 0.0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (!std::isnan(values[i])) {
      total += weights[i];
      sum += weights[i] * (share ? (values[i] > 0.0 ? 1.0 : 0.0) : values[i]);
    }
  }
  return total > 0.0 ? sum / total : none;
}

double evaluate(const Statistic& statistic, std::span<const double> values, std::span<const double> weights) {
  check(values, weights);
  return statistic_of(statistic, sorted(values), values, weights);
}

double weighted_mean(std::span<const double> values, std::span<const double> weights) {
  return evaluate({nullptr, Statistic::Kind::mean, 0.5, false}, values, weights);
}

double weighted_quantile(std::span<const double> values, std::span<const double> weights, double level) {
  if (!(level >= 0.0 && level <= 1.0)) {
    throw InputError("level of a quantile", number(level), "0 to 1", "0.5 is the median.");
  }
  return evaluate({nullptr, Statistic::Kind::quantile, level, false}, values, weights);
}

double weighted_deviation(std::span<const double> values, std::span<const double> weights) {
  const double mean = weighted_mean(values, weights);
  std::vector<double> squares;
  squares.reserve(values.size());
  for (const double value : values) {
    squares.push_back((value - mean) * (value - mean));
  }
  return std::sqrt(weighted_mean(squares, weights));
}

Distribution distribution_of(std::span<const double> values, std::span<const double> weights) {
  Distribution d;
  const Sorted order = sorted(values);
  const double all = std::accumulate(weights.begin(), weights.end(), 0.0);
  double total = 0.0;
  for (const std::size_t i : order) {
    if (weights[i] > 0.0) {
      total += weights[i];
      d.values.push_back(values[i]);
      d.cumulative.push_back(total);
    }
  }
  d.count = d.values.size();
  d.share = all > 0.0 ? total / all : 0.0;
  if (d.count == 0) {
    d.mean = d.deviation = d.least = d.greatest = none;
    d.quantiles.fill(none);
    return d;
  }
  for (double& share : d.cumulative) {
    share /= total;
  }
  d.mean = weighted_mean(values, weights);
  d.deviation = weighted_deviation(values, weights);
  d.least = d.values.front();
  d.greatest = d.values.back();
  for (std::size_t q = 0; q < quantile_levels.size(); ++q) {
    d.quantiles[q] = quantile_of(order, values, weights, quantile_levels[q]);
  }
  return d;
}

} // namespace wingnose::study
