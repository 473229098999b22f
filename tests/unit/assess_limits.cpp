// Which speeds keep a limit, on invented numbers.
#include "catch.hpp"

#include "wingnose/assess/limits.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

using namespace wingnose;
using namespace wingnose::assess;

namespace {

using Outcome = LimitOutcome;
using Maybe = std::optional<double>;

const std::vector<double> speeds{10.0, 20.0, 30.0, 40.0, 50.0};

template <class F>
LimitAnswer solve(F f, const Limit& limit, double tolerance = 1e-3, const std::vector<double>& scanned = speeds) {
  std::vector<Maybe> values;
  for (const double v : scanned) {
    values.push_back(f(v));
  }
  return solve_limit(
      scanned, values, limit, [&](double v) { return Maybe(f(v)); }, tolerance);
}

} // namespace

TEST_CASE("The speed of a limit is found where the force crosses it, on the keeping side") {
  const auto rising = [](double v) { return 0.1 * v * v; };
  const LimitAnswer a = solve(rising, {120.0});
  REQUIRE(a.outcome == Outcome::found);
  CHECK(*a.speed == Approx(std::sqrt(1200.0)).margin(1e-3));
  CHECK(rising(*a.speed) <= 120.0);
  CHECK(*a.first_broken == 40.0);
  CHECK(a.kept_again.empty());
}

TEST_CASE("A limit met exactly is kept") {
  const LimitAnswer a = solve([](double v) { return v; }, {30.0});
  REQUIRE(a.outcome == Outcome::found);
  CHECK(*a.speed == Approx(30.0).margin(1e-3));
  CHECK(*a.first_broken == 40.0);
}

TEST_CASE("A limit above all forces is not reached, one below the lowest is broken there already") {
  const auto rising = [](double v) { return v; };
  const LimitAnswer high = solve(rising, {51.0});
  CHECK(high.outcome == Outcome::not_reached);
  CHECK_FALSE(high.speed);
  CHECK_FALSE(high.first_broken);
  const LimitAnswer low = solve(rising, {9.0});
  CHECK(low.outcome == Outcome::broken_at_lowest);
  CHECK_FALSE(low.speed);
  CHECK(*low.first_broken == 10.0);
}

TEST_CASE("Where forces fall again with speed the first break counts and the speeds kept again are told") {
  // 10 kN at most at 10 and 15 m/s, exceeded from about 20, kept from 30 to 40, exceeded at 50.
  const auto wavy = [](double v) { return v < 25.0 ? 0.6 * v : (v < 45.0 ? 5.0 : 12.0); };
  const LimitAnswer a = solve(wavy, {10.0});
  REQUIRE(a.outcome == Outcome::found);
  CHECK(*a.speed == Approx(10.0 / 0.6).margin(1e-3));
  REQUIRE(a.kept_again.size() == 1);
  CHECK(a.kept_again[0].from == 30.0);
  CHECK(a.kept_again[0].to == 40.0);
  SECTION("also when the lowest speed breaks the limit") {
    const std::vector<double> from_20(speeds.begin() + 1, speeds.end());
    const LimitAnswer b = solve(wavy, {10.0}, 1e-3, from_20);
    CHECK(b.outcome == Outcome::broken_at_lowest);
    REQUIRE(b.kept_again.size() == 1);
    CHECK(b.kept_again[0].from == 30.0);
  }
}

TEST_CASE("No loss of contact at all is a limit like others, although contact time rests at zero below it") {
  const auto onset = [](double v) { return std::max(0.0, v - 33.3) * 1e-4; };
  const LimitAnswer a = solve(onset, {0.0});
  REQUIRE(a.outcome == Outcome::found);
  CHECK(*a.speed == Approx(33.3).margin(1e-3));
  CHECK(onset(*a.speed) == 0.0);
}

TEST_CASE("A least force must not be fallen short of") {
  const LimitAnswer a = solve([](double v) { return 100.0 - v; }, {.value = 65.0, .at_least = true});
  REQUIRE(a.outcome == Outcome::found);
  CHECK(*a.speed == Approx(35.0).margin(1e-3));
}

TEST_CASE("A jump of the measure between two speeds is closed in from the keeping side") {
  const auto jump = [](double v) { return v <= 27.0 ? 1.0 : 100.0; };
  const LimitAnswer a = solve(jump, {50.0});
  REQUIRE(a.outcome == Outcome::found);
  CHECK(*a.speed <= 27.0);
  CHECK(*a.speed == Approx(27.0).margin(1e-3));
}

TEST_CASE("Speeds without a first peak keep a limit on it") {
  const std::vector<Maybe> values{std::nullopt, std::nullopt, 100.0, 200.0, 300.0};
  const auto at = [](double v) { return v < 30.0 ? Maybe() : Maybe(10.0 * v - 200.0); };
  const LimitAnswer a = solve_limit(speeds, values, {150.0}, at, 1e-3);
  REQUIRE(a.outcome == Outcome::found);
  CHECK(*a.speed == Approx(35.0).margin(1e-3));
}

TEST_CASE("Speeds out of order and values that are no numbers are refused") {
  const std::vector<double> unordered{2.0, 1.0};
  const std::vector<Maybe> two{1.0, 2.0}, bad{1.0, std::numeric_limits<double>::quiet_NaN()};
  const auto at = [](double) { return Maybe(1.0); };
  CHECK_THROWS_AS(solve_limit(unordered, two, {1.0}, at, 1e-3), InputError);
  CHECK_THROWS_AS(solve_limit(speeds, two, {1.0}, at, 1e-3), InputError);
  CHECK_THROWS_AS(solve_limit({}, {}, {1.0}, at, 1e-3), InputError);
  const std::vector<double> ordered{1.0, 2.0};
  CHECK_THROWS_AS(solve_limit(ordered, bad, {1.0}, at, 1e-3), ComputeError);
}

TEST_CASE("The lowest speed over all limits governs, and a limit broken at the lowest speed governs everything") {
  LimitAnswer never, slow, fast, broken;
  slow.outcome = fast.outcome = Outcome::found;
  slow.speed = 30.0;
  fast.speed = 40.0;
  broken.outcome = Outcome::broken_at_lowest;
  const std::vector<LimitAnswer> usual{never, fast, slow};
  CHECK(*verdict(usual).speed == 30.0);
  CHECK(*verdict(usual).governs == 2);
  const std::vector<LimitAnswer> none{fast, broken};
  CHECK(verdict(none).outcome == Outcome::broken_at_lowest);
  CHECK_FALSE(verdict(none).speed);
  CHECK(*verdict(none).governs == 1);
  const std::vector<LimitAnswer> free{never};
  CHECK(verdict(free).outcome == Outcome::not_reached);
  CHECK_FALSE(verdict(free).governs);
}

TEST_CASE("A value that stands for a broken limit breaks it, whatever the limit") {
  for (const double value : {0.0, 1e-9, 150e3}) {
    CHECK(broken_value({value}) > value);
  }
  CHECK(broken_value({.value = 30e3, .at_least = true}) < 30e3);
}

TEST_CASE("A closed form is told to be lenient only where it permits noticeably more than the passages") {
  LimitAnswer a;
  a.outcome = Outcome::found;
  a.speed = 30.0;
  a.estimates = {{"derived", 30.1}, {"static load too high", std::nullopt}};
  const SpeedInterval scanned{20.0, 50.0};
  CHECK(lenient_closed_forms(a, scanned).empty());
  CHECK(sentence(a, scanned).find("more than the passages allow") == std::string::npos);
  a.estimates.front().speed = 31.0;
  REQUIRE(lenient_closed_forms(a, scanned).size() == 1);
  CHECK(lenient_closed_forms(a, scanned).front().what.find("only up to 108 km/h") != std::string::npos);
  CHECK(sentence(a, scanned).find("more than the passages allow") != std::string::npos);
  a.outcome = Outcome::not_reached; // nothing the closed form could allow beyond
  CHECK(lenient_closed_forms(a, scanned).empty());
}
