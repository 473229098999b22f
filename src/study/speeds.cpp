#include "wingnose/study/speeds.hpp"

#include "speeds_parts.hpp"

#include "wingnose/passage/simulate.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <exception>
#include <mutex>
#include <thread>

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
  const bool zero_allowed = limit.quantity == Quantity::lost_contact;
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

// What all speeds share.
struct Shared {
  Case c;
  Geometry geometry;
  std::shared_ptr<const passage::Plan> plan;
  bool steel = false;
};

void add_steel(SpeedPoint& point, const Case& c, const Geometry& geometry, passage::History history) {
  try {
    point.steel = steel_measures(c, {geometry, std::move(history), {}, {}});
  } catch (const ComputeError& error) { // the forces count all the same
    point.steel_failure = error.what();
  }
}

SpeedPoint point_at(const Shared& shared, double speed) {
  Case c = shared.c;
  c.passage.speed = speed;
  passage::History history = passage::simulate(shared.plan, run_of(c, shared.geometry));
  SpeedPoint point{speed, assess::measure(history, landing_station(shared.geometry), c.measures),
                   estimate(c, shared.geometry), shared.geometry.kinematics.dip_angle};
  if (shared.steel) {
    add_steel(point, c, shared.geometry, std::move(history));
  }
  return point;
}

// A speed whose passage failed, or whose steel is not known, cannot be said to keep a limit.
double broken_value(const Limit& limit) {
  return is_lower_limit(limit.quantity) ? -limit.value : 2.0 * limit.value + 1.0;
}
std::optional<double> limited_value(const Limit& limit, const SpeedPoint& point) {
  const auto value = value_of(limit.quantity, point);
  return !value && of_steel(limit.quantity) ? broken_value(limit) : value;
}

struct Scan {
  std::vector<std::optional<SpeedPoint>> points; // one per speed
  std::vector<std::string> reasons;              // why a point is missing
};

// Every thread takes the next speed nobody has taken; a point depends on its speed alone.
Scan scan(const Shared& shared, const std::vector<double>& speeds, int threads) {
  Scan all{std::vector<std::optional<SpeedPoint>>(speeds.size()), std::vector<std::string>(speeds.size())};
  std::atomic<std::size_t> next{0};
  std::mutex guard;
  std::exception_ptr unexpected; // not the passage's fault
  const auto work = [&] {
    for (std::size_t i = next++; i < speeds.size(); i = next++) {
      try {
        all.points[i] = point_at(shared, speeds[i]);
      } catch (const ComputeError& error) {
        all.reasons[i] = error.what();
      } catch (...) {
        const std::scoped_lock lock(guard);
        unexpected = std::current_exception();
        next = speeds.size();
      }
    }
  };
  const auto wanted = threads > 0 ? static_cast<unsigned>(threads) : std::max(1U, std::thread::hardware_concurrency());
  {
    std::vector<std::jthread> others;
    for (unsigned t = 1; t < std::min<std::size_t>(wanted, speeds.size()); ++t) {
      others.emplace_back(work);
    }
    work();
  }
  if (unexpected) {
    std::rethrow_exception(unexpected);
  }
  return all;
}

void check_available(const Limit& limit, const std::vector<SpeedPoint>& points) {
  // That no first peak stands out is an answer; other absent values mean that the case has no such thing.
  const bool present = std::any_of(points.begin(), points.end(),
                                   [&](const SpeedPoint& p) { return value_of(limit.quantity, p).has_value(); });
  if (present || limit.quantity == Quantity::first_peak) {
    return;
  }
  if (of_steel(limit.quantity)) {
    throw ComputeError("a limit on what the landing does to the steel cannot be held against anything: " +
                       points.front().steel_failure);
  }
  const bool body = limit.quantity == Quantity::peak_nose || limit.quantity == Quantity::peak_wing;
  throw InputError(body ? "a limit on the force of nose or wing needs a crossing; this case runs on a prescribed path. "
                          "Limit p2_kN or peak_total_kN instead"
                        : "a limit on an acceleration needs the probes of the passage; set passage.probes = true");
}

std::vector<ClosedFormSpeed> closed_form_speeds(const Limit& limit, const SpeedPoint& point) {
  std::vector<ClosedFormSpeed> speeds;
  if (limit.quantity != Quantity::p2) {
    return speeds;
  }
  for (const Estimate& e : point.estimates) {
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

std::optional<double> value_of(Quantity quantity, const SpeedPoint& p) {
  const assess::Measures& m = p.measures;
  switch (quantity) {
  case Quantity::p2:
    return m.p2;
  case Quantity::first_peak:
    return m.first_peak;
  case Quantity::peak_total:
    return m.peak_total;
  case Quantity::peak_nose:
    return m.peak_nose;
  case Quantity::peak_wing:
    return m.peak_wing;
  case Quantity::dynamic_factor:
    return m.dynamic_factor;
  case Quantity::p2_dynamic_factor:
    return m.p2_dynamic_factor;
  case Quantity::dip_angle:
    return p.dip_angle;
  case Quantity::lost_contact:
    return m.lost_contact;
  case Quantity::minimum_force:
    return m.minimum_force;
  case Quantity::rail_acceleration:
    return m.rail_acceleration;
  case Quantity::bearer_acceleration:
    return m.bearer_acceleration;
  case Quantity::peak_pressure:
    return p.steel ? std::optional(p.steel->peak_pressure) : std::nullopt;
  case Quantity::shakedown:
    return p.steel ? std::optional(p.steel->shakedown) : std::nullopt;
  case Quantity::t_gamma:
    return p.steel ? std::optional(p.steel->t_gamma) : std::nullopt;
  }
  return std::nullopt;
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
  s.steel = options.steel ||
            std::any_of(limits.begin(), limits.end(), [](const Limit& limit) { return of_steel(limit.quantity); });
  if (s.steel) {
    assess::check(c.grade);
    assess::check(c.damage);
    s.steel_name = c.grade.name;
    s.friction = c.damage.friction;
    s.steel_assumptions = steel_assumptions();
  }
  const Shared shared{c, s.geometry, plan(c, s.geometry, track::modal_track(track_for(c))), s.steel};
  const std::vector<double> speeds = scanned_speeds(range, options);
  const Scan scanned = scan(shared, speeds, options.threads);
  for (std::size_t i = 0; i < speeds.size(); ++i) {
    if (scanned.points[i]) {
      s.points.push_back(*scanned.points[i]);
    } else {
      s.failures.push_back({speeds[i], scanned.reasons[i]});
    }
  }
  if (s.points.empty()) {
    throw ComputeError("no passage succeeded at any speed; at " + in_km_h(s.failures.front().speed) + ": " +
                       s.failures.front().reason);
  }
  s.today = index_of(s.points, options.today);
  s.proposed = index_of(s.points, options.proposed);

  for (const Limit& limit : s.limits) {
    check_available(limit, s.points);
    std::vector<std::optional<double>> values;
    for (const auto& point : scanned.points) {
      values.push_back(point ? limited_value(limit, *point) : broken_value(limit));
    }
    const auto value_at = [&](double speed) -> std::optional<double> {
      try {
        return limited_value(limit, point_at(shared, speed));
      } catch (const ComputeError&) {
        return broken_value(limit);
      }
    };
    LimitAnswer answer = solve_limit(speeds, values, limit, value_at, options.tolerance);
    answer.first_broken_not_computed =
        answer.first_broken && std::any_of(s.failures.begin(), s.failures.end(),
                                           [&](const SpeedFailure& f) { return f.speed == *answer.first_broken; });
    answer.estimates = closed_form_speeds(limit, s.points.front());
    s.answers.push_back(std::move(answer));
  }
  s.permissible = verdict(s.answers);
  s.warnings = warnings_of(s);
  s.notes = notes_of(s);
  return s;
}

} // namespace wingnose::study
