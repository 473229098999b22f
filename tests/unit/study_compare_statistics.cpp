// Weighted statistics, intervals and populations of wheels, on numbers small enough to check by hand.
#include "catch.hpp"

#include "wingnose/study/compare.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>

using namespace wingnose;
using study::Statistic;

namespace {

// What an error says; empty where there is none.
template <class Work> std::string refusal(const Work& work) {
  try {
    work();
  } catch (const std::runtime_error& error) {
    return error.what();
  }
  return "";
}
bool has(const std::string& text, const std::string& piece) { return text.find(piece) != std::string::npos; }

using Values = std::vector<double>;

double number_of(const io::KeyValue& value) { return std::get<double>(value); }

study::PopulationRecipe recipe(std::size_t count, study::Sampling sampling) {
  study::PopulationRecipe r;
  study::WheelClass fresh, hollow;
  fresh.name = "new";
  fresh.share = 3.0;
  hollow.name = "hollow";
  hollow.variations = {{"wheel.hollow_depth_mm", study::UniformSpread{1.0, 3.0}}};
  r.classes = {fresh, hollow};
  r.variations = {{"wheel.lateral_offset_mm", study::NormalSpread{0.0, 2.0, -5.0, 5.0}},
                  {"passage.speed_km_h", study::ChoiceSpread{{80.0, 120.0}, {1.0, 1.0}}}};
  r.count = count;
  r.sampling = sampling;
  return r;
}

double offset(const study::Member& member) { return number_of(member.values.front().value); }

} // namespace

TEST_CASE("quantiles of equal weights are those of the ordered list, halfway where the distribution is flat") {
  const Values values{4, 1, 3, 2}, equal(4, 1.0);
  CHECK(study::weighted_quantile(values, equal, 0.5) == 2.5);
  CHECK(study::weighted_quantile(values, equal, 0.25) == 1.5);
  CHECK(study::weighted_quantile(values, equal, 0.3) == 2.0);
  CHECK(study::weighted_quantile(values, equal, 0.95) == 4.0);
  CHECK(study::weighted_quantile(values, equal, 0.0) == 1.0);
  CHECK(study::weighted_quantile(values, equal, 1.0) == 4.0);
}

TEST_CASE("a wheel of weight three counts as three wheels") {
  const Values values{10, 20, 30}, weights{3, 1, 2}, repeated{10, 10, 10, 20, 30, 30}, equal(6, 1.0);
  for (const double level : {0.0, 0.1, 0.4, 0.5, 0.6, 0.7, 0.95, 1.0}) {
    CHECK(study::weighted_quantile(values, weights, level) == study::weighted_quantile(repeated, equal, level));
  }
  CHECK(study::weighted_quantile(values, weights, 0.5) == 15.0); // half of the weight lies at 10
  CHECK(study::weighted_mean(values, weights) == Approx(110.0 / 6.0).epsilon(1e-15));
  CHECK(study::weighted_deviation(values, weights) == Approx(study::weighted_deviation(repeated, equal)));
}

TEST_CASE("statistics do not change when all weights are scaled") {
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

TEST_CASE("a wheel without weight or without a value has no say") {
  const Values values{1, 2, 1000, std::nan("")}, weights{1, 1, 0, 5};
  CHECK(study::evaluate({study::Observed::p2, Statistic::Kind::quantile, 0.99, false}, values, weights) == 2.0);
  CHECK(study::evaluate({study::Observed::p2, Statistic::Kind::mean, 0.5, false}, values, weights) == 1.5);
  CHECK(std::isnan(study::evaluate({}, Values{std::nan("")}, Values{1.0})));
}

TEST_CASE("the share above zero is a share of weight") {
  const Statistic share{study::Observed::lost_contact, Statistic::Kind::share_above_zero, 0.5, false};
  CHECK(study::evaluate(share, Values{0, 0.001, 0, 0.002}, Values{1, 2, 3, 2}) == 0.5);
}

TEST_CASE("lists of unequal length are refused") {
  CHECK_THROWS_AS(study::weighted_mean(Values{1, 2}, Values{1}), InputError);
  CHECK_THROWS_AS(study::weighted_mean(Values{}, Values{}), InputError);
  CHECK_THROWS_AS(study::weighted_quantile(Values{1}, Values{1}, 1.5), InputError);
}

TEST_CASE("the same seed draws the same wheels and another seed other ones") {
  for (const auto sampling : {study::Sampling::stratified, study::Sampling::simple}) {
    auto r = recipe(50, sampling);
    const auto first = study::draw(r), again = study::draw(r);
    r.seed = 2;
    const auto other = study::draw(r);
    std::size_t equal = 0;
    for (std::size_t i = 0; i < first.members.size(); ++i) {
      CHECK(first.members[i].name == again.members[i].name);
      CHECK(first.members[i].values.front().value == again.members[i].values.front().value);
      equal += first.members[i].values.front().value == other.members[i].values.front().value ? 1 : 0;
    }
    CHECK(equal < 5);
  }
}

TEST_CASE("a stratified population has one wheel of a class in each part of equal probability") {
  const auto population = study::draw(recipe(40, study::Sampling::stratified));
  std::set<int> strata;
  for (const auto& member : population.members) {
    if (member.wheel_class == 1) {
      strata.insert(static_cast<int>(std::floor((number_of(member.values.back().value) - 1.0) / 2.0 * 10.0)));
    }
  }
  CHECK(strata.size() == 10); // a quarter of 40 wheels is hollow, depths from 1 to 3 mm
}

TEST_CASE("classes keep their share of the weight however few wheels are drawn") {
  for (const std::size_t count : {2UL, 3UL, 7UL, 40UL}) {
    const auto population = study::draw(recipe(count, study::Sampling::stratified));
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

TEST_CASE("drawn offsets follow their distribution and stay within its cuts") {
  const auto population = study::draw(recipe(4000, study::Sampling::stratified));
  Values offsets, weights;
  for (const auto& member : population.members) {
    CHECK(std::abs(offset(member)) <= 5.0);
    offsets.push_back(offset(member));
    weights.push_back(member.weight);
  }
  // A normal distribution of standard deviation 2 cut off at 2.5 of them: mean 0, and the variance reduced by
  // 2 a phi(a) / (2 Phi(a) - 1) for a = 2.5.
  const double a = 2.5, phi = std::exp(-0.5 * a * a) / std::sqrt(2.0 * std::acos(-1.0)),
               inside = std::erf(a / std::sqrt(2.0));
  CHECK(std::abs(study::weighted_mean(offsets, weights)) < 0.005);
  CHECK(study::weighted_deviation(offsets, weights) ==
        Approx(2.0 * std::sqrt(1.0 - 2.0 * a * phi / inside)).epsilon(0.005));
}

TEST_CASE("drawn values have six digits, so that they are the same on every machine") {
  for (const auto& member : study::draw(recipe(30, study::Sampling::simple)).members) {
    const std::string text = number(offset(member));
    CHECK(std::stod(text) == offset(member));
  }
}

TEST_CASE("a distribution of a class replaces that of all classes for the same key") {
  auto r = recipe(20, study::Sampling::stratified);
  r.classes[1].variations.push_back({"wheel.lateral_offset_mm", study::UniformSpread{8.0, 9.0}});
  for (const auto& member : study::draw(r).members) {
    CHECK((offset(member) >= 8.0) == (member.wheel_class == 1));
  }
}

TEST_CASE("a choice is drawn as often as its weights say and never where its weight is 0") {
  const study::ChoiceSpread spread{{1.0, 2.0, 3.0}, {1.0, 0.0, 3.0}};
  CHECK(number_of(study::value_at(spread, 0.2499)) == 1.0);
  CHECK(number_of(study::value_at(spread, 0.2501)) == 3.0);
  CHECK(number_of(study::value_at(spread, 0.9999)) == 3.0);
}

TEST_CASE("impossible populations are refused") {
  using study::draw;
  auto r = recipe(1, study::Sampling::stratified);
  CHECK_THROWS_AS(draw(r), InputError); // two classes, one wheel
  r.count = 10;
  r.classes[0].share = -1.0;
  CHECK_THROWS_AS(draw(r), InputError);
  r = recipe(10, study::Sampling::simple);
  r.classes[1].name = "new";
  CHECK_THROWS_AS(draw(r), InputError);
  r = recipe(10, study::Sampling::simple);
  r.variations.push_back(r.variations.front());
  CHECK_THROWS_AS(draw(r), InputError);
  r = recipe(10, study::Sampling::simple);
  r.variations.front().spread = study::NormalSpread{0.0, 1.0, 100.0, 101.0};
  CHECK(has(refusal([&] { (void)draw(r); }), "lateral_offset_mm"));
  study::Population listed;
  CHECK_THROWS_AS(study::check(listed), InputError);
  listed.classes = {recipe(1, study::Sampling::simple).classes.front()};
  listed.members = {{"a", 0, -1.0, {}}};
  CHECK(has(refusal([&] { study::check(listed); }), "weight of the wheel \"a\""));
  listed.members = {{"a", 0, 0.0, {}}};
  CHECK_THROWS_AS(study::check(listed), InputError);
}
