#include "wingnose/numeric/weighted.hpp"

#include "wingnose/words/error.hpp"
#include "wingnose/words/number.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <string>

namespace wingnose {
namespace {

using Values = std::span<const double>;
constexpr double none = std::numeric_limits<double>::quiet_NaN();

void check(Values values, Values weights) {
  if (values.empty() || values.size() != weights.size()) {
    throw InputError("a weighted sample needs as many weights as values, and at least one; it has " +
                     std::to_string(values.size()) + " values and " + std::to_string(weights.size()) + " weights");
  }
}

// of(value), averaged. In the order given, not by size: the mean of the negatives is the negative of the mean to the
// last bit.
template <class Of> double mean_of(Values values, Values weights, Of of) {
  double total = 0.0, sum = 0.0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (!std::isnan(values[i])) {
      total += weights[i];
      sum += weights[i] * of(values[i]);
    }
  }
  return total > 0.0 ? sum / total : none;
}

double share_above(Values values, Values weights, double limit) {
  return mean_of(values, weights, [limit](double value) { return value > limit ? 1.0 : 0.0; });
}

} // namespace

RisingOrder rising_order(Values values) {
  RisingOrder order;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (!std::isnan(values[i])) {
      order.push_back(i);
    }
  }
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return values[a] < values[b]; });
  return order;
}

// Hyndman & Fan (1996), definition 2, with weights: the inverse of the distribution function, the mean of both
// neighbours where it is flat at `level`. Sums that should be equal differ in their last bits; they count as equal.
double weighted_quantile(const RisingOrder& order, Values values, Values weights, double level) {
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

double evaluate(const SampleStatistic& statistic, const RisingOrder& order, Values values, Values weights) {
  switch (statistic.kind) {
  case SampleStatistic::Kind::mean:
    return mean_of(values, weights, [](double value) { return value; });
  case SampleStatistic::Kind::quantile:
    return weighted_quantile(order, values, weights, statistic.level);
  case SampleStatistic::Kind::share_above_zero:
    return share_above(values, weights, 0.0);
  }
  return none;
}

double evaluate(const SampleStatistic& statistic, Values values, Values weights) {
  check(values, weights);
  return evaluate(statistic, rising_order(values), values, weights);
}

double weighted_mean(Values values, Values weights) { return evaluate({}, values, weights); }

double weighted_quantile(Values values, Values weights, double level) {
  if (!(level >= 0.0 && level <= 1.0)) {
    throw InputError("level of a quantile", number(level), "0 to 1", "0.5 is the median.");
  }
  return evaluate({SampleStatistic::Kind::quantile, level}, values, weights);
}

double weighted_share_above(Values values, Values weights, double limit) {
  check(values, weights);
  return share_above(values, weights, limit);
}

double weighted_deviation(Values values, Values weights) {
  const double mean = weighted_mean(values, weights);
  return std::sqrt(mean_of(values, weights, [mean](double value) { return (value - mean) * (value - mean); }));
}

double effective_count(Values weights) {
  double sum = 0.0, squares = 0.0;
  for (const double weight : weights) {
    sum += weight;
    squares += weight * weight;
  }
  return sum * sum / squares;
}

Distribution distribution_of(Values values, Values weights) {
  Distribution d;
  const RisingOrder order = rising_order(values);
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
    d.quantiles[q] = weighted_quantile(order, values, weights, quantile_levels[q]);
  }
  return d;
}

double parting_value(Values values, Values weights) {
  const auto [least, most] = std::minmax_element(values.begin(), values.end());
  double middle = weighted_quantile(values, weights, 0.5);
  if (middle >= *most) {
    middle = *least;
    for (const double value : values) {
      middle = value < *most ? std::max(middle, value) : middle;
    }
  }
  return middle;
}

} // namespace wingnose
