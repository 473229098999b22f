// One case over a range of speeds: forces against speed, and the highest speed that keeps chosen limits.
//
// On a real crossing the wheel already flies, falls or bounces when it lands, so forces need not rise with speed. The
// range is therefore scanned first; only then is the speed at which a limit is first broken refined, by actual
// passages. A scan sees exceedances wider than its step and nothing narrower. A speed whose passage failed or has a
// grave finding keeps no limit.
//
// Asked for, each speed also tells what the landing does to the steel (study/steel.hpp); a limit on one of its
// quantities asks for it. Nothing else changes by that. SI; wingnose/words/frame.hpp.
#pragma once

#include "wingnose/assess/limits.hpp"
#include "wingnose/quantity/quantity.hpp"
#include "wingnose/quantity/tree.hpp"
#include "wingnose/study/run.hpp"

#include <atomic>
#include <cstddef>
#include <functional>
#include <optional>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace wingnose::study {

using assess::LimitAnswer;
using assess::LimitOutcome;

// On a quantity that may be limited. Upper limits, but for a least force, which must not be fallen short of.
struct Limit {
  const quantity::Quantity* quantity = nullptr;
  double value = 0.0; // SI unit of the quantity; > 0, or >= 0 where a limit of 0 has a sense
  std::string source; // the standard or rule it comes from; empty: not named
  [[nodiscard]] bool at_least() const { return quantity->uses.limit == quantity::Limit::at_least; }
  [[nodiscard]] assess::Limit bare() const { return {value, at_least()}; }
};
// "p2_kN=200" -> a limit in SI. Throws InputError with the likely key when it is misspelt.
[[nodiscard]] Limit parse_limit(std::string_view text, std::string source);
[[nodiscard]] std::string sentence(const Limit& limit); // "P2 at most 200 kN"

struct SpeedRange {
  double from = 0.0, to = 0.0, step = 0.0; // m/s; 0 < from < to, step > 0, at most 2000 speeds; `to` is always scanned
};

struct SpeedOptions {
  std::optional<double> today, proposed; // m/s, within the range; scanned besides the steps
  bool steel = false;                    // what the landings do to the steel, too; several times the work
  int threads = 0;                       // 0: one per core
  double tolerance = 0.05 / 3.6;         // m/s, to which the speed of a limit is refined, > 0
  std::function<void(std::size_t done, std::size_t total)> progress = {}; // of the scan, see ManyOptions
  const std::atomic<bool>* cancel = nullptr;                              // set it to end soon with Stopped
};

// The study was asked to end.
struct Stopped : std::runtime_error {
  using std::runtime_error::runtime_error;
};

struct SpeedPoint {
  double speed; // m/s
  assess::Assessment assessment;
};

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
  std::vector<Limit> limits;
  std::vector<LimitAnswer> answers; // one per limit
  assess::Verdict permissible;
  std::optional<std::size_t> today, proposed; // indices of points
  Findings findings;
};

// The case's own speed is not used. Track, step table and wheel path are made once; passages run on threads, and the
// numbers do not depend on how many. A passage that fails is recorded and does not stop the others. Throws InputError
// for impossible ranges, limits and options, or a limit on something the case does not have; ComputeError when no
// passage succeeds.
[[nodiscard]] SpeedStudy study_speeds(const Case& c, const SpeedRange& range, std::span<const Limit> limits = {},
                                      const SpeedOptions& options = {});

// One quantity today and at the proposed speed.
struct QuantityChange {
  std::string key, label, unit;
  int decimals;
  std::optional<double> today, proposed; // in `unit`
  std::optional<double> difference;      // in `unit`
  std::optional<double> percent;         // of today's value; none where that is 0 or where a ratio has no sense
};
// Empty when the study has not both speeds. Closed forms last, keyed "closed_form/derived/p2_kN".
[[nodiscard]] std::vector<QuantityChange> speed_changes(const SpeedStudy& study);

[[nodiscard]] quantity::Tree tell(const Case& c, const SpeedStudy& study);

} // namespace wingnose::study
