// Weighted statistics on numbers small enough to check by hand.
#include "catch.hpp"

#include "wingnose/study/compare.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

using namespace wingnose;
using study::Statistic;

namespace {

using Values = std::vector<double>;

const quantity::Quantity* const p2 = quantity::find("p2_kN");

} // namespace

TEST_CASE("Quantiles of equal weights are those of the ordered list, halfway where the distribution is flat") {
  const Values values{4, 1, 3, 2}, equal(4, 1.0);
  CHECK(study::weighted_quantile(values, equal, 0.5) == 2.5);
  CHECK(study::weighted_quantile(values, equal, 0.25) == 1.5);
  CHECK(study::weighted_quantile(values, equal, 0.3) == 2.0);
  CHECK(study::weighted_quantile(values, equal, 0.95) == 4.0);
  CHECK(study::weighted_quantile(values, equal, 0.0) == 1.0);
  CHECK(study::weighted_quantile(values, equal, 1.0) == 4.0);
}

TEST_CASE("A wheel of weight three counts as three wheels") {
  const Values values{10, 20, 30}, weights{3, 1, 2}, repeated{10, 10, 10, 20, 30, 30}, equal(6, 1.0);
  for (const double level : {0.0, 0.1, 0.4, 0.5, 0.6, 0.7, 0.95, 1.0}) {
    CHECK(study::weighted_quantile(values, weights, level) == study::weighted_quantile(repeated, equal, level));
  }
  CHECK(study::weighted_quantile(values, weights, 0.5) == 15.0); // half of the weight lies at 10
  CHECK(study::weighted_mean(values, weights) == Approx(110.0 / 6.0).epsilon(1e-15));
  CHECK(study::weighted_deviation(values, weights) == Approx(study::weighted_deviation(repeated, equal)));
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
    for (const double level : study::quantile_levels) {
      CHECK(study::weighted_quantile(values, scaled, level) == study::weighted_quantile(values, weights, level));
    }
    CHECK(study::weighted_mean(values, scaled) == Approx(study::weighted_mean(values, weights)).epsilon(1e-13));
  }
}

TEST_CASE("A wheel without weight or without a value has no say") {
  const Values values{1, 2, 1000, std::nan("")}, weights{1, 1, 0, 5};
  CHECK(study::evaluate({p2, Statistic::Kind::quantile, 0.99, false}, values, weights) == 2.0);
  CHECK(study::evaluate({p2, Statistic::Kind::mean, 0.5, false}, values, weights) == 1.5);
  CHECK(std::isnan(study::evaluate({}, Values{std::nan("")}, Values{1.0})));
}

TEST_CASE("The share above zero is a share of weight") {
  const Statistic share{quantity::find("lost_contact_ms"), Statistic::Kind::share_above_zero, 0.5, false};
  CHECK(study::evaluate(share, Values{0, 0.001, 0, 0.002}, Values{1, 2, 3, 2}) == 0.5);
}

TEST_CASE("Lists of unequal length are refused") {
  CHECK_THROWS_AS(study::weighted_mean(Values{1, 2}, Values{1}), InputError);
  CHECK_THROWS_AS(study::weighted_mean(Values{}, Values{}), InputError);
  CHECK_THROWS_AS(study::weighted_quantile(Values{1}, Values{1}, 1.5), InputError);
}
