#include "wingnose/numeric/sampling.hpp"

#include "wingnose/words/error.hpp"
#include "wingnose/words/number.hpp"

#include <boost/math/distributions/normal.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <string>

namespace wingnose {
namespace {

double rounded(double value, double from, double to) { return std::clamp(std::stod(number(value)), from, to); }

} // namespace

double value_at(const NormalSpread& s, double u) {
  if (!(std::isfinite(s.mean) && std::isfinite(s.deviation) && s.deviation > 0.0 && s.from < s.to)) {
    throw InputError("a normal distribution needs a mean, a standard deviation above 0, and from below to where it is "
                     "cut off");
  }
  const boost::math::normal normal(s.mean, s.deviation);
  const double low = std::isfinite(s.from) ? cdf(normal, s.from) : 0.0;
  const double high = std::isfinite(s.to) ? cdf(normal, s.to) : 1.0;
  if (!(high - low > 1e-9)) {
    throw InputError("a normal distribution of mean " + number(s.mean) + " and standard deviation " +
                     number(s.deviation) + " has nothing between " + number(s.from) + " and " + number(s.to));
  }
  const double p = low + u * (high - low);
  return rounded(p > 0.0 && p < 1.0 ? quantile(normal, p) : s.mean, s.from, s.to);
}

double value_at(const UniformSpread& s, double u) {
  if (!(std::isfinite(s.from) && std::isfinite(s.to) && s.from < s.to)) {
    throw InputError("a uniform distribution needs from below to; it has " + number(s.from) + " and " + number(s.to));
  }
  return rounded(s.from + u * (s.to - s.from), s.from, s.to);
}

std::size_t choice_at(std::size_t values, std::span<const double> weights, double u) {
  const double total = std::accumulate(weights.begin(), weights.end(), 0.0);
  if (values == 0 || values != weights.size() || !(total > 0.0) || !std::isfinite(total) ||
      std::any_of(weights.begin(), weights.end(), [](double w) { return !(w >= 0.0); })) {
    throw InputError("a choice needs values and as many weights, none below 0 and not all 0");
  }
  double below = 0.0;
  std::size_t last = 0;
  for (std::size_t i = 0; i < values; ++i) {
    below += weights[i];
    if (weights[i] > 0.0) {
      last = i;
      if (u * total < below) {
        break;
      }
    }
  }
  return last;
}

std::vector<double> latin_hypercube(std::size_t n, Dice& dice) {
  std::vector<std::size_t> stratum(n);
  std::iota(stratum.begin(), stratum.end(), std::size_t{0});
  for (std::size_t i = n; i > 1; --i) {
    std::swap(stratum[i - 1], stratum[dice.below(i)]);
  }
  std::vector<double> u;
  u.reserve(n);
  for (const std::size_t s : stratum) {
    u.push_back((static_cast<double>(s) + dice.fraction()) / static_cast<double>(n));
  }
  return u;
}

std::vector<std::size_t> allotted(std::span<const double> shares, std::size_t count) {
  const double total = std::accumulate(shares.begin(), shares.end(), 0.0);
  std::vector<std::size_t> counts;
  std::vector<double> missing;
  for (const double share : shares) {
    const double quota = static_cast<double>(count) * share / total;
    counts.push_back(std::max<std::size_t>(1, static_cast<std::size_t>(quota)));
    missing.push_back(quota - static_cast<double>(counts.back()));
  }
  for (std::size_t sum = std::accumulate(counts.begin(), counts.end(), std::size_t{0}); sum != count;) {
    if (sum < count) {
      const auto most = static_cast<std::size_t>(std::max_element(missing.begin(), missing.end()) - missing.begin());
      ++counts[most], --missing[most], ++sum;
    } else {
      std::size_t least = counts.size();
      for (std::size_t i = 0; i < counts.size(); ++i) {
        least = counts[i] > 1 && (least == counts.size() || missing[i] < missing[least]) ? i : least;
      }
      --counts[least], ++missing[least], --sum;
    }
  }
  return counts;
}

namespace {

std::vector<double> shares_of(std::span<const ClassOfItems> classes) {
  std::vector<double> shares;
  for (const ClassOfItems& c : classes) {
    shares.push_back(c.share);
  }
  return shares;
}

} // namespace

std::vector<DrawnItem> draw_stratified(std::span<const ClassOfItems> classes, std::size_t count, Dice& dice) {
  const std::vector<double> shares = shares_of(classes);
  const double total = std::accumulate(shares.begin(), shares.end(), 0.0);
  const std::vector<std::size_t> counts = allotted(shares, count);
  std::vector<DrawnItem> items;
  for (std::size_t c = 0; c < counts.size(); ++c) {
    const std::size_t n = counts[c], first = items.size();
    items.resize(first + n, {c, shares[c] / total / static_cast<double>(n), {}});
    for (std::size_t d = 0; d < classes[c].dimensions; ++d) {
      const std::vector<double> u = latin_hypercube(n, dice);
      for (std::size_t i = 0; i < n; ++i) {
        items[first + i].u.push_back(u[i]);
      }
    }
  }
  return items;
}

std::vector<DrawnItem> draw_simple(std::span<const ClassOfItems> classes, std::size_t count, Dice& dice) {
  const std::vector<double> shares = shares_of(classes);
  const double total = std::accumulate(shares.begin(), shares.end(), 0.0);
  std::vector<DrawnItem> items;
  for (std::size_t i = 0; i < count; ++i) {
    double left = dice.fraction() * total;
    std::size_t c = 0;
    while (c + 1 < shares.size() && left >= shares[c]) {
      left -= shares[c++];
    }
    items.push_back({c, 1.0 / static_cast<double>(count), {}});
    for (std::size_t d = 0; d < classes[c].dimensions; ++d) {
      items.back().u.push_back(dice.fraction());
    }
  }
  return items;
}

} // namespace wingnose
