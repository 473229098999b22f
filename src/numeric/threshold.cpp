#include "wingnose/numeric/threshold.hpp"

#include "wingnose/words/error.hpp"

#include <boost/math/tools/roots.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace wingnose::numeric {
namespace {

// The highest place between `keeps` and `exceeds` that still keeps. A quantity may rest on its threshold over a
// stretch; shifting the kept side down a little keeps such a stretch from being taken for the root.
double refine(double keeps, double exceeds, double at_keeps, double at_exceeds,
              const std::function<double(double)>& excess_at, double tolerance) {
  const double shift = 1e-6 * at_exceeds;
  const auto shifted = [&](double e) { return e > 0.0 ? e : std::min(e, -shift); };
  const auto close = [tolerance](double a, double b) { return std::abs(b - a) <= tolerance; };
  if (close(keeps, exceeds)) {
    return keeps;
  }
  std::uintmax_t evaluations = 200;
  // Every place left behind below the bracket kept, every one above exceeded.
  return boost::math::tools::toms748_solve([&](double x) { return shifted(excess_at(x)); }, keeps, exceeds,
                                           shifted(at_keeps), at_exceeds, close, evaluations)
      .first;
}

} // namespace

std::vector<double> scan(double from, double to, double step, std::span<const std::optional<double>> also,
                         double same) {
  std::vector<double> places;
  const auto steps = static_cast<std::size_t>(std::ceil((to - from) / step - 1e-9));
  for (std::size_t i = 0; i < steps; ++i) {
    places.push_back(from + static_cast<double>(i) * step);
  }
  places.push_back(to);
  for (const auto& extra : also) {
    if (extra && std::none_of(places.begin(), places.end(), [&](double x) { return std::abs(x - *extra) <= same; })) {
      places.push_back(*extra);
    }
  }
  std::sort(places.begin(), places.end());
  return places;
}

Threshold first_exceedance(std::span<const double> x, std::span<const double> excess,
                           const std::function<double(double)>& excess_at, double tolerance) {
  if (x.empty() || x.size() != excess.size() ||
      std::adjacent_find(x.begin(), x.end(), std::greater_equal<>()) != x.end()) {
    throw InputError("samples", std::to_string(x.size()), "one value for each of at least one rising place",
                     "Sort the places and give each its value.");
  }
  const auto exceeded = [](double e) { return e > 0.0; };
  const auto first = static_cast<std::size_t>(std::find_if(excess.begin(), excess.end(), exceeded) - excess.begin());
  Threshold t;
  if (first == excess.size()) {
    return t;
  }
  t.first_exceeding = x[first];
  for (std::size_t i = first; i < excess.size(); ++i) {
    if (!exceeded(excess[i])) {
      if (exceeded(excess[i - 1])) {
        t.kept_again.push_back({x[i], x[i]});
      }
      t.kept_again.back().to = x[i];
    }
  }
  if (first > 0) {
    t.kept_up_to = refine(x[first - 1], x[first], excess[first - 1], excess[first], excess_at, tolerance);
  }
  return t;
}

} // namespace wingnose::numeric
