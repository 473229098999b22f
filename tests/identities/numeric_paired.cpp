// What must hold for any interval of a paired comparison, whatever the numbers.
#include "catch.hpp"

#include "wingnose/numeric/dice.hpp"
#include "wingnose/numeric/paired.hpp"

#include <boost/math/distributions/normal.hpp>

#include <limits>

using namespace wingnose;

namespace {

using Kind = SampleStatistic::Kind;

// Two made-up alternatives whose items differ by a normal amount of the given mean and standard deviation 1.
PairedSample sample(std::size_t items, double mean, std::uint64_t seed, std::size_t variables = 4) {
  Dice dice(seed);
  const boost::math::normal normal(mean, 1.0);
  PairedSample s;
  s.values.assign(2, std::vector<std::vector<double>>(variables));
  for (std::size_t i = 0; i < items; ++i) {
    s.weights.push_back(1.0);
    const double common = 10.0 * dice.fraction();
    for (std::size_t v = 0; v < variables; ++v) {
      s.values[0][v].push_back(common);
      s.values[1][v].push_back(common + quantile(normal, dice.fraction()));
    }
  }
  return s;
}

const std::vector<Criterion> criteria{{0, {Kind::quantile, 0.5}, false},
                                      {1, {Kind::quantile, 0.05}, true},
                                      {2, {Kind::share_above_zero}, false},
                                      {3, {Kind::mean}, false}};

Interval difference(const PairedSample& s, std::size_t resamples, std::uint64_t seed, double confidence) {
  return PairedBootstrap(s, criteria, resamples, seed, confidence).mean_difference(0, 1);
}

} // namespace

TEST_CASE("An interval of 95 % of the mean difference holds the true difference about that often") {
  int held = 0;
  constexpr int trials = 400;
  for (int t = 0; t < trials; ++t) {
    const auto s = sample(40, 0.3, 1000 + static_cast<std::uint64_t>(t));
    const auto interval = difference(s, 400, 7, 0.95);
    held += interval.low <= 0.3 && 0.3 <= interval.high ? 1 : 0;
  }
  // 0.95 less the known shortfall of percentile intervals at 40 items (about 0.01), and three standard deviations of
  // 400 trials (0.033).
  CHECK(held > trials * 0.905);
  CHECK(held < trials * 0.985);
}

TEST_CASE("An interval narrows with the square root of the number of items and widens with its confidence") {
  const auto width = [](std::size_t items, double confidence) {
    const auto i = difference(sample(items, 0.0, 5), 2000, 3, confidence);
    return i.high - i.low;
  };
  // Normal theory: 2 * 1.96 / sqrt(n); the standard deviation of 400 items is itself known to 3.5 %.
  CHECK(width(400, 0.95) == Approx(2.0 * 1.96 / 20.0).epsilon(0.12));
  CHECK(width(100, 0.95) / width(400, 0.95) == Approx(2.0).epsilon(0.25));
  CHECK(width(100, 0.5) < width(100, 0.95));
}

TEST_CASE("Pairing cancels what all items have in common") {
  // Every item is worse by the same amount, however different items are: nothing is left to chance.
  auto s = sample(30, 0.0, 9);
  for (std::size_t i = 0; i < 30; ++i) {
    s.values[1][0][i] = s.values[0][0][i] + 2.0;
  }
  const auto interval = difference(s, 200, 1, 0.95);
  CHECK(interval.low == Approx(2.0).epsilon(1e-12));
  CHECK(interval.high == Approx(2.0).epsilon(1e-12));
}

TEST_CASE("The same seed gives the same interval to the last bit") {
  const auto s = sample(25, 0.1, 4);
  const auto one = difference(s, 300, 11, 0.9);
  const auto again = difference(s, 300, 11, 0.9);
  const auto other = difference(s, 300, 12, 0.9);
  CHECK(one.low == again.low);
  CHECK(one.high == again.high);
  CHECK(one.low != other.low);
}

TEST_CASE("A variable and a criterion more move no interval and no rank of the others by a bit") {
  const auto s = sample(30, 0.2, 6);
  auto less = s;
  for (auto& alternative : less.values) {
    alternative.pop_back();
  }
  const std::span<const Criterion> fewer(criteria.data(), 3);
  const PairedBootstrap without(less, fewer, 300, 5, 0.95), with(s, criteria, 300, 5, 0.95);
  for (std::size_t v = 0; v < 3; ++v) {
    CHECK(without.mean_difference(v, 1).low == with.mean_difference(v, 1).low);
    CHECK(without.mean_difference(v, 1).high == with.mean_difference(v, 1).high);
  }
  const auto ranked = rank(less, fewer, without), ranked_with = rank(s, criteria, with);
  REQUIRE(ranked.size() == 3);
  REQUIRE(ranked_with.size() == 4);
  for (std::size_t k = 0; k < ranked.size(); ++k) {
    CHECK(without.criterion(k, 1, 0).low == with.criterion(k, 1, 0).low);
    CHECK(ranked[k].values == ranked_with[k].values);
    CHECK(ranked[k].places == ranked_with[k].places);
  }
  // Means of the variables follow, but of the one whose mean is a criterion.
  const auto all = differences(s, criteria, with);
  REQUIRE(all.size() == 7);
  CHECK(all[3].criterion == std::optional<std::size_t>(3));
  CHECK(all[6].variable == 2);
  CHECK(!all[6].criterion);
}

TEST_CASE("Of a variable that only some items have, intervals and ranks are those of these items") {
  auto s = sample(30, 0.2, 8);
  std::vector<std::size_t> known;
  for (std::size_t i = 0; i < 30; ++i) {
    if (i % 3 == 0) {
      s.values[0][3][i] = s.values[1][3][i] = std::numeric_limits<double>::quiet_NaN();
    } else {
      known.push_back(i);
    }
  }
  const auto part = part_of(s, known);
  const auto all = rank(s, criteria, PairedBootstrap(s, criteria, 200, 1, 0.95));
  const auto some = rank(part, criteria, PairedBootstrap(part, criteria, 200, 1, 0.95));
  CHECK(all.back().values == some.back().values);
  CHECK(all.back().order == some.back().order);
}
