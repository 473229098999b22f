#include "wingnose/assess/limits.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>

namespace wingnose::assess {
namespace {

constexpr double noticeable = 0.5 / 3.6; // m/s

// Amount by which the limit is broken: above 0 broken, 0 or below kept.
double excess(const std::optional<double>& value, const Limit& limit) {
  if (!value) {
    return -std::max(limit.value, 1.0);
  }
  if (std::isnan(*value)) {
    throw ComputeError("a value to hold against a limit is not a number; no permissible speed can be given");
  }
  return limit.at_least ? limit.value - *value : *value - limit.value;
}

// Up to where the passages keep a limit; the lowest speed where they nowhere do.
double simulated_speed(const LimitAnswer& a, const SpeedInterval& scanned) { return a.speed.value_or(scanned.from); }

bool allows_more(const LimitAnswer& a, const ClosedFormSpeed& e, const SpeedInterval& scanned) {
  return a.outcome != LimitOutcome::not_reached && e.speed && *e.speed > simulated_speed(a, scanned) + noticeable;
}

std::string down_to_tenth(double speed) { return fixed(std::floor(speed * 36.0) / 10.0, 1) + " km/h"; }

} // namespace

double broken_value(const Limit& limit) { return limit.at_least ? -limit.value : 2.0 * limit.value + 1.0; }

std::vector<ClosedFormSpeed> closed_form_speeds(std::span<const Estimate> estimates, double p2) {
  std::vector<ClosedFormSpeed> speeds;
  for (const Estimate& e : estimates) {
    const bool solvable = p2 >= e.input.static_load && e.input.dip_angle > 0.0;
    speeds.push_back(
        {e.track_name, solvable ? std::optional(closedform::permissible_speed(e.input, p2)) : std::nullopt});
  }
  return speeds;
}

LimitAnswer solve_limit(std::span<const double> speeds, std::span<const std::optional<double>> values,
                        const Limit& limit, const std::function<std::optional<double>(double speed)>& value_at,
                        double tolerance) {
  std::vector<double> over;
  for (const auto& value : values) {
    over.push_back(excess(value, limit));
  }
  const numeric::Threshold t = numeric::first_exceedance(
      speeds, over, [&](double speed) { return excess(value_at(speed), limit); }, tolerance);
  LimitAnswer answer;
  answer.outcome = !t.first_exceeding ? LimitOutcome::not_reached
                   : t.kept_up_to     ? LimitOutcome::found
                                      : LimitOutcome::broken_at_lowest;
  answer.speed = t.kept_up_to;
  answer.first_broken = t.first_exceeding;
  answer.kept_again = t.kept_again;
  return answer;
}

Verdict verdict(std::span<const LimitAnswer> answers) {
  Verdict v;
  for (std::size_t i = 0; i < answers.size(); ++i) {
    const LimitAnswer& a = answers[i];
    if (a.outcome == LimitOutcome::broken_at_lowest) {
      return {a.outcome, std::nullopt, i};
    }
    if (a.outcome == LimitOutcome::unanswered && v.outcome == LimitOutcome::not_reached) {
      v = {a.outcome, std::nullopt, i};
    }
    if (a.outcome == LimitOutcome::found && (!v.speed || *a.speed < *v.speed)) {
      v = {a.outcome, a.speed, i};
    }
  }
  return v;
}

Findings lenient_closed_forms(const LimitAnswer& a, const SpeedInterval& scanned) {
  Findings findings;
  const double simulated = simulated_speed(a, scanned);
  for (const ClosedFormSpeed& e : a.estimates) {
    if (allows_more(a, e, scanned)) {
      findings.push_back({FindingKind::closed_form_allows_more,
                          "the closed form (" + e.track_name + ") would allow " + floored_km_h(*e.speed) +
                              " where the simulated passages keep the limit on P2 " +
                              (a.speed ? "only up to " + floored_km_h(simulated)
                                       : "at no speed from " + in_km_h(simulated) + " upwards")});
    }
  }
  return findings;
}

std::string kept_again_km_h(const LimitAnswer& answer) {
  std::string text;
  for (const SpeedInterval& interval : answer.kept_again) {
    text += (text.empty() ? "" : ", ") + number(interval.from * 3.6) +
            (interval.from == interval.to ? "" : " to " + number(interval.to * 3.6));
  }
  return text;
}

std::string sentence(const LimitAnswer& a, const SpeedInterval& scanned) {
  std::string text;
  switch (a.outcome) {
  case LimitOutcome::found:
    text = "kept up to " + down_to_tenth(*a.speed);
    text += a.first_broken_not_computed ? " (above, a passage could not be computed or is grave)" : "";
    break;
  case LimitOutcome::not_reached:
    text = "not reached up to " + in_km_h(scanned.to);
    break;
  case LimitOutcome::broken_at_lowest:
    text = "already broken at " + in_km_h(scanned.from) + ", the lowest speed";
    break;
  case LimitOutcome::unanswered:
    text = "unanswered: no passage has it";
    break;
  }
  text += a.kept_again.empty() ? "" : "; not monotone, kept again at " + kept_again_km_h(a) + " km/h";
  for (const ClosedFormSpeed& e : a.estimates) {
    text += "; closed form (" + e.track_name + "): " + (e.speed ? down_to_tenth(*e.speed) : "no speed");
    if (allows_more(a, e, scanned)) { // whoever reads the speeds side by side must not overlook it
      text += ", more than the passages allow: do not take the higher speed from it";
    }
  }
  return text;
}

std::string sentence(const Verdict& v, const SpeedInterval& scanned, const std::string& governing) {
  switch (v.outcome) {
  case LimitOutcome::found:
    return "highest speed that keeps all limits: " + down_to_tenth(*v.speed) + ", governed by " + governing;
  case LimitOutcome::not_reached:
    return "all limits are kept up to " + in_km_h(scanned.to) + ", the highest speed scanned";
  case LimitOutcome::unanswered:
    return "no highest speed can be told: " + governing + " is unanswered, and no other limit is broken up to " +
           in_km_h(scanned.to);
  case LimitOutcome::broken_at_lowest:
    break;
  }
  return "no speed from " + in_km_h(scanned.from) + " upwards can be permitted: " + governing +
         " is broken there already";
}

} // namespace wingnose::assess
