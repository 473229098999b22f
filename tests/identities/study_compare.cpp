// What must hold for any interval of a comparison, whatever the numbers.
#include "catch.hpp"

#include "../../src/study/compare_parts.hpp"

#include "wingnose/numeric/dice.hpp"

#include <boost/math/distributions/normal.hpp>

#include <limits>

using namespace wingnose;

namespace {

// Two made-up crossings whose wheels differ by a normal amount of the given mean and standard deviation 1.
study::Sample sample(std::size_t wheels, double mean, std::uint64_t seed) {
  Dice dice(seed);
  const boost::math::normal normal(mean, 1.0);
  study::Sample s;
  s.steel = true;
  s.values.assign(2, std::vector<std::vector<double>>(quantity::compared(true).size()));
  for (std::size_t i = 0; i < wheels; ++i) {
    s.weights.push_back(1.0);
    const double common = 10.0 * dice.fraction();
    for (std::size_t q = 0; q < s.values[0].size(); ++q) {
      s.values[0][q].push_back(common);
      s.values[1][q].push_back(common + quantile(normal, dice.fraction()));
    }
  }
  return s;
}

const std::size_t p2 = study::observed("p2_kN", true);

} // namespace

TEST_CASE("An interval of 95 % of the mean difference holds the true difference about that often") {
  int held = 0;
  constexpr int trials = 400;
  for (int t = 0; t < trials; ++t) {
    const auto s = sample(40, 0.3, 1000 + static_cast<std::uint64_t>(t));
    const auto interval = study::Bootstrap(s, 400, 7).mean_difference(p2, 1, 0.95);
    held += interval.low <= 0.3 && 0.3 <= interval.high ? 1 : 0;
  }
  // 0.95 less the known shortfall of percentile intervals at 40 wheels (about 0.01), and three standard deviations of
  // 400 trials (0.033).
  CHECK(held > trials * 0.905);
  CHECK(held < trials * 0.985);
}

TEST_CASE("An interval narrows with the square root of the number of wheels and widens with its confidence") {
  const auto width = [](std::size_t wheels, double confidence) {
    const auto i = study::Bootstrap(sample(wheels, 0.0, 5), 2000, 3).mean_difference(p2, 1, confidence);
    return i.high - i.low;
  };
  // Normal theory: 2 * 1.96 / sqrt(n); the standard deviation of 400 wheels is itself known to 3.5 %.
  CHECK(width(400, 0.95) == Approx(2.0 * 1.96 / 20.0).epsilon(0.12));
  CHECK(width(100, 0.95) / width(400, 0.95) == Approx(2.0).epsilon(0.25));
  CHECK(width(100, 0.5) < width(100, 0.95));
}

TEST_CASE("Pairing cancels what all wheels have in common") {
  // Every wheel is worse by the same amount, however different wheels are: nothing is left to chance.
  auto s = sample(30, 0.0, 9);
  for (std::size_t i = 0; i < 30; ++i) {
    s.values[1][p2][i] = s.values[0][p2][i] + 2.0;
  }
  const auto interval = study::Bootstrap(s, 200, 1).mean_difference(p2, 1, 0.95);
  CHECK(interval.low == Approx(2.0).epsilon(1e-12));
  CHECK(interval.high == Approx(2.0).epsilon(1e-12));
}

TEST_CASE("The same seed gives the same interval to the last bit") {
  const auto s = sample(25, 0.1, 4);
  const auto one = study::Bootstrap(s, 300, 11).mean_difference(p2, 1, 0.9);
  const auto again = study::Bootstrap(s, 300, 11).mean_difference(p2, 1, 0.9);
  const auto other = study::Bootstrap(s, 300, 12).mean_difference(p2, 1, 0.9);
  CHECK(one.low == again.low);
  CHECK(one.high == again.high);
  CHECK(one.low != other.low);
}

TEST_CASE("Quantities of the steel, when they count too, move no interval and no rank of the others by a bit") {
  auto s = sample(30, 0.2, 6);
  s.steel = false;
  const study::Bootstrap without(s, 300, 5);
  const auto ranked = study::rank(s, without, 0.95);
  s.steel = true;
  const study::Bootstrap with(s, 300, 5);
  const auto ranked_with = study::rank(s, with, 0.95);
  for (std::size_t q = 0; q < quantity::compared(false).size(); ++q) {
    CHECK(without.mean_difference(q, 1, 0.95).low == with.mean_difference(q, 1, 0.95).low);
    CHECK(without.mean_difference(q, 1, 0.95).high == with.mean_difference(q, 1, 0.95).high);
  }
  REQUIRE(ranked_with.size() == quantity::criteria(true).size());
  REQUIRE(ranked.size() < ranked_with.size());
  for (std::size_t k = 0; k < ranked.size(); ++k) {
    CHECK(without.criterion(k, 1, 0, 0.9).low == with.criterion(k, 1, 0, 0.9).low);
    CHECK(ranked[k].values == ranked_with[k].values);
    CHECK(ranked[k].places == ranked_with[k].places);
    CHECK(ranked[k].criterion.of == ranked_with[k].criterion.of);
  }
  CHECK(study::differences(s, with, 0.95).size() > ranked_with.size());
}

TEST_CASE("Of a quantity that only some wheels have, intervals and ranks are those of these wheels") {
  auto s = sample(30, 0.2, 8);
  const std::size_t wear = study::observed("wear_volume_mm3", true);
  std::vector<std::size_t> known;
  for (std::size_t i = 0; i < 30; ++i) {
    if (i % 3 == 0) {
      s.values[0][wear][i] = s.values[1][wear][i] = std::numeric_limits<double>::quiet_NaN();
    } else {
      known.push_back(i);
    }
  }
  const auto part = study::part_of(s, known);
  CHECK(part.steel);
  const auto all = study::rank(s, study::Bootstrap(s, 200, 1), 0.95);
  const auto some = study::rank(part, study::Bootstrap(part, 200, 1), 0.95);
  CHECK(all.back().criterion.of->key == "wear_volume_mm3");
  CHECK(all.back().values == some.back().values);
  CHECK(all.back().order == some.back().order);
  CHECK(study::share_above(s, 0, wear, 5.0) == Approx(study::share_above(part, 0, wear, 5.0)).epsilon(1e-12));
}
