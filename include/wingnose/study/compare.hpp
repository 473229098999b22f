// Several crossings under one population of wheels: distributions, ranking, differences with their spread, and wheels
// that transfer early onto a thin nose.
//
// Every wheel runs over every crossing, so crossings are compared wheel by wheel (paired). Crossings are compared on
// the wheels that could be computed on all of them without a grave finding; how many were dropped, and why, is part of
// the answer, and every criterion is also told with the dropped wheels counted as the worst.
//
// - statistics and intervals: numeric/weighted.hpp and numeric/paired.hpp, resampled over wheels.
// - share of a class, an early transfer, ...: share of weight, not of number.
//
// Asked for, the answer also tells what each landing does to the steel (study/steel.hpp), with the steel and
// friction of each crossing's case. Nothing else changes by that.
// SI; wingnose/words/frame.hpp.
#pragma once

#include "wingnose/assess/force_grid.hpp"
#include "wingnose/case/population.hpp"
#include "wingnose/numeric/paired.hpp"
#include "wingnose/quantity/statistics.hpp"
#include "wingnose/quantity/tree.hpp"
#include "wingnose/study/run.hpp"

#include <array>
#include <atomic>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <limits>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace wingnose::study {

struct ComparedCrossing {
  std::string name;         // "worn"
  cases::Document document; // a case that runs over a crossing (generated or sections)
};

struct CompareOptions {
  double thin_nose = 0.020; // m, > 0; a wheel that transfers where the nose is thinner transfers early. Default: common
                            // practice, no source
  double confidence = 0.95; // of the intervals, 0.5 .. 0.999
  std::size_t resamples = 2000;         // of the bootstrap, 100 .. 100000
  std::uint64_t seed = 1;               // of the bootstrap
  assess::ForceGrid grid;               // of the envelopes and of the loads on the nose
  bool steel = false;                   // what the landing does to the steel, too; half as much work again
  bool paths = true;                    // wheel paths of typical wheels, see CrossingAnswer::paths
  int threads = 0;                      // 0: one per core
  std::size_t passages_per_chunk = 64;  // answered at once; without influence on the numbers
  std::vector<cases::InputFile> inputs; // files the comparison was asked with, to be told with the answer
  // Passages done so far. As of run_many.
  std::function<void(std::size_t done, std::size_t total)> progress = {};
  const std::atomic<bool>* cancel = nullptr; // set it to end soon
};
constexpr auto ranges(const CompareOptions*) {
  using O = CompareOptions;
  return std::array{InRange{&O::thin_nose, "thin_nose", "m", 1e-4, 0.2},
                    InRange{&O::confidence, "confidence", "-", 0.5, 0.999}, InRange{&O::threads, "threads", 0, 4096}};
}

// What is observed of each passage: quantity::compared(steel), in its order, in SI; NaN where it has no such value.
using Observations = std::vector<double>;
// Place of a quantity among those observed.
[[nodiscard]] std::size_t observed(std::string_view key, bool steel);

using quantity::Statistic;

struct TypicalPath {
  std::size_t member;
  std::string reason; // "typical of hollow", "earliest transfer"
  std::shared_ptr<const contact::WheelPath> path;
};

struct MemberAnswer {
  enum class State { done, no_transfer, bad_input, could_not_compute, grave };
  friend constexpr auto names(State) {
    return std::array{Name{State::done, "done"}, Name{State::no_transfer, "no_transfer"},
                      Name{State::bad_input, "bad_input"}, Name{State::could_not_compute, "could_not_compute"},
                      Name{State::grave, "grave"}};
  }
  State state = State::done;
  std::string failure;                                         // why it is not done
  double speed = 0.0, static_load = 0.0, lateral_offset = 0.0; // m/s, N, m
  Observations observed;
  Findings findings;
};

struct CrossingAnswer {
  std::string name;
  std::vector<MemberAnswer> members;                   // one per wheel
  std::vector<Distribution> distributions;             // of what is observed, over the wheels compared
  double failed = 0.0, no_transfer = 0.0, grave = 0.0; // share of all wheels
  double loses_contact = 0.0, early = 0.0;             // share of the wheels compared
  // Of the wheels compared, of the weight of those whose steel is known; NaN where it was not asked for.
  double beyond_shakedown = std::numeric_limits<double>::quiet_NaN();    // shakedown exceedance above 1
  double beyond_surface_flow = std::numeric_limits<double>::quiet_NaN(); // surface fatigue index above 0
  std::string steel;                      // name of the steel of wing and nose; empty where it was not asked for
  double friction = 0.0;                  // -
  std::vector<std::size_t> early_members; // earliest first
  assess::Envelope envelope;
  assess::NoseLoad nose_load;
  // The wheel of each class nearest to its class's median transfer on the first crossing, and the earliest of all; the
  // same wheels on every crossing.
  std::vector<TypicalPath> paths;
};

struct Ranking : PairedRanking {
  Statistic criterion;
  // Per crossing: the same over all wheels, those that could not be computed or are grave counted as the worst;
  // infinite where that leaves no bound.
  std::vector<double> worst_values;
  std::vector<std::size_t> worst_places;
};

// Crossing less the first (reference) crossing.
struct Difference {
  std::size_t crossing = 1;
  // Criteria: difference of the statistic. Means of the others: mean of the wheels' differences.
  Statistic statistic;
  double value = 0.0, low = 0.0, high = 0.0;
  double higher = 0.0; // share of wheels whose quantity is higher than on the reference; NaN for shares
};

// Some of the wheels: a class, or the slower or faster, lighter or heavier half.
struct Group {
  enum class Kind { wheel_class, speed, load };
  friend constexpr auto names(Kind) {
    return std::array{Name{Kind::wheel_class, "class"}, Name{Kind::speed, "speed"}, Name{Kind::load, "load"}};
  }
  Kind kind = Kind::wheel_class;
  std::string name;                 // "hollow", "up to 31.2 m/s" told in km/h
  std::vector<std::size_t> members; // of those compared
  double share = 0.0;               // of the weight compared
  std::vector<Ranking> rankings;    // one per criterion
  // Per criterion: another crossing is best here than over all wheels, and the interval of their difference among these
  // wheels does not hold 0.
  std::vector<bool> flips;
};

struct Comparison {
  cases::Population population;
  CompareOptions options; // without callbacks
  std::vector<cases::InputFile>
      inputs;                   // files it rests on: those of the options, of every crossing's case and wheel class
  std::vector<bool> compared;   // per member: computed on all crossings, and nowhere grave
  double dropped = 0.0;         // share of weight not compared
  double effective_count = 0.0; // equal wheels that would say as much (Kish 1965), of those compared
  std::vector<CrossingAnswer> crossings;
  std::vector<Ranking> rankings;       // one per criterion
  std::vector<Difference> differences; // per crossing but the first: criteria, then the means of the other quantities
  std::vector<Group> groups;
  std::vector<std::string> dependence; // what the ranking depends on, in sentences
  Findings findings;
};

// nullopt when cancelled. Throws InputError: fewer than two crossings, a name twice or empty, a case that is no
// crossing, options out of range, a key no case knows, as check(population); ComputeError when no wheel could be
// computed on all crossings. The case of one wheel on one crossing is the crossing's case with the wheel's values and
// profile, answered by run_many.
[[nodiscard]] std::optional<Comparison> compare(std::span<const ComparedCrossing> crossings,
                                                const cases::Population& population,
                                                const CompareOptions& options = {});

// The case of one wheel on one crossing. Throws InputError as cases::vary does.
[[nodiscard]] Case case_of(std::span<const ComparedCrossing> crossings, std::size_t crossing,
                           const cases::Population& population, std::size_t member);

// documents: one per crossing, as compared; source_text: the comparison file.
[[nodiscard]] quantity::Tree tell(std::span<const ComparedCrossing> crossings, const Comparison& comparison,
                                  std::string_view source_text = {});

// Comparison files: which crossings are compared under which wheels. Tables [[crossing]] (name, case; at least two, the
// first is the reference), those of wheels (case/population.hpp), and [compare] with the options. Throw InputError.
struct ComparisonFile {
  std::vector<ComparedCrossing> crossings;
  cases::Wheels wheels;
  CompareOptions options;
};
[[nodiscard]] ComparisonFile read_comparison(const cases::Sheet& sheet, cases::Files& files);
[[nodiscard]] const cases::Schema& compare_schema(); // the keys of [compare]

} // namespace wingnose::study
