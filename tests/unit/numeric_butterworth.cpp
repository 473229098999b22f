#include "catch.hpp"

#include "wingnose/numeric/butterworth.hpp"

#include <cmath>
#include <numbers>

using namespace wingnose::numeric;

namespace {
constexpr double pi = std::numbers::pi, step = 1e-4;

// Of the bilinear transform with the cut-off pre-warped: |H|^2 = 1 / (1 + r^2n), r the ratio of the warped frequencies.
double amplitude(int order, double f, double cut_off, bool low) {
  const double r = std::tan(pi * f * step) / std::tan(pi * cut_off * step);
  return 1.0 / std::sqrt(1.0 + std::pow(low ? r : 1.0 / r, 2 * order));
}

std::vector<double> sine(double f, double seconds) {
  std::vector<double> x;
  for (int i = 0; i * step < seconds; ++i) {
    x.push_back(std::sin(2 * pi * f * i * step));
  }
  return x;
}
double largest(const std::vector<double>& x, std::size_t from) {
  double most = 0.0;
  for (std::size_t i = from; i < x.size(); ++i) {
    most = std::max(most, std::abs(x[i]));
  }
  return most;
}
} // namespace

TEST_CASE("Butterworth filters have their closed-form amplitude at any frequency and order") {
  for (int order = 1; order <= 8; ++order) {
    for (const double cut_off : {2.0, 150.0, 3000.0}) {
      for (const double f : {1.0, 70.0, 150.0, 900.0, 4000.0}) {
        INFO("order " << order << ", cut-off " << cut_off << " Hz, at " << f << " Hz");
        CHECK(std::abs(response(low_pass(order, cut_off, step), f, step)) ==
              Approx(amplitude(order, f, cut_off, true)).epsilon(1e-6).margin(1e-9));
        CHECK(std::abs(response(high_pass(order, cut_off, step), f, step)) ==
              Approx(amplitude(order, f, cut_off, false)).epsilon(1e-6).margin(1e-9));
      }
    }
  }
}

TEST_CASE("A filter run over a sine leaves what its response says, once and both ways") {
  const double f = 120.0, cut_off = 150.0;
  for (const Filter& filter : {low_pass(4, cut_off, step), high_pass(3, cut_off, step)}) {
    std::vector<double> once = sine(f, 0.5);
    const double gain = std::abs(response(filter, f, step));
    const std::vector<double> both = run_both_ways(filter, once, 200);
    run(filter, once);
    CHECK(largest(once, once.size() / 2) == Approx(gain).epsilon(2e-3));
    const std::vector<double> middle(both.begin() + 1500, both.begin() + 3500);
    CHECK(largest(middle, 0) == Approx(gain * gain).epsilon(2e-3));
  }
}

TEST_CASE("What was constant before a record begins passes a low-pass and not a high-pass") {
  for (int order = 1; order <= 8; ++order) {
    std::vector<double> low(500, 0.37), high(500, 0.37);
    run(low_pass(order, 20.0, step), low);
    run(high_pass(order, 20.0, step), high);
    CHECK(low.back() == Approx(0.37).epsilon(1e-9));
    CHECK(largest(high, 0) < 1e-9);
  }
}
