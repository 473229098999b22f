// Scanning a range, and where a threshold is first exceeded.
#include "catch.hpp"

#include "wingnose/numeric/threshold.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>

using namespace wingnose;
using namespace wingnose::numeric;

TEST_CASE("A scan holds both ends, the steps between them and the places asked for, once each and rising") {
  CHECK(scan(1.0, 2.0, 0.25) == std::vector<double>{1.0, 1.25, 1.5, 1.75, 2.0});
  const auto uneven = scan(0.0, 1.0, 0.4); // the last step is cut
  REQUIRE(uneven.size() == 4);
  CHECK(uneven.back() == 1.0);
  const std::vector<std::optional<double>> also{1.25 + 1e-9, std::nullopt, 1.3};
  const auto more = scan(1.0, 2.0, 0.25, also, 1e-6);
  CHECK(more == std::vector<double>{1.0, 1.25, 1.3, 1.5, 1.75, 2.0});
}

TEST_CASE("The place found keeps the threshold and lies within the tolerance of one that exceeds it") {
  const std::vector<double> x{0.0, 1.0, 2.0, 3.0, 4.0};
  const auto wave = [](double at) { return std::sin(2.0 * at) - 0.5; }; // exceeds from pi/12, again from about 3.4
  std::vector<double> excess;
  for (const double at : x) {
    excess.push_back(wave(at));
  }
  const Threshold t = first_exceedance(x, excess, wave, 1e-6);
  REQUIRE(t.kept_up_to);
  CHECK(*t.first_exceeding == 1.0);
  CHECK(wave(*t.kept_up_to) <= 0.0);
  CHECK(wave(*t.kept_up_to + 1e-6) > 0.0);
  REQUIRE(t.kept_again.size() == 1);
  CHECK(t.kept_again.front().from == 2.0);
  CHECK(t.kept_again.front().to == 3.0);
}

TEST_CASE("Samples that do not belong to rising places are refused") {
  const std::vector<double> rising{0.0, 1.0}, equal{1.0, 1.0};
  const auto nothing = [](double) { return 0.0; };
  CHECK_THROWS_AS(first_exceedance({}, {}, nothing, 1e-3), InputError);
  CHECK_THROWS_AS(first_exceedance(equal, rising, nothing, 1e-3), InputError);
  CHECK_THROWS_AS(first_exceedance(rising, std::vector<double>{0.0}, nothing, 1e-3), InputError);
}
