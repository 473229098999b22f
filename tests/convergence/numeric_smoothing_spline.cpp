#include "catch.hpp"

#include "wingnose/numeric/smoothing_spline.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

using namespace wingnose;

TEST_CASE(
    "Through points without noise the spline converges with the fourth order in value and the second in curvature") {
  // sin x on [0, pi] has no second derivative at its ends, as the spline has none
  const double pi = std::acos(-1.0);
  std::vector<double> value, second;
  for (const std::size_t n : {21u, 41u, 81u}) {
    std::vector<double> x, y;
    const std::vector<double> sigma(n, 1e-13);
    for (std::size_t i = 0; i < n; ++i) {
      x.push_back(pi * static_cast<double>(i) / static_cast<double>(n - 1));
      y.push_back(std::sin(x.back()));
    }
    const auto s = numeric::smoothing_spline(x, y, sigma);
    double worst = 0.0, worst_second = 0.0;
    for (double t = 0.0; t <= pi; t += 1e-3) {
      const auto p = numeric::evaluate(s, t);
      worst = std::max(worst, std::abs(p.value - std::sin(t)));
      worst_second = std::max(worst_second, std::abs(p.second + std::sin(t)));
    }
    value.push_back(worst);
    second.push_back(worst_second);
  }
  for (std::size_t k = 1; k < value.size(); ++k) {
    CHECK(std::log2(value[k - 1] / value[k]) == Approx(4.0).epsilon(0).margin(0.15));
    CHECK(std::log2(second[k - 1] / second[k]) == Approx(2.0).epsilon(0).margin(0.15));
  }
}
