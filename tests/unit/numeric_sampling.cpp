// Drawing from distributions, as a Latin hypercube and by shares.
#include "catch.hpp"

#include "wingnose/numeric/sampling.hpp"
#include "wingnose/words/error.hpp"

#include <cmath>
#include <set>
#include <vector>

using namespace wingnose;

using Values = std::vector<double>;

TEST_CASE("The value below which half of a distribution lies is its middle, and the ends are those it is cut off at") {
  CHECK(value_at(UniformSpread{2.0, 6.0}, 0.5) == 4.0);
  CHECK(value_at(NormalSpread{3.0, 2.0}, 0.5) == 3.0);
  CHECK(value_at(NormalSpread{3.0, 2.0, 3.0, 10.0}, 1e-9) == 3.0);
  CHECK(value_at(NormalSpread{3.0, 2.0, -10.0, 3.0}, 1.0 - 1e-9) == 3.0);
  CHECK(value_at(NormalSpread{0.0, 1.0}, 0.975) == 1.95996); // six digits
}

TEST_CASE("A choice falls on each place as often as its weight says, never on one of weight 0") {
  const Values weights{1, 0, 3};
  CHECK(choice_at(3, weights, 0.2499) == 0);
  CHECK(choice_at(3, weights, 0.2501) == 2);
  CHECK(choice_at(3, weights, 0.9999) == 2);
}

TEST_CASE("A dimension of a Latin hypercube has one number in each part of equal length") {
  Dice dice(5);
  for (const std::size_t n : {1UL, 2UL, 17UL}) {
    std::set<std::size_t> parts;
    for (const double u : latin_hypercube(n, dice)) {
      CHECK(u > 0.0);
      CHECK(u < 1.0);
      parts.insert(static_cast<std::size_t>(std::floor(u * static_cast<double>(n))));
    }
    CHECK(parts.size() == n);
  }
}

TEST_CASE("Items are allotted by largest remainders and every class has one") {
  using Counts = std::vector<std::size_t>;
  CHECK(allotted(Values{3, 1}, 8) == Counts{6, 2});
  CHECK(allotted(Values{1, 1, 1}, 4) == Counts{2, 1, 1});
  CHECK(allotted(Values{47, 16, 37}, 10) == Counts{5, 1, 4}); // 4.7, 1.6 and 3.7
  CHECK(allotted(Values{998, 1, 1}, 5) == Counts{3, 1, 1});
}

TEST_CASE("What is no distribution is refused") {
  CHECK_THROWS_AS(value_at(UniformSpread{1.0, 1.0}, 0.5), InputError);
  CHECK_THROWS_AS(value_at(NormalSpread{0.0, 0.0}, 0.5), InputError);
  CHECK_THROWS_AS(value_at(NormalSpread{0.0, 1.0, 100.0, 101.0}, 0.5), InputError);
  CHECK_THROWS_AS(choice_at(2, Values{1.0}, 0.5), InputError);
  CHECK_THROWS_AS(choice_at(2, Values{0.0, 0.0}, 0.5), InputError);
}

TEST_CASE("Items drawn have their class's numbers, and weights that sum to one") {
  const std::vector<ClassOfItems> classes{{3.0, 2}, {1.0, 3}};
  for (const auto draw : {draw_stratified, draw_simple}) {
    Dice dice(8);
    double all = 0.0, second = 0.0;
    const auto items = draw(classes, 41, dice);
    REQUIRE(items.size() == 41);
    for (const DrawnItem& item : items) {
      CHECK(item.u.size() == classes[item.item_class].dimensions);
      all += item.weight;
      second += item.item_class == 1 ? item.weight : 0.0;
    }
    CHECK(all == Approx(1.0).epsilon(1e-12));
    CHECK((draw == draw_simple || std::abs(second - 0.25) < 1e-12)); // whatever the rounding of counts
  }
}
