// Populations of wheels, as drawn from a recipe.
#include "catch.hpp"
#include "said.hpp"

#include "wingnose/case/population.hpp"
#include "wingnose/words/error.hpp"
#include "wingnose/words/number.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>
#include <vector>

using namespace wingnose;
using said::has;
using said::refusal;

namespace {

double number_of(const cases::KeyValue& value) { return std::get<double>(value); }

cases::PopulationRecipe recipe(std::size_t count, cases::Sampling sampling) {
  cases::PopulationRecipe r;
  cases::WheelClass fresh, hollow;
  fresh.name = "new";
  fresh.share = 3.0;
  hollow.name = "hollow";
  hollow.variations = {{"wheel.hollow_depth_mm", UniformSpread{1.0, 3.0}}};
  r.classes = {fresh, hollow};
  r.variations = {{"wheel.lateral_offset_mm", NormalSpread{0.0, 2.0, -5.0, 5.0}},
                  {"passage.speed_km_h", cases::ChoiceSpread{{80.0, 120.0}, {1.0, 1.0}}}};
  r.count = count;
  r.sampling = sampling;
  return r;
}

double offset(const cases::Member& member) { return number_of(member.values.front().value); }

} // namespace

TEST_CASE("The same seed draws the same wheels and another seed other ones") {
  for (const auto sampling : {cases::Sampling::stratified, cases::Sampling::simple}) {
    auto r = recipe(50, sampling);
    const auto first = cases::draw(r), again = cases::draw(r);
    r.seed = 2;
    const auto other = cases::draw(r);
    std::size_t equal = 0;
    for (std::size_t i = 0; i < first.members.size(); ++i) {
      CHECK(first.members[i].name == again.members[i].name);
      CHECK(first.members[i].values.front().value == again.members[i].values.front().value);
      equal += first.members[i].values.front().value == other.members[i].values.front().value ? 1 : 0;
    }
    CHECK(equal < 5);
  }
}

TEST_CASE("A stratified population has one wheel of a class in each part of equal probability") {
  const auto population = cases::draw(recipe(40, cases::Sampling::stratified));
  std::set<int> strata;
  for (const auto& member : population.members) {
    if (member.wheel_class == 1) {
      strata.insert(static_cast<int>(std::floor((number_of(member.values.back().value) - 1.0) / 2.0 * 10.0)));
    }
  }
  CHECK(strata.size() == 10); // a quarter of 40 wheels is hollow, depths from 1 to 3 mm
}

TEST_CASE("Classes keep their share of the weight however few wheels are drawn") {
  for (const std::size_t count : {2UL, 3UL, 7UL, 40UL}) {
    const auto population = cases::draw(recipe(count, cases::Sampling::stratified));
    REQUIRE(population.members.size() == count);
    double hollow = 0.0, all = 0.0;
    for (const auto& member : population.members) {
      all += member.weight;
      hollow += member.wheel_class == 1 ? member.weight : 0.0;
    }
    CHECK(all == Approx(1.0).epsilon(1e-12));
    CHECK(hollow == Approx(0.25).epsilon(1e-12));
  }
}

TEST_CASE("Drawn offsets follow their distribution and stay within its cuts") {
  const auto population = cases::draw(recipe(4000, cases::Sampling::stratified));
  double mean = 0.0, square = 0.0; // weights sum to 1
  for (const auto& member : population.members) {
    CHECK(std::abs(offset(member)) <= 5.0);
    mean += member.weight * offset(member);
    square += member.weight * offset(member) * offset(member);
  }
  // A normal distribution of standard deviation 2 cut off at 2.5 of them: mean 0, and the variance reduced by
  // 2 a phi(a) / (2 Phi(a) - 1) for a = 2.5.
  const double a = 2.5, phi = std::exp(-0.5 * a * a) / std::sqrt(2.0 * std::acos(-1.0)),
               inside = std::erf(a / std::sqrt(2.0));
  CHECK(std::abs(mean) < 0.005);
  CHECK(std::sqrt(square - mean * mean) == Approx(2.0 * std::sqrt(1.0 - 2.0 * a * phi / inside)).epsilon(0.005));
}

TEST_CASE("Drawn values have six digits, so that they are the same on every machine") {
  for (const auto& member : cases::draw(recipe(30, cases::Sampling::simple)).members) {
    const std::string text = number(offset(member));
    CHECK(std::stod(text) == offset(member));
  }
}

TEST_CASE("A distribution of a class replaces that of all classes for the same key") {
  auto r = recipe(20, cases::Sampling::stratified);
  r.classes[1].variations.push_back({"wheel.lateral_offset_mm", UniformSpread{8.0, 9.0}});
  for (const auto& member : cases::draw(r).members) {
    CHECK((offset(member) >= 8.0) == (member.wheel_class == 1));
  }
}

TEST_CASE("A choice is drawn as often as its weights say and never where its weight is 0") {
  const cases::ChoiceSpread spread{{1.0, 2.0, 3.0}, {1.0, 0.0, 3.0}};
  CHECK(number_of(cases::value_at(spread, 0.2499)) == 1.0);
  CHECK(number_of(cases::value_at(spread, 0.2501)) == 3.0);
  CHECK(number_of(cases::value_at(spread, 0.9999)) == 3.0);
}

TEST_CASE("Impossible populations are refused") {
  using cases::draw;
  auto r = recipe(1, cases::Sampling::stratified);
  CHECK_THROWS_AS(draw(r), InputError); // two classes, one wheel
  r.count = 10;
  r.classes[0].share = -1.0;
  CHECK_THROWS_AS(draw(r), InputError);
  r = recipe(10, cases::Sampling::simple);
  r.classes[1].name = "new";
  CHECK_THROWS_AS(draw(r), InputError);
  r = recipe(10, cases::Sampling::simple);
  r.variations.push_back(r.variations.front());
  CHECK_THROWS_AS(draw(r), InputError);
  r = recipe(10, cases::Sampling::simple);
  r.variations.front().spread = NormalSpread{0.0, 1.0, 100.0, 101.0};
  CHECK(has(refusal([&] { (void)draw(r); }), "lateral_offset_mm"));
  cases::Population listed;
  CHECK_THROWS_AS(cases::check(listed), InputError);
  listed.classes = {recipe(1, cases::Sampling::simple).classes.front()};
  listed.members = {{"a", 0, -1.0, {}}};
  CHECK(has(refusal([&] { cases::check(listed); }), "weight of the wheel \"a\""));
  listed.members = {{"a", 0, 0.0, {}}};
  CHECK_THROWS_AS(cases::check(listed), InputError);
}
