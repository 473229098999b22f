// The law of one contact in the few numbers that a time step needs.
#include "catch.hpp"

#include "wingnose/contact/normal/force_law.hpp"
#include "wingnose/words/error.hpp"

#include <array>
#include <cmath>
#include <random>
#include <vector>

using namespace wingnose;
using contact::ForceLaw;

namespace {

constexpr double reach = 0.55e-3;
const std::vector<double> depth{15e-6, 25e-6, 42e-6, 70e-6, 118e-6, 198e-6, 333e-6, 550e-6};

std::vector<double> forces(const auto& law) {
  std::vector<double> f;
  f.reserve(depth.size());
  for (const double d : depth) {
    f.push_back(law(d));
  }
  return f;
}

double hertz(double stiffness, double d) { return d > 0.0 ? stiffness * d * std::sqrt(d) : 0.0; }

} // namespace

TEST_CASE("A law fitted to Hertz's force has Hertz's stiffness alone") {
  const ForceLaw law = contact::fit_force_law(depth, forces([](double d) { return hertz(9.4e10, d); }), reach);
  CHECK(law.c0 == Approx(9.4e10).epsilon(1e-9));
  CHECK(law.c1 * std::sqrt(reach) == Approx(0.0).margin(1e-9 * law.c0));
  CHECK(law.c2 * reach == Approx(0.0).margin(1e-9 * law.c0));
}

TEST_CASE("Stiffness is the derivative of force, within and beyond the reach") {
  const ForceLaw law{5e10, 2e12, -3e13};
  for (const double d : {1e-6, 5e-5, 3e-4, 5.4e-4, 7e-4}) {
    const double h = 1e-5 * d;
    const double slope = (law.at(d + h, reach).force - law.at(d - h, reach).force) / (2.0 * h);
    CHECK(law.at(d, reach).stiffness == Approx(slope).epsilon(1e-8));
  }
  CHECK(law.at(0.0).force == 0.0);
  CHECK(law.at(-1e-4).force == 0.0);
  CHECK(law.at(-std::numeric_limits<double>::infinity()).stiffness == 0.0);
  CHECK(law.at(reach + 1e-9, reach).force == Approx(law.at(reach, reach).force).epsilon(1e-5));
}

TEST_CASE("Every fit is convex, also to forces that are not") {
  std::mt19937 dice(7);
  std::uniform_real_distribution<double> any(0.0, 1.0);
  for (int k = 0; k < 500; ++k) {
    // A second patch that closes suddenly, noise, forces that even fall.
    const double first = 1e10 + 1e11 * any(dice), second = 2e11 * any(dice), gap = 3e-4 * any(dice), noise = any(dice);
    const auto f = forces(
        [&](double d) { return (hertz(first, d) + hertz(second, d - gap)) * (1.0 + noise * (any(dice) - 0.5)); });
    const ForceLaw law = contact::fit_force_law(depth, f, reach);
    double last = 0.0, before = 0.0;
    for (int i = 1; i <= 400; ++i) {
      const auto value = law.at(2e-6 * i, reach);
      CAPTURE(k, i);
      REQUIRE(value.force >= last);
      REQUIRE(value.stiffness >= before * (1.0 - 1e-9));
      last = value.force;
      before = value.stiffness;
    }
    CHECK(last > 0.0);
  }
}

TEST_CASE("A second patch that closes at 30 um is followed closer by three terms than by Hertz's one") {
  const auto two = [](double d) { return hertz(5e10, d) + hertz(6e10, d - 30e-6); };
  const ForceLaw law = contact::fit_force_law(depth, forces(two), reach);
  double stiffness = 0.0; // the one term nearest in the same sense: mean of F / d^1.5
  for (const double d : depth) {
    stiffness += two(d) / hertz(1.0, d) / static_cast<double>(depth.size());
  }
  double worst = 0.0, worst_of_one = 0.0;
  for (double d = 40e-6; d < 3e-4; d += 5e-6) {
    worst = std::max(worst, std::abs(law.at(d).force / two(d) - 1.0));
    worst_of_one = std::max(worst_of_one, std::abs(hertz(stiffness, d) / two(d) - 1.0));
  }
  CAPTURE(worst, worst_of_one);
  CHECK(worst < 0.20); // what the header promises
  CHECK(worst < 0.25 * worst_of_one);
}

TEST_CASE("The depth for a force carries that force") {
  for (const ForceLaw law : {ForceLaw{9.4e10}, ForceLaw{5e10, 2e12, -3e13}}) {
    for (const double force : {1.0, 1e3, 9e4, 4e5, 5e6}) {
      CHECK(law.at(contact::depth_for_force(law, force, reach), reach).force == Approx(force).epsilon(1e-9));
    }
    CHECK(contact::depth_for_force(law, 0.0) == 0.0);
  }
}

TEST_CASE("Laws that cannot be, and forces that pull, are refused") {
  const std::array<double, 2> few{1e-5, 1e-4}, none{0.0, 0.0};
  CHECK_THROWS_AS(contact::fit_force_law(few, none, reach), InputError);
  CHECK_THROWS_AS(contact::fit_force_law(depth, std::vector<double>(depth.size(), 0.0), reach), InputError);
  CHECK_THROWS_AS(contact::depth_for_force(ForceLaw{9e10}, -1.0), InputError);
  CHECK_THROWS_AS(contact::depth_for_force(ForceLaw{}, 1.0), InputError);
}
