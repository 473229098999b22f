// Weighted statistics on numbers small enough to check by hand.
#include "catch.hpp"

#include "wingnose/numeric/weighted.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

using namespace wingnose;
using Kind = SampleStatistic::Kind;

namespace {

using Values = std::vector<double>;

} // namespace

TEST_CASE("Quantiles of equal weights are those of the ordered list, halfway where the distribution is flat") {
  const Values values{4, 1, 3, 2}, equal(4, 1.0);
  CHECK(weighted_quantile(values, equal, 0.5) == 2.5);
  CHECK(weighted_quantile(values, equal, 0.25) == 1.5);
  CHECK(weighted_quantile(values, equal, 0.3) == 2.0);
  CHECK(weighted_quantile(values, equal, 0.95) == 4.0);
  CHECK(weighted_quantile(values, equal, 0.0) == 1.0);
  CHECK(weighted_quantile(values, equal, 1.0) == 4.0);
}

TEST_CASE("A wheel of weight three counts as three wheels") {
  const Values values{10, 20, 30}, weights{3, 1, 2}, repeated{10, 10, 10, 20, 30, 30}, equal(6, 1.0);
  for (const double level : {0.0, 0.1, 0.4, 0.5, 0.6, 0.7, 0.95, 1.0}) {
    CHECK(weighted_quantile(values, weights, level) == weighted_quantile(repeated, equal, level));
  }
  CHECK(weighted_quantile(values, weights, 0.5) == 15.0); // half of the weight lies at 10
  CHECK(weighted_mean(values, weights) == Approx(110.0 / 6.0).epsilon(1e-15));
  CHECK(weighted_deviation(values, weights) == Approx(weighted_deviation(repeated, equal)));
}

TEST_CASE("Statistics do not change when all weights are scaled") {
  Values values, weights;
  for (int i = 0; i < 37; ++i) {
    values.push_back(std::sin(1.7 * i));
    weights.push_back(1.0 + i % 5);
  }
  for (const double scale : {1e-6, 0.1, 1.0 / 3.0, 7.0, 1e9}) {
    Values scaled = weights;
    std::transform(scaled.begin(), scaled.end(), scaled.begin(), [&](double w) { return w * scale; });
    for (const double level : quantile_levels) {
      CHECK(weighted_quantile(values, scaled, level) == weighted_quantile(values, weights, level));
    }
    CHECK(weighted_mean(values, scaled) == Approx(weighted_mean(values, weights)).epsilon(1e-13));
  }
}

TEST_CASE("A wheel without weight or without a value has no say") {
  const Values values{1, 2, 1000, std::nan("")}, weights{1, 1, 0, 5};
  CHECK(evaluate({Kind::quantile, 0.99}, values, weights) == 2.0);
  CHECK(evaluate({Kind::mean}, values, weights) == 1.5);
  CHECK(std::isnan(evaluate({}, Values{std::nan("")}, Values{1.0})));
}

TEST_CASE("A share above a limit is one of weight") {
  CHECK(evaluate({Kind::share_above_zero}, Values{0, 0.001, 0, 0.002}, Values{1, 2, 3, 2}) == 0.5);
  CHECK(weighted_share_above(Values{0, 1, std::nan(""), 2}, Values{1, 2, 3, 1}, 1.0) == 0.25);
}

TEST_CASE("As many equal items say as much as those of unequal weight do together") {
  CHECK(effective_count(Values{2, 2, 2}) == 3.0);
  CHECK(effective_count(Values{1, 0, 0}) == 1.0);
  CHECK(effective_count(Values{3, 1}) == Approx(1.6).epsilon(1e-15)); // 16 / 10
}

TEST_CASE("A distribution has its values in rising order with the weight at or below each") {
  const Distribution d = distribution_of(Values{3, std::nan(""), 1, 2}, Values{1, 4, 2, 1});
  CHECK(d.count == 3);
  CHECK(d.share == 0.5);
  CHECK(d.values == Values{1, 2, 3});
  CHECK(d.cumulative == Values{0.5, 0.75, 1.0});
  CHECK(d.mean == 1.75);
  CHECK(std::isnan(distribution_of(Values{std::nan("")}, Values{1}).mean));
}

TEST_CASE("A sample is parted at its median, and below the greatest value where most items have that") {
  CHECK(parting_value(Values{1, 2, 3, 4}, Values(4, 1.0)) == 2.5);
  CHECK(parting_value(Values{1, 3, 3, 3}, Values(4, 1.0)) == 1.0);
}

TEST_CASE("Lists of unequal length are refused") {
  CHECK_THROWS_AS(weighted_mean(Values{1, 2}, Values{1}), InputError);
  CHECK_THROWS_AS(weighted_mean(Values{}, Values{}), InputError);
  CHECK_THROWS_AS(weighted_quantile(Values{1}, Values{1}, 1.5), InputError);
}
