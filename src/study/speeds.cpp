#include "wingnose/study/speeds.hpp"

#include "speeds_parts.hpp"
#include "tell.hpp"

#include "wingnose/study/many.hpp"
#include "wingnose/study/steel.hpp"
#include "wingnose/words/text.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace wingnose::study {
namespace {

constexpr double same_speed = 1e-6; // m/s: closer speeds are one
constexpr std::size_t most_speeds = 2000;

void check(const SpeedRange& r, const SpeedOptions& o) {
  if (!(std::isfinite(r.from) && r.from > 0.0)) {
    throw InputError("lowest speed", in_km_h(r.from), "above 0 km/h", "A wheel at rest does not pass.");
  }
  if (!(std::isfinite(r.to) && r.to > r.from)) {
    throw InputError("highest speed", in_km_h(r.to), "above the lowest speed of " + in_km_h(r.from),
                     "Give a range to scan.");
  }
  if (!(std::isfinite(r.step) && r.step > 0.0 && (r.to - r.from) / r.step < static_cast<double>(most_speeds - 1))) {
    throw InputError("speed step", in_km_h(r.step),
                     "above " + in_km_h((r.to - r.from) / static_cast<double>(most_speeds - 1)),
                     "5 km/h shows the course of the forces, 1 km/h their narrow peaks.");
  }
  for (const auto& [what, speed] : {std::pair{"today's speed", o.today}, std::pair{"proposed speed", o.proposed}}) {
    if (speed && !(*speed >= r.from - same_speed && *speed <= r.to + same_speed)) {
      throw InputError(what, in_km_h(*speed), in_km_h(r.from) + " to " + in_km_h(r.to), "Widen the range scanned.");
    }
  }
  if (o.threads < 0) {
    throw InputError("threads", std::to_string(o.threads), "0 (one per core) or more", "Leave it out if in doubt.");
  }
  if (!(std::isfinite(o.tolerance) && o.tolerance > 0.0)) {
    throw InputError("tolerance of the permissible speed", in_km_h(o.tolerance), "above 0 km/h",
                     "0.05 km/h is finer than any speed board.");
  }
}

void check(const Limit& limit) {
  const bool zero_allowed = limit.quantity->uses.limit == quantity::Limit::at_most_or_zero;
  if (!(std::isfinite(limit.value) && (limit.value > 0.0 || (zero_allowed && limit.value == 0.0)))) {
    throw InputError("limit", number(limit.value), zero_allowed ? "0 or more" : "above 0",
                     "A limit is a positive number.");
  }
}

std::vector<double> scanned_speeds(const SpeedRange& r, const SpeedOptions& o) {
  std::vector<double> speeds;
  const auto steps = static_cast<std::size_t>(std::ceil((r.to - r.from) / r.step - 1e-9));
  for (std::size_t i = 0; i < steps; ++i) {
    speeds.push_back(r.from + static_cast<double>(i) * r.step);
  }
  speeds.push_back(r.to);
  for (const auto& extra : {o.today, o.proposed}) {
    if (extra &&
        std::none_of(speeds.begin(), speeds.end(), [&](double s) { return std::abs(s - *extra) <= same_speed; })) {
      speeds.push_back(*extra);
    }
  }
  std::sort(speeds.begin(), speeds.end());
  return speeds;
}

// A speed whose passage failed or is grave, or whose steel is not known, cannot be said to keep a limit.
double broken_value(const Limit& limit) { return limit.at_least() ? -limit.value : 2.0 * limit.value + 1.0; }
std::optional<double> limited_value(const Limit& limit, const assess::Assessment& a) {
  const auto value = limit.quantity->of(a);
  const bool unknown = !value && quantity::of_steel(*limit.quantity);
  return unknown || any_grave(a.findings) ? broken_value(limit) : value;
}

// Passages at any speeds, all else being shared. A point depends on its speed alone.
class Passages {
public:
  Passages(const Case& c, bool steel, int threads) : case_(c), steel_(steel), threads_(threads) {
    case_.source_text.clear();
  }

  std::vector<Outcome> at(const std::vector<double>& speeds) {
    std::vector<Case> list(speeds.size(), case_);
    for (std::size_t i = 0; i < speeds.size(); ++i) {
      list[i].passage.speed = speeds[i];
    }
    ManyOptions many;
    many.threads = threads_;
    many.probes = true; // as the case says
    many.steel = steel_;
    auto outcomes = run_many(list, many, &parts_);
    for (const Outcome& outcome : outcomes) {
      if (outcome.state == Outcome::State::bad_input) {
        throw InputError(outcome.failure);
      }
    }
    return outcomes;
  }

private:
  Case case_;
  bool steel_;
  int threads_;
  SharedParts parts_;
};

void check_available(const Limit& limit, const std::vector<SpeedPoint>& points) {
  // That no first peak stands out is an answer; other absent values mean that the case has no such thing.
  const bool present = std::any_of(points.begin(), points.end(),
                                   [&](const SpeedPoint& p) { return limit.quantity->of(p.assessment).has_value(); });
  if (present || limit.quantity->uses.told_if_none) {
    return;
  }
  if (quantity::of_steel(*limit.quantity)) {
    std::string why;
    for (const Finding& f : points.front().assessment.findings) {
      why = f.kind == FindingKind::steel_unknown ? f.what : why;
    }
    throw ComputeError("a limit on what the landing does to the steel cannot be held against anything: " + why);
  }
  throw InputError("a limit on " + std::string(limit.quantity->key) +
                   " cannot be held against anything: no passage of this case has it. Forces of nose or wing need a "
                   "crossing (limit p2_kN or peak_total_kN instead), accelerations need passage.probes = true");
}

std::vector<ClosedFormSpeed> closed_form_speeds(const Limit& limit, const SpeedPoint& point) {
  std::vector<ClosedFormSpeed> speeds;
  if (limit.quantity->key != "p2_kN") {
    return speeds;
  }
  for (const assess::Estimate& e : point.assessment.estimates) {
    const bool solvable = limit.value >= e.input.static_load && e.input.dip_angle > 0.0;
    speeds.push_back(
        {e.track_name, solvable ? std::optional(closedform::permissible_speed(e.input, limit.value)) : std::nullopt});
  }
  return speeds;
}

std::optional<std::size_t> index_of(const std::vector<SpeedPoint>& points, std::optional<double> speed) {
  if (!speed) {
    return std::nullopt;
  }
  const auto found = std::find_if(points.begin(), points.end(),
                                  [&](const SpeedPoint& p) { return std::abs(p.speed - *speed) <= same_speed; });
  return found == points.end() ? std::nullopt : std::optional(static_cast<std::size_t>(found - points.begin()));
}

} // namespace

Limit parse_limit(std::string_view text, std::string source) {
  const auto equals = text.find('=');
  if (equals == std::string_view::npos) {
    throw InputError("limit", "\"" + std::string(text) + "\"", "quantity=value", "For example p2_kN=200.");
  }
  const std::string key(trim(text.substr(0, equals))), value(trim(text.substr(equals + 1)));
  const quantity::Quantity& q = quantity::limited(key);
  char* end = nullptr;
  const double number = std::strtod(value.c_str(), &end);
  const bool zero_allowed = q.uses.limit == quantity::Limit::at_most_or_zero;
  if (value.empty() || *end != '\0' || !std::isfinite(number) || number < 0.0 || (number == 0.0 && !zero_allowed)) {
    const std::string unit = q.unit.name == "-" ? "" : " in " + std::string(q.unit.name);
    throw InputError("limit " + key, "\"" + value + "\"",
                     std::string("a number ") + (zero_allowed ? "of 0 or more" : "above 0") + unit,
                     "For example p2_kN=200.");
  }
  return {&q, number / q.unit.per_si, std::move(source)};
}

std::string sentence(const Limit& limit) {
  const quantity::Quantity& q = *limit.quantity;
  return std::string(q.label) + (limit.at_least() ? " at least " : " at most ") + number(limit.value * q.unit.per_si) +
         (q.unit.name == "-" ? "" : " " + std::string(q.unit.name));
}

namespace {

LimitAnswer answer_of(const SpeedStudy& s, const Limit& limit, const std::vector<double>& speeds,
                      const std::vector<Outcome>& outcomes, Passages& passages, double tolerance) {
  check_available(limit, s.points);
  std::vector<std::optional<double>> values;
  for (const Outcome& outcome : outcomes) {
    values.push_back(outcome.assessment ? limited_value(limit, *outcome.assessment) : broken_value(limit));
  }
  const auto value_at = [&](double speed) -> std::optional<double> {
    const Outcome outcome = std::move(passages.at({speed}).front());
    return outcome.assessment ? limited_value(limit, *outcome.assessment) : broken_value(limit);
  };
  LimitAnswer answer = solve_limit(speeds, values, limit, value_at, tolerance);
  for (std::size_t i = 0; i < speeds.size(); ++i) {
    if (answer.first_broken == speeds[i]) {
      const auto& a = outcomes[i].assessment;
      answer.first_broken_not_computed = !a || any_grave(a->findings);
    }
  }
  answer.estimates = closed_form_speeds(limit, s.points.front());
  return answer;
}

} // namespace

SpeedStudy study_speeds(const Case& c, const SpeedRange& range, std::span<const Limit> limits,
                        const SpeedOptions& options) {
  check(range, options);
  for (const Limit& limit : limits) {
    check(limit);
  }
  SpeedStudy s;
  s.range = range;
  s.limits.assign(limits.begin(), limits.end());
  s.geometry = geometry(c);
  s.steel = options.steel || std::any_of(limits.begin(), limits.end(),
                                         [](const Limit& limit) { return quantity::of_steel(*limit.quantity); });
  if (s.steel) {
    assess::check(cases::steel_of(c));
    assess::check(c.damage);
  }
  const std::vector<double> speeds = scanned_speeds(range, options);
  Passages passages(c, s.steel, options.threads);
  auto outcomes = passages.at(speeds);
  for (std::size_t i = 0; i < speeds.size(); ++i) {
    if (outcomes[i].assessment) {
      s.points.push_back({speeds[i], *outcomes[i].assessment});
    } else {
      s.failures.push_back({speeds[i], outcomes[i].failure});
    }
  }
  if (s.points.empty()) {
    throw ComputeError("no passage succeeded at any speed; at " + in_km_h(s.failures.front().speed) + ": " +
                       s.failures.front().reason);
  }
  s.today = index_of(s.points, options.today);
  s.proposed = index_of(s.points, options.proposed);
  for (const Limit& limit : s.limits) {
    s.answers.push_back(answer_of(s, limit, speeds, outcomes, passages, options.tolerance));
  }
  s.permissible = verdict(s.answers);
  s.findings = findings_of(s);
  return s;
}

} // namespace wingnose::study
