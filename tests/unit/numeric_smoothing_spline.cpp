#include "catch.hpp"

#include "wingnose/numeric/roots.hpp"
#include "wingnose/numeric/smoothing_spline.hpp"
#include "wingnose/words/error.hpp"

#include <cmath>
#include <string>
#include <vector>

using namespace wingnose;
using numeric::evaluate;
using numeric::smoothing_spline;

namespace {

std::string refusal(std::vector<double> x, std::vector<double> y, std::vector<double> sigma,
                    std::vector<double> freedom = {}) {
  try {
    (void)smoothing_spline(x, y, sigma, freedom);
  } catch (const InputError& e) {
    return e.what();
  }
  return "accepted";
}

bool says(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

} // namespace

TEST_CASE("Beyond its points a smoothing spline goes on straight") {
  const std::vector<double> x{0, 1, 2.5, 3, 4.5, 6}, y{0, 1, 0, 2, 1, 3}, sigma(6, 0.05);
  const auto s = smoothing_spline(x, y, sigma);
  const auto end = evaluate(s, 6.0), beyond = evaluate(s, 8.0);
  CHECK(beyond.value == Approx(end.value + 2.0 * end.slope).epsilon(1e-12));
  CHECK(beyond.slope == Approx(end.slope).epsilon(1e-12));
  CHECK(beyond.second == 0.0);
  CHECK(evaluate(s, 6.0 - 1e-9).second == Approx(0.0).epsilon(0).margin(1e-6));
  CHECK(evaluate(s, -1.0).value == Approx(evaluate(s, 0.0).value - evaluate(s, 0.0).slope).epsilon(1e-12));
}

TEST_CASE("Points that cannot be smoothed are refused with their number") {
  const std::vector<double> x{0, 1, 2, 3}, y{0, 1, 0, 1}, s{0.1, 0.1, 0.1, 0.1};
  CHECK(refusal(x, y, s) == "accepted");
  CHECK(says(refusal(x, {0, 1, 0}, s), "equal numbers"));
  CHECK(says(refusal({0, 1, 2}, {0, 1, 0}, {1, 1, 1}), "at least 4"));
  CHECK(says(refusal({0, 1, 1, 3}, y, s), "point 3"));
  CHECK(says(refusal(x, {0, 1, NAN, 1}, s), "point 3"));
  CHECK(says(refusal(x, y, {0.1, 0.0, 0.1, 0.1}), "point 2"));
  CHECK(says(refusal(x, y, s, {1, 1, 1, -1}), "point 4"));
}

TEST_CASE("A root is found to the accuracy asked for, and a missing root is said to be missing") {
  const double root = numeric::root_in([](double x) { return x * x * x - 2.0; }, 0.0, 2.0, 1e-14, "the cube root");
  CHECK(root == Approx(std::cbrt(2.0)).epsilon(1e-14));
  CHECK(numeric::root_in([](double x) { return x; }, 0.0, 1.0, 1e-12, "zero") == 0.0);
  try {
    (void)numeric::root_in([](double x) { return x * x + 1.0; }, -1.0, 1.0, 1e-12, "the crossing");
    FAIL("no root exists");
  } catch (const ComputeError& e) {
    CHECK(says(e.what(), "the crossing has no solution between"));
  }
}

TEST_CASE("A minimum is found where the function turns") {
  const auto m = numeric::minimum_in([](double x) { return (x - 0.3) * (x - 0.3) + 2.0; }, -1.0, 1.0);
  CHECK(m.at == Approx(0.3).epsilon(0).margin(1e-7));
  CHECK(m.value == Approx(2.0).epsilon(1e-14));
}
