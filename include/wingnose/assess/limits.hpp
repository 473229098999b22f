// Which speeds keep a limit, from passages over a range of speeds. On a real crossing the wheel already flies, falls or
// bounces when it lands, so forces need not rise with speed: what counts is the first speed that breaks the limit, and
// a limit may be kept again above it. SI.
#pragma once

#include "wingnose/assess/assessment.hpp"
#include "wingnose/numeric/threshold.hpp"
#include "wingnose/words/names.hpp"

#include <array>
#include <cstddef>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace wingnose::assess {

struct Limit {
  double value = 0.0;
  bool at_least = false; // otherwise at most
};
// Of a speed that cannot be said to keep it.
[[nodiscard]] double broken_value(const Limit& limit);

using SpeedInterval = numeric::Interval; // m/s, first and last scanned speed

// The closed form's own answer to a limit on P2, for comparison.
struct ClosedFormSpeed {
  std::string track_name;
  std::optional<double> speed; // m/s; nullopt when the static load alone breaks the limit or there is no dip
};
[[nodiscard]] std::vector<ClosedFormSpeed> closed_form_speeds(std::span<const Estimate> estimates, double p2);

enum class LimitOutcome {
  found,            // kept at every scanned speed up to `speed`, broken above
  not_reached,      // kept at every scanned speed
  broken_at_lowest, // broken at the lowest scanned speed already
  unanswered        // no passage has what is limited: there was nothing to hold the limit against
};
constexpr auto names(LimitOutcome) {
  return std::array{Name{LimitOutcome::found, "found"}, Name{LimitOutcome::not_reached, "not_reached"},
                    Name{LimitOutcome::broken_at_lowest, "broken_at_lowest"},
                    Name{LimitOutcome::unanswered, "unanswered"}};
}

struct LimitAnswer {
  LimitOutcome outcome = LimitOutcome::not_reached;
  std::optional<double> speed;            // m/s, found only: the highest speed that keeps the limit
  std::optional<double> first_broken;     // m/s, lowest scanned speed that breaks it
  bool first_broken_not_computed = false; // the passage at that speed failed or is grave, which counts as broken
  std::vector<SpeedInterval> kept_again;  // above the first break: the limit is not monotone in speed
  std::vector<ClosedFormSpeed> estimates; // limits on P2 only
};

// The logic alone (numeric/threshold.hpp). speeds: m/s, strictly rising; values: of the limited quantity at these
// speeds (nullopt: no such value, keeps the limit); value_at: the quantity at any speed between two scanned ones.
// Throws InputError for empty, unequal or unordered lists, ComputeError for a value that is not a number.
[[nodiscard]] LimitAnswer solve_limit(std::span<const double> speeds, std::span<const std::optional<double>> values,
                                      const Limit& limit,
                                      const std::function<std::optional<double>(double speed)>& value_at,
                                      double tolerance);

// All limits together; one that is unanswered is neither kept nor broken.
struct Verdict {
  LimitOutcome outcome = LimitOutcome::not_reached;
  std::optional<double> speed;        // m/s, found only: the lowest over the limits
  std::optional<std::size_t> governs; // index of the limit that gives it, that is broken at the lowest speed, or that
                                      // is unanswered where no other is broken
};
[[nodiscard]] Verdict verdict(std::span<const LimitAnswer> answers);

// The closed form knows the wheel path by its dip angle alone: where it permits noticeably more than the passages do.
[[nodiscard]] Findings lenient_closed_forms(const LimitAnswer& answer, const SpeedInterval& scanned);
// In words: "kept up to 98.2 km/h"; governing: the limit that governs; the speeds kept again, in km/h.
[[nodiscard]] std::string sentence(const LimitAnswer& answer, const SpeedInterval& scanned);
[[nodiscard]] std::string sentence(const Verdict& verdict, const SpeedInterval& scanned, const std::string& governing);
[[nodiscard]] std::string kept_again_km_h(const LimitAnswer& answer);

} // namespace wingnose::assess
