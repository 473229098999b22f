// Which speeds keep a limit: no physics here.
#include "wingnose/study/speeds.hpp"

#include "wingnose/words/error.hpp"

#include <boost/math/tools/roots.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace wingnose::study {
namespace {

// Amount by which the limit is broken: above 0 broken, 0 or below kept.
double excess(const std::optional<double>& value, const Limit& limit) {
  if (!value) {
    return -std::max(limit.value, 1.0);
  }
  if (std::isnan(*value)) {
    throw ComputeError("a value to hold against a limit is not a number; no permissible speed can be given");
  }
  return limit.at_least() ? limit.value - *value : *value - limit.value;
}

// The highest speed between `keeps` and `breaks` that still keeps the limit (Alefeld, Potra, Shi 1995, algorithm 748).
// A quantity may rest on its limit over a stretch (lost contact at 0); shifting the kept side down a little keeps such
// a stretch from being taken for the root.
double refine(double keeps, double breaks, double at_keeps, double at_breaks, const Limit& limit,
              const std::function<std::optional<double>(double)>& value_at, double tolerance) {
  const double shift = 1e-6 * at_breaks;
  const auto signed_excess = [&](double e) { return e > 0.0 ? e : std::min(e, -shift); };
  const auto close = [tolerance](double a, double b) { return std::abs(b - a) <= tolerance; };
  if (close(keeps, breaks)) {
    return keeps;
  }
  std::uintmax_t evaluations = 200;
  const auto bracket =
      boost::math::tools::toms748_solve([&](double speed) { return signed_excess(excess(value_at(speed), limit)); },
                                        keeps, breaks, signed_excess(at_keeps), at_breaks, close, evaluations);
  // Every speed left behind below the bracket kept the limit, every one above broke it.
  return bracket.first;
}

} // namespace

LimitAnswer solve_limit(std::span<const double> speeds, std::span<const std::optional<double>> values,
                        const Limit& limit, const std::function<std::optional<double>(double speed)>& value_at,
                        double tolerance) {
  if (speeds.empty() || speeds.size() != values.size() ||
      std::adjacent_find(speeds.begin(), speeds.end(), std::greater_equal<>()) != speeds.end()) {
    throw InputError("scanned speeds", std::to_string(speeds.size()), "one value for each of at least one rising speed",
                     "Sort the speeds and give each its value.");
  }
  std::vector<double> over;
  for (const auto& value : values) {
    over.push_back(excess(value, limit));
  }
  const auto broken = [](double e) { return e > 0.0; };
  const auto first = static_cast<std::size_t>(std::find_if(over.begin(), over.end(), broken) - over.begin());

  LimitAnswer answer;
  if (first == over.size()) {
    return answer; // not reached
  }
  answer.first_broken = speeds[first];
  for (std::size_t i = first; i < over.size(); ++i) {
    if (!broken(over[i])) {
      if (broken(over[i - 1])) {
        answer.kept_again.push_back({speeds[i], speeds[i]});
      }
      answer.kept_again.back().to = speeds[i];
    }
  }
  if (first == 0) {
    answer.outcome = LimitOutcome::broken_at_lowest;
    return answer;
  }
  answer.outcome = LimitOutcome::found;
  answer.speed = refine(speeds[first - 1], speeds[first], over[first - 1], over[first], limit, value_at, tolerance);
  return answer;
}

Verdict verdict(std::span<const LimitAnswer> answers) {
  Verdict v;
  for (std::size_t i = 0; i < answers.size(); ++i) {
    const LimitAnswer& a = answers[i];
    if (a.outcome == LimitOutcome::broken_at_lowest) {
      return {a.outcome, std::nullopt, i};
    }
    if (a.outcome == LimitOutcome::found && (!v.speed || *a.speed < *v.speed)) {
      v = {a.outcome, a.speed, i};
    }
  }
  return v;
}

} // namespace wingnose::study
