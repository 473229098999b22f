// What a smoothing spline must satisfy whatever the points are.
#include "catch.hpp"

#include "wingnose/numeric/smoothing_spline.hpp"

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

using namespace wingnose;
using numeric::evaluate;
using numeric::smoothing_spline;

namespace {

struct Points {
  std::vector<double> x, y, sigma;
};

std::vector<double> uneven(std::size_t n, double from, double to, unsigned seed) {
  std::mt19937_64 random(seed);
  std::uniform_real_distribution<double> step(0.05, 1.95);
  std::vector<double> x{0.0};
  while (x.size() < n) {
    x.push_back(x.back() + step(random));
  }
  const double scale = (to - from) / x.back();
  for (double& v : x) {
    v = from + v * scale;
  }
  return x;
}

template <class F> Points noisy(F&& f, std::size_t n, double from, double to, double noise, unsigned seed) {
  Points p{uneven(n, from, to, seed), {}, std::vector<double>(n, noise)};
  std::mt19937_64 random(seed + 1);
  std::normal_distribution<double> normal(0.0, noise);
  for (const double x : p.x) {
    p.y.push_back(f(x) + normal(random));
  }
  return p;
}

} // namespace

TEST_CASE("A straight line passes a smoothing spline unchanged, at any spacing and any stated noise") {
  Points p = noisy([](double x) { return 3.0 - 0.5 * x; }, 200, -2.0, 5.0, 1e-300, 3);
  for (const double noise : {1e-9, 1e-3, 10.0}) {
    p.sigma.assign(p.x.size(), noise);
    const auto s = smoothing_spline(p.x, p.y, p.sigma);
    for (double x = -2.0; x <= 5.0; x += 0.01) {
      CHECK(evaluate(s, x).value == Approx(3.0 - 0.5 * x).epsilon(0).margin(1e-12));
      CHECK(evaluate(s, x).second == Approx(0.0).epsilon(0).margin(1e-9));
    }
  }
}

TEST_CASE("The residuals of a smoothing spline are as large as the stated noise") {
  for (const double noise : {1e-4, 1e-2, 0.2}) {
    const auto p = noisy([](double x) { return std::sin(3.0 * x) + x * x; }, 400, 0.0, 4.0, noise, 11);
    const auto s = smoothing_spline(p.x, p.y, p.sigma);
    double sum = 0.0;
    for (std::size_t i = 0; i < p.x.size(); ++i) {
      sum += std::pow((evaluate(s, p.x[i]).value - p.y[i]) / noise, 2);
    }
    CHECK(std::sqrt(sum / 400.0) == Approx(1.0).epsilon(1e-6));
    CHECK(s.residual_rms == Approx(1.0).epsilon(1e-6));
  }
}

TEST_CASE("With vanishing noise a smoothing spline goes through its points and reproduces a cubic away from the ends") {
  const auto cubic = [](double x) { return 1.0 + x * (2.0 + x * (-1.5 + 0.5 * x)); };
  const auto p = noisy(cubic, 300, 0.0, 3.0, 1e-11, 5);
  const auto s = smoothing_spline(p.x, p.y, p.sigma);
  for (std::size_t i = 0; i < p.x.size(); ++i) {
    CHECK(evaluate(s, p.x[i]).value == Approx(p.y[i]).epsilon(0).margin(1e-9));
  }
  for (double x = 0.6; x < 2.4; x += 0.01) { // the ends are straight by construction, the cubic is not
    CHECK(evaluate(s, x).value == Approx(cubic(x)).epsilon(0).margin(1e-9));
    CHECK(evaluate(s, x).second == Approx(-3.0 + 3.0 * x).epsilon(0).margin(2e-4));
  }
}

TEST_CASE("Value, slope and second derivative of a smoothing spline are continuous, with and without freedom to bend") {
  const auto p = noisy([](double x) { return std::tanh(6.0 * x); }, 150, -1.0, 1.0, 1e-3, 21);
  std::vector<double> freedom;
  for (const double x : p.x) {
    freedom.push_back(0.1 + std::exp(-20.0 * x * x));
  }
  for (const auto& rho : {std::vector<double>{}, freedom}) {
    const auto s = smoothing_spline(p.x, p.y, p.sigma, rho);
    for (std::size_t k = 1; k + 1 < p.x.size(); ++k) {
      const double h = 1e-12;
      const auto left = evaluate(s, p.x[k] - h), right = evaluate(s, p.x[k] + h);
      CHECK(left.value == Approx(right.value).epsilon(0).margin(1e-10));
      CHECK(left.slope == Approx(right.slope).epsilon(0).margin(1e-8));
      CHECK(left.second == Approx(right.second).epsilon(0).margin(1e-6));
    }
  }
}

TEST_CASE("Only ratios of the freedom to bend matter, and equal freedom changes nothing") {
  const auto p = noisy([](double x) { return std::cos(2.0 * x); }, 120, 0.0, 3.0, 1e-3, 8);
  const auto plain = smoothing_spline(p.x, p.y, p.sigma);
  for (const double level : {1e-4, 1.0, 1e6}) {
    const auto s = smoothing_spline(p.x, p.y, p.sigma, std::vector<double>(p.x.size(), level));
    for (double x = 0.0; x <= 3.0; x += 0.05) {
      CHECK(evaluate(s, x).value == Approx(evaluate(plain, x).value).epsilon(0).margin(1e-9));
    }
  }
}

TEST_CASE("Smoothing commutes with a change of units and with mirroring") {
  const auto p = noisy([](double x) { return std::sin(2.0 * x); }, 180, 0.0, 3.0, 2e-3, 31);
  const auto s = smoothing_spline(p.x, p.y, p.sigma);
  Points mm = p, mirrored = p;
  const std::size_t n = p.x.size();
  for (std::size_t i = 0; i < n; ++i) {
    mm.x[i] *= 1e-3;
    mm.y[i] *= 1e-3;
    mm.sigma[i] *= 1e-3;
    mirrored.x[i] = -p.x[n - 1 - i];
    mirrored.y[i] = p.y[n - 1 - i];
  }
  const auto t = smoothing_spline(mm.x, mm.y, mm.sigma), u = smoothing_spline(mirrored.x, mirrored.y, mirrored.sigma);
  for (double x = 0.05; x < 3.0; x += 0.05) {
    const double second = evaluate(s, x).second;
    CHECK(evaluate(t, x * 1e-3).value * 1e3 == Approx(evaluate(s, x).value).epsilon(0).margin(1e-9));
    CHECK(evaluate(t, x * 1e-3).second * 1e-3 == Approx(second).epsilon(0).margin(1e-5));
    CHECK(evaluate(u, -x).value == Approx(evaluate(s, x).value).epsilon(0).margin(1e-9));
    CHECK(evaluate(u, -x).second == Approx(second).epsilon(0).margin(1e-5));
  }
}

TEST_CASE("Every point pulls the smoothing spline as a spring of stiffness 1 / noise^2 would bend a beam") {
  // necessary and sufficient for the minimum: the jump of (g'' / rho)' at a point is the residual over noise squared,
  // times one and the same factor at all points
  auto p = noisy([](double x) { return std::tanh(5.0 * x); }, 80, -1.0, 1.0, 5e-3, 77);
  std::vector<double> rho;
  for (std::size_t i = 0; i < p.x.size(); ++i) {
    p.sigma[i] *= i % 3 == 0 ? 2.0 : 1.0;
    rho.push_back(i % 2 == 0 ? 1.0 : 3.0);
  }
  for (const bool free : {false, true}) {
    const auto s = smoothing_spline(p.x, p.y, p.sigma, free ? rho : std::vector<double>{});
    const auto bent = [&](std::size_t i) { return evaluate(s, p.x[i]).second / (free ? rho[i] : 1.0); };
    double factor = 0.0;
    for (std::size_t i = 1; i + 1 < p.x.size(); ++i) {
      const double jump =
          (bent(i + 1) - bent(i)) / (p.x[i + 1] - p.x[i]) - (bent(i) - bent(i - 1)) / (p.x[i] - p.x[i - 1]);
      const double pull = (p.y[i] - evaluate(s, p.x[i]).value) / (p.sigma[i] * p.sigma[i]);
      if (i == 1) {
        factor = jump / pull;
      }
      CHECK(factor > 0.0);
      CHECK(jump == Approx(factor * pull).epsilon(1e-6).margin(1e-6 * factor / p.sigma[1]));
    }
  }
}
