// Roots and minima of a function of one variable inside a known interval: Boost.Math with the settings and the refusals
// every room needs alike.
#pragma once

#include "wingnose/words/error.hpp"

#include <boost/math/tools/minima.hpp>
#include <boost/math/tools/roots.hpp>

#include <cmath>
#include <cstdint>
#include <limits>
#include <string>
#include <utility>

namespace wingnose::numeric {

// The root of f in [low, high], to an absolute tolerance in x (Alefeld, Potra, Shi 1995, "algorithm 748",
// doi:10.1145/210089.210111). f must have different signs at the ends. Throws ComputeError with `what` in the sentence
// when it has not or is not finite there.
template <class F>
[[nodiscard]] double root_in(F&& f, double low, double high, double tolerance, const std::string& what) {
  const double f_low = f(low), f_high = f(high);
  if (f_low == 0.0) {
    return low;
  }
  if (f_high == 0.0) {
    return high;
  }
  if (!std::isfinite(f_low) || !std::isfinite(f_high) || (f_low > 0.0) == (f_high > 0.0)) {
    throw ComputeError(what + " has no solution between " + number(low) + " and " + number(high) +
                       "; check the inputs it depends on.");
  }
  std::uintmax_t iterations = 100;
  const auto close = [tolerance](double a, double b) { return std::abs(b - a) <= tolerance; };
  const auto [a, b] = boost::math::tools::toms748_solve(f, low, high, f_low, f_high, close, iterations);
  if (!close(a, b) && f(a) != 0.0 && std::nextafter(a, b) != b) {
    throw ComputeError(what + " was not found to the accuracy asked for; check the inputs it depends on.");
  }
  return 0.5 * (a + b);
}

struct Minimum {
  double at, value;
};

// A local minimum of f in [low, high] (Brent 1973). Accurate to about 1e-8 of |at| + (high - low), as the value at a
// minimum hardly changes; unique if f has one minimum there.
template <class F> [[nodiscard]] Minimum minimum_in(F&& f, double low, double high) {
  const auto [at, value] = boost::math::tools::brent_find_minima(f, low, high, std::numeric_limits<double>::digits / 2);
  return {at, value};
}

} // namespace wingnose::numeric
