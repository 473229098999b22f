// Ranking and differences, with their spread over resampled wheels.
#include "compare_parts.hpp"

#include "wingnose/numeric/dice.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace wingnose::study {
namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();
Statistic mean_of(const quantity::Quantity* of) { return {of, Statistic::Kind::mean, 0.5, false}; }

std::size_t place_of(const Statistic& statistic, bool steel) { return observed(statistic.of->key, steel); }

std::vector<double> less(const std::vector<double>& a, const std::vector<double>& b) {
  std::vector<double> differences(a.size());
  std::transform(a.begin(), a.end(), b.begin(), differences.begin(), std::minus<>());
  return differences;
}

// Percentile interval (Efron 1979).
Interval interval_of(std::vector<double> values, double confidence) {
  const Sorted order = sorted(values);
  const std::vector<double> equal(values.size(), 1.0);
  return {quantile_of(order, values, equal, 0.5 * (1.0 - confidence)),
          quantile_of(order, values, equal, 0.5 * (1.0 + confidence))};
}

bool better(const Statistic& criterion, double a, double b) {
  if (std::isnan(a) || std::isnan(b)) {
    return std::isnan(b) && !std::isnan(a);
  }
  return criterion.higher_is_better ? a > b : a < b;
}

// 1 for the best; equal values share a place.
std::vector<std::size_t> places_of(const Statistic& criterion, const std::vector<double>& values) {
  std::vector<std::size_t> places;
  for (const double value : values) {
    places.push_back(1 + static_cast<std::size_t>(std::count_if(values.begin(), values.end(), [&](double other) {
                       return better(criterion, other, value);
                     })));
  }
  return places;
}

} // namespace

Bootstrap::Bootstrap(const Sample& sample, std::size_t resamples, std::uint64_t seed)
    : crossings_(sample.values.size()) {
  struct Watched {
    Statistic statistic;
    std::vector<double> values;
    Sorted order;
    std::vector<double>* into;
  };
  const auto list = quantity::criteria(sample.steel);
  const auto quantities = quantity::compared(sample.steel);
  criteria_.assign(list.size() * crossings_, std::vector<double>(resamples, none));
  means_.assign(quantities.size() * crossings_, std::vector<double>(resamples, none));
  std::vector<Watched> watched;
  for (std::size_t c = 0; c < crossings_; ++c) {
    for (std::size_t k = 0; k < list.size(); ++k) {
      const auto& values = sample.values[c][place_of(list[k], sample.steel)];
      watched.push_back({list[k], values, sorted(values), &criteria_[k * crossings_ + c]});
    }
    for (std::size_t q = 0; q < quantities.size(); ++q) {
      auto values = less(sample.values[c][q], sample.values.front()[q]);
      auto order = sorted(values);
      watched.push_back({mean_of(quantities[q]), std::move(values), std::move(order), &means_[q * crossings_ + c]});
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
    for (const auto& w : watched) {
      (*w.into)[r] = statistic_of(w.statistic, w.order, w.values, weights);
    }
  }
}

Interval Bootstrap::criterion(std::size_t k, std::size_t a, std::size_t b, double confidence) const {
  return interval_of(less(criteria_[k * crossings_ + a], criteria_[k * crossings_ + b]), confidence);
}

Interval Bootstrap::mean_difference(std::size_t quantity, std::size_t a, double confidence) const {
  return interval_of(means_[quantity * crossings_ + a], confidence);
}

Sample part_of(const Sample& sample, const std::vector<std::size_t>& places) {
  Sample part;
  part.steel = sample.steel;
  const std::size_t quantities = quantity::compared(sample.steel).size();
  part.values.assign(sample.values.size(), std::vector<std::vector<double>>(quantities));
  for (const std::size_t i : places) {
    part.weights.push_back(sample.weights[i]);
    for (std::size_t c = 0; c < sample.values.size(); ++c) {
      for (std::size_t q = 0; q < quantities; ++q) {
        part.values[c][q].push_back(sample.values[c][q][i]);
      }
    }
  }
  return part;
}

std::vector<Ranking> rank(const Sample& sample, const Bootstrap& bootstrap, double confidence) {
  std::vector<Ranking> rankings;
  const auto list = quantity::criteria(sample.steel);
  for (std::size_t k = 0; k < list.size(); ++k) {
    Ranking r;
    r.criterion = list[k];
    for (const auto& crossing : sample.values) {
      r.values.push_back(evaluate(list[k], crossing[place_of(list[k], sample.steel)], sample.weights));
    }
    r.order.resize(r.values.size());
    std::iota(r.order.begin(), r.order.end(), std::size_t{0});
    std::stable_sort(r.order.begin(), r.order.end(),
                     [&](std::size_t a, std::size_t b) { return better(list[k], r.values[a], r.values[b]); });
    for (std::size_t i = 0; i + 1 < r.order.size(); ++i) {
      const Interval interval = bootstrap.criterion(k, r.order[i], r.order[i + 1], confidence);
      r.apart.push_back(interval.low > 0.0 || interval.high < 0.0);
    }
    r.places = places_of(list[k], r.values);
    rankings.push_back(std::move(r));
  }
  return rankings;
}

std::vector<Difference> differences(const Sample& sample, const Bootstrap& bootstrap, double confidence) {
  std::vector<Difference> all;
  const auto list = quantity::criteria(sample.steel);
  const auto quantities = quantity::compared(sample.steel);
  const auto higher = [&](std::size_t quantity, std::size_t c) {
    return evaluate({nullptr, Statistic::Kind::share_above_zero, 0.5, false},
                    less(sample.values[c][quantity], sample.values.front()[quantity]), sample.weights);
  };
  for (std::size_t c = 1; c < sample.values.size(); ++c) {
    for (std::size_t k = 0; k < list.size(); ++k) {
      const auto quantity = place_of(list[k], sample.steel);
      const Interval interval = bootstrap.criterion(k, c, 0, confidence);
      all.push_back({c, list[k],
                     evaluate(list[k], sample.values[c][quantity], sample.weights) -
                         evaluate(list[k], sample.values.front()[quantity], sample.weights),
                     interval.low, interval.high,
                     list[k].kind == Statistic::Kind::share_above_zero ? none : higher(quantity, c)});
    }
    for (std::size_t q = 0; q < quantities.size(); ++q) {
      if (std::any_of(list.begin(), list.end(),
                      [&](const Statistic& s) { return s.of == quantities[q] && s.kind == Statistic::Kind::mean; })) {
        continue; // told already
      }
      const Interval interval = bootstrap.mean_difference(q, c, confidence);
      all.push_back(
          {c, mean_of(quantities[q]),
           evaluate(mean_of(quantities[q]), less(sample.values[c][q], sample.values.front()[q]), sample.weights),
           interval.low, interval.high, higher(q, c)});
    }
  }
  return all;
}

void rank_with_the_worst(Comparison& comparison) {
  std::vector<double> weights;
  for (const auto& member : comparison.population.members) {
    weights.push_back(member.weight);
  }
  for (Ranking& r : comparison.rankings) {
    const std::size_t q = place_of(r.criterion, comparison.options.steel);
    const double worst = (r.criterion.higher_is_better ? -1.0 : 1.0) * std::numeric_limits<double>::infinity();
    for (const CrossingAnswer& crossing : comparison.crossings) {
      std::vector<double> values;
      for (const MemberAnswer& m : crossing.members) {
        values.push_back(m.state == MemberAnswer::State::done ? m.observed[q] : worst);
      }
      r.worst_values.push_back(evaluate(r.criterion, values, weights));
    }
    r.worst_places = places_of(r.criterion, r.worst_values);
  }
}

} // namespace wingnose::study
