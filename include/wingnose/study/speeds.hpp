// One case over a range of speeds: forces against speed, and the highest speed that keeps chosen limits.
//
// On a real crossing the wheel already flies, falls or bounces when it lands, so forces need not rise with speed. The
// range is therefore scanned first; only then is the speed at which a limit is first broken refined, by actual
// passages. A scan sees exceedances wider than its step and nothing narrower.
//
// Asked for, each speed also tells what the landing does to the steel (study/steel_measures.hpp); a limit on one of its
// quantities asks for it. Nothing else changes by that. SI; wingnose/words/frame.hpp.
#pragma once

#include "wingnose/study/case.hpp"
#include "wingnose/study/steel_measures.hpp"

#include <cstddef>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace wingnose::study {

// What can be limited. All are upper limits but minimum_force, which must not be fallen short of.
enum class Quantity {
  p2,                  // N
  first_peak,          // N; a passage without a first peak keeps any limit on it
  peak_total,          // N
  peak_nose,           // N, crossings only
  peak_wing,           // N, crossings only
  dynamic_factor,      // -, largest total force over static load
  p2_dynamic_factor,   // -
  dip_angle,           // rad, of the kinematic passage: the same at all speeds
  lost_contact,        // s; 0 demands that contact is never lost
  minimum_force,       // N, lower limit
  rail_acceleration,   // m/s2, needs probes
  bearer_acceleration, // m/s2, needs probes
  // Of the steel.
  peak_pressure, // Pa
  shakedown,     // -, exceedance; a limit of 1 keeps the steel from yielding with every wheel
  t_gamma        // N
};
[[nodiscard]] constexpr bool is_lower_limit(Quantity quantity) { return quantity == Quantity::minimum_force; }
[[nodiscard]] constexpr bool of_steel(Quantity quantity) { return quantity >= Quantity::peak_pressure; }

struct Limit {
  Quantity quantity = Quantity::p2;
  double value = 0.0; // SI unit of the quantity; > 0, or >= 0 for lost_contact
  std::string source; // the standard or rule it comes from; empty: not named
};

struct SpeedRange {
  double from, to, step; // m/s; 0 < from < to, step > 0, at most 2000 speeds; `to` is always scanned
};

struct SpeedOptions {
  std::optional<double> today, proposed; // m/s, within the range; scanned besides the steps
  bool steel = false;                    // what the landings do to the steel, too; several times the work
  int threads = 0;                       // 0: one per core
  double tolerance = 0.05 / 3.6;         // m/s, to which the speed of a limit is refined, > 0
};

struct SpeedPoint {
  double speed; // m/s
  assess::Measures measures;
  std::vector<Estimate> estimates; // closed forms at this speed: "derived", then the named sets of the case
  double dip_angle;                // rad
  std::optional<SteelMeasures> steel = std::nullopt; // only when asked for
  std::string steel_failure = {};                    // why it is not known although it was asked for
};
// The quantity of a point, in SI; nullopt where the passage has none.
[[nodiscard]] std::optional<double> value_of(Quantity quantity, const SpeedPoint& point);

struct SpeedInterval {
  double from, to; // m/s, first and last scanned speed
};

// The closed form's own answer to a limit on P2, for comparison.
struct ClosedFormSpeed {
  std::string track_name;
  std::optional<double> speed; // m/s; nullopt when the static load alone breaks the limit or there is no dip
};

struct LimitAnswer {
  enum class Outcome {
    found,           // kept at every scanned speed up to `speed`, broken above
    not_reached,     // kept at every scanned speed
    broken_at_lowest // broken at the lowest scanned speed already
  };
  Outcome outcome = Outcome::not_reached;
  std::optional<double> speed;            // m/s, found only: the highest speed that keeps the limit
  std::optional<double> first_broken;     // m/s, lowest scanned speed that breaks it
  bool first_broken_not_computed = false; // the passage at that speed failed, which counts as broken
  std::vector<SpeedInterval> kept_again;  // above the first break: the limit is not monotone in speed
  std::vector<ClosedFormSpeed> estimates; // limits on P2 only
};

// The logic alone. speeds: m/s, strictly rising; values: of the limited quantity at these speeds (nullopt: no such
// value, keeps the limit); value_at: the quantity at any speed between two scanned ones. The last scanned speed that
// keeps the limit and the first that breaks it are brought together to `tolerance` (m/s) and the keeping end is
// answered. Throws InputError for empty, unequal or unordered lists.
[[nodiscard]] LimitAnswer solve_limit(std::span<const double> speeds, std::span<const std::optional<double>> values,
                                      const Limit& limit,
                                      const std::function<std::optional<double>(double speed)>& value_at,
                                      double tolerance);

// All limits together.
struct Verdict {
  LimitAnswer::Outcome outcome = LimitAnswer::Outcome::not_reached;
  std::optional<double> speed;        // m/s, found only: the lowest over the limits
  std::optional<std::size_t> governs; // index of the limit that gives it, or that is broken at the lowest speed
};
[[nodiscard]] Verdict verdict(std::span<const LimitAnswer> answers);

// A scanned speed without a passage, and why.
struct SpeedFailure {
  double speed; // m/s
  std::string reason;
};

struct SpeedStudy {
  SpeedRange range;
  Geometry geometry;                  // one for all speeds
  std::vector<SpeedPoint> points;     // by rising speed
  std::vector<SpeedFailure> failures; // by rising speed; no limit counts as kept there
  bool steel = false;                 // whether the points tell of the steel
  std::string steel_name;             // of wing and nose; empty where it was not asked for
  double friction = 0.0;              // -, likewise
  std::vector<Limit> limits;
  std::vector<LimitAnswer> answers; // one per limit
  Verdict permissible;
  std::optional<std::size_t> today, proposed; // indices of points
  std::vector<std::string> warnings;          // what must not be overlooked, such as a closed form that allows more
  std::vector<std::string> notes;             // what a reader must know beside the numbers
  std::vector<std::string> steel_assumptions; // what the numbers of the steel rest on; empty where not asked for
};

// The case's own speed is not used. Track, step table and wheel path are made once; passages run on threads, and the
// numbers do not depend on how many. A passage that fails is recorded and does not stop the others. Throws InputError
// for impossible ranges, limits and options, or a limit on something the case does not have; ComputeError when no
// passage succeeds. A speed at which the steel cannot be told keeps no limit on it.
[[nodiscard]] SpeedStudy study_speeds(const Case& c, const SpeedRange& range, std::span<const Limit> limits = {},
                                      const SpeedOptions& options = {});

} // namespace wingnose::study
