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
  if (constexpr Range possible = range_of<&cases::Passage::speed>(); r.to > possible.most + same_speed) {
    throw InputError("highest speed", in_km_h(r.to), "up to " + in_km_h(possible.most), "No case runs faster.");
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

bool zero_allowed(const quantity::Quantity& q) { return q.uses.limit == quantity::Limit::at_most_or_zero; }
bool good(const quantity::Quantity& q, double limit) {
  return std::isfinite(limit) && (limit > 0.0 || (limit == 0.0 && zero_allowed(q)));
}
void check(const Limit& limit) {
  if (!good(*limit.quantity, limit.value)) {
    throw InputError("limit", number(limit.value), zero_allowed(*limit.quantity) ? "0 or more" : "above 0",
                     "A limit is a positive number.");
  }
}

// A speed whose passage failed or is grave, or whose steel is not known, cannot be said to keep a limit.
std::optional<double> limited_value(const Limit& limit, const Outcome& outcome) {
  const auto& a = outcome.assessment;
  const auto value = a ? limit.quantity->of(*a) : std::nullopt;
  const bool unknown = !a || (!value && quantity::of_steel(*limit.quantity)) || any_grave(a->findings);
  return unknown ? assess::broken_value(limit.bare()) : value;
}

// Passages at any speeds, all else being shared. A point depends on its speed alone.
std::vector<Outcome> passages_at(const std::vector<double>& speeds, const Case& c, const ManyOptions& options,
                                 SharedParts& parts) {
  const auto make = [&](std::size_t i) {
    Case at = c;
    at.passage.speed = speeds[i];
    return at;
  };
  auto outcomes = run_many(speeds.size(), make, options, &parts);
  if (options.cancel != nullptr && options.cancel->load()) {
    throw Stopped("the study of speeds was given up");
  }
  for (const Outcome& outcome : outcomes) {
    if (outcome.state == Outcome::State::bad_input) {
      throw InputError(outcome.failure);
    }
  }
  return outcomes;
}

// Whether any passage has what is limited. Where none has because the case can have no such thing, that is an error.
bool available(const Limit& limit, const std::vector<SpeedPoint>& points) {
  const bool present = std::any_of(points.begin(), points.end(),
                                   [&](const SpeedPoint& p) { return limit.quantity->of(p.assessment).has_value(); });
  if (present || limit.quantity->uses.told_if_none || limit.quantity->uses.may_lack) {
    return present;
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

LimitAnswer answer_of(const Limit& limit, const SpeedStudy& s, const std::vector<double>& speeds,
                      const std::vector<Outcome>& outcomes, const std::function<Outcome(double)>& at,
                      double tolerance) {
  if (!available(limit, s.points)) {
    LimitAnswer none;
    none.outcome = assess::LimitOutcome::unanswered;
    return none;
  }
  std::vector<std::optional<double>> values(outcomes.size());
  std::transform(outcomes.begin(), outcomes.end(), values.begin(),
                 [&](const Outcome& outcome) { return limited_value(limit, outcome); });
  const auto value_at = [&](double speed) { return limited_value(limit, at(speed)); };
  LimitAnswer answer = assess::solve_limit(speeds, values, limit.bare(), value_at, tolerance);
  for (std::size_t i = 0; i < speeds.size(); ++i) {
    if (answer.first_broken == speeds[i]) {
      const auto& a = outcomes[i].assessment;
      answer.first_broken_not_computed = !a || any_grave(a->findings);
    }
  }
  if (limit.quantity->key == "p2_kN") {
    answer.estimates = assess::closed_form_speeds(s.points.front().assessment.estimates, limit.value);
  }
  return answer;
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
  if (value.empty() || *end != '\0' || !good(q, number)) {
    const std::string unit = q.unit.name == "-" ? "" : " in " + std::string(q.unit.name);
    throw InputError("limit " + key, "\"" + value + "\"",
                     std::string("a number ") + (zero_allowed(q) ? "of 0 or more" : "above 0") + unit,
                     "For example p2_kN=200.");
  }
  return {&q, number / q.unit.per_si, std::move(source)};
}

std::string sentence(const Limit& limit) {
  const quantity::Quantity& q = *limit.quantity;
  const std::string unit(shown(q.unit));
  return std::string(q.label) + (limit.at_least() ? " at least " : " at most ") + number(limit.value * q.unit.per_si) +
         (unit.empty() ? "" : " ") + unit;
}

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
  const std::array extra{options.today, options.proposed};
  const std::vector<double> speeds = numeric::scan(range.from, range.to, range.step, extra, same_speed);
  Case bare = c;
  bare.source_text.clear();
  ManyOptions many;
  many.threads = options.threads;
  many.probes = true; // as the case says
  many.steel = s.steel;
  many.progress = options.progress;
  many.cancel = options.cancel;
  SharedParts parts;
  const auto outcomes = passages_at(speeds, bare, many, parts);
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
  many.progress = {}; // of a limit only a few single passages are left
  for (const Limit& limit : s.limits) {
    const auto at = [&](double speed) { return std::move(passages_at({speed}, bare, many, parts).front()); };
    s.answers.push_back(answer_of(limit, s, speeds, outcomes, at, options.tolerance));
  }
  s.permissible = assess::verdict(s.answers);
  s.findings = findings_of(s);
  return s;
}

} // namespace wingnose::study
