#include "wingnose/numeric/paired.hpp"

#include "wingnose/numeric/dice.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <numeric>

namespace wingnose {
namespace {

constexpr double undetermined = std::numeric_limits<double>::quiet_NaN();
constexpr SampleStatistic mean{};

std::vector<double> less(const std::vector<double>& a, const std::vector<double>& b) {
  std::vector<double> differences(a.size());
  std::transform(a.begin(), a.end(), b.begin(), differences.begin(), std::minus<>());
  return differences;
}

// Percentile interval (Efron 1979).
Interval interval_of(const std::vector<double>& values, double confidence) {
  const RisingOrder order = rising_order(values);
  const std::vector<double> equal(values.size(), 1.0);
  return {weighted_quantile(order, values, equal, 0.5 * (1.0 - confidence)),
          weighted_quantile(order, values, equal, 0.5 * (1.0 + confidence))};
}

bool better(bool higher_is_better, double a, double b) {
  if (std::isnan(a) || std::isnan(b)) {
    return std::isnan(b) && !std::isnan(a);
  }
  return higher_is_better ? a > b : a < b;
}

} // namespace

PairedSample part_of(const PairedSample& sample, std::span<const std::size_t> items) {
  const auto some = [items](const std::vector<double>& all) {
    std::vector<double> values;
    for (const std::size_t i : items) {
      values.push_back(all[i]);
    }
    return values;
  };
  PairedSample part;
  part.weights = some(sample.weights);
  for (const auto& alternative : sample.values) {
    auto& into = part.values.emplace_back();
    std::transform(alternative.begin(), alternative.end(), std::back_inserter(into), some);
  }
  return part;
}

PairedBootstrap::PairedBootstrap(const PairedSample& sample, std::span<const Criterion> criteria, std::size_t resamples,
                                 std::uint64_t seed, double confidence)
    : alternatives_(sample.values.size()), confidence_(confidence) {
  struct Watched {
    SampleStatistic statistic;
    std::vector<double> values;
    RisingOrder order;
    std::vector<double>* into;
  };
  const std::size_t variables = sample.values.front().size();
  criteria_.assign(criteria.size() * alternatives_, std::vector<double>(resamples, undetermined));
  means_.assign(variables * alternatives_, std::vector<double>(resamples, undetermined));
  std::vector<Watched> watched;
  const auto watch = [&](const SampleStatistic& statistic, std::vector<double> values, std::vector<double>& into) {
    RisingOrder order = rising_order(values);
    watched.push_back({statistic, std::move(values), std::move(order), &into});
  };
  for (std::size_t a = 0; a < alternatives_; ++a) {
    for (std::size_t k = 0; k < criteria.size(); ++k) {
      watch(criteria[k].statistic, sample.values[a][criteria[k].variable], criteria_[k * alternatives_ + a]);
    }
    for (std::size_t v = 0; v < variables; ++v) {
      watch(mean, less(sample.values[a][v], sample.values.front()[v]), means_[v * alternatives_ + a]);
    }
  }
  Dice dice(seed);
  const std::size_t n = sample.weights.size();
  std::vector<double> weights(n);
  for (std::size_t r = 0; r < resamples; ++r) {
    std::fill(weights.begin(), weights.end(), 0.0);
    for (std::size_t i = 0; i < n; ++i) {
      const std::size_t drawn = dice.below(n);
      weights[drawn] += sample.weights[drawn];
    }
    for (const Watched& w : watched) {
      (*w.into)[r] = evaluate(w.statistic, w.order, w.values, weights);
    }
  }
}

Interval PairedBootstrap::criterion(std::size_t k, std::size_t a, std::size_t b) const {
  return interval_of(less(criteria_[k * alternatives_ + a], criteria_[k * alternatives_ + b]), confidence_);
}

Interval PairedBootstrap::mean_difference(std::size_t variable, std::size_t a) const {
  return interval_of(means_[variable * alternatives_ + a], confidence_);
}

std::vector<std::size_t> places_of(bool higher_is_better, std::span<const double> values) {
  std::vector<std::size_t> places;
  for (const double value : values) {
    places.push_back(1 + static_cast<std::size_t>(std::count_if(values.begin(), values.end(), [&](double other) {
                       return better(higher_is_better, other, value);
                     })));
  }
  return places;
}

std::vector<PairedRanking> rank(const PairedSample& sample, std::span<const Criterion> criteria,
                                const PairedBootstrap& bootstrap) {
  std::vector<PairedRanking> rankings;
  for (std::size_t k = 0; k < criteria.size(); ++k) {
    const Criterion& criterion = criteria[k];
    PairedRanking r;
    for (const auto& alternative : sample.values) {
      r.values.push_back(evaluate(criterion.statistic, alternative[criterion.variable], sample.weights));
    }
    r.order.resize(r.values.size());
    std::iota(r.order.begin(), r.order.end(), std::size_t{0});
    std::stable_sort(r.order.begin(), r.order.end(), [&](std::size_t a, std::size_t b) {
      return better(criterion.higher_is_better, r.values[a], r.values[b]);
    });
    for (std::size_t i = 0; i + 1 < r.order.size(); ++i) {
      r.apart.push_back(bootstrap.criterion(k, r.order[i], r.order[i + 1]).without_zero());
    }
    r.places = places_of(criterion.higher_is_better, r.values);
    rankings.push_back(std::move(r));
  }
  return rankings;
}

std::vector<PairedDifference> differences(const PairedSample& sample, std::span<const Criterion> criteria,
                                          const PairedBootstrap& bootstrap) {
  using Kind = SampleStatistic::Kind;
  std::vector<PairedDifference> all;
  const auto& first = sample.values.front();
  for (std::size_t a = 1; a < sample.values.size(); ++a) {
    const auto& other = sample.values[a];
    const auto higher = [&](std::size_t variable) {
      return evaluate({Kind::share_above_zero}, less(other[variable], first[variable]), sample.weights);
    };
    for (std::size_t k = 0; k < criteria.size(); ++k) {
      const auto& [variable, statistic, higher_is_better] = criteria[k];
      all.push_back(
          {a, variable, k,
           evaluate(statistic, other[variable], sample.weights) - evaluate(statistic, first[variable], sample.weights),
           bootstrap.criterion(k, a, 0), statistic.kind == Kind::share_above_zero ? undetermined : higher(variable)});
    }
    for (std::size_t v = 0; v < other.size(); ++v) {
      if (std::none_of(criteria.begin(), criteria.end(),
                       [v](const Criterion& c) { return c.variable == v && c.statistic.kind == Kind::mean; })) {
        all.push_back({a, v, std::nullopt, evaluate(mean, less(other[v], first[v]), sample.weights),
                       bootstrap.mean_difference(v, a), higher(v)});
      }
    }
  }
  return all;
}

} // namespace wingnose
