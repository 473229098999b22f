// Several crossings under one population of wheels: distributions, ranking, differences with their spread, and wheels
// that transfer early onto a thin nose.
//
// Every wheel runs over every crossing; what follows from that, and how wheels that could not be computed are dropped
// and told, is in assess/comparison.hpp.
//
// Asked for, the answer also tells what each landing does to the steel (study/steel.hpp), with the steel and friction
// of each crossing's case. Nothing else changes by that. SI; wingnose/words/frame.hpp.
#pragma once

#include "wingnose/assess/comparison.hpp"
#include "wingnose/case/population.hpp"
#include "wingnose/quantity/statistics.hpp"
#include "wingnose/quantity/tree.hpp"
#include "wingnose/study/run.hpp"

#include <array>
#include <atomic>
#include <cstddef>
#include <cstdint>
#include <functional>
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
  double thin_nose = 0.020;                    // m, > 0; a wheel that transfers where the nose is thinner
                                               // transfers early. Default: common practice, no source
  double confidence = 0.95;                    // of the intervals, 0.5 .. 0.999
  std::size_t resamples = 2000;                // of the bootstrap, 100 .. 100000
  std::uint64_t seed = 1;                      // of the bootstrap
  assess::ForceGrid grid;                      // of the envelopes and of the loads on the nose
  std::vector<std::string> differs_on_purpose; // keys beside the crossing's in which the cases are meant to differ
  bool steel = false;                          // what the landing does to the steel, too; half as much work again
  bool track = false;                          // what bearers feel, too; passages then go one at a time
  bool paths = true;                           // wheel paths of typical wheels, see ComparedOnCrossing::paths
  int threads = 0;                             // 0: one per core
  std::size_t passages_per_chunk = 64;         // answered at once; without influence on the numbers
  std::vector<cases::InputFile> inputs;        // files the comparison was asked with, to be told with the answer
  // Passages done so far. As of run_many.
  std::function<void(std::size_t done, std::size_t total)> progress = {};
  const std::atomic<bool>* cancel = nullptr; // set it to end soon
};
constexpr auto ranges(const CompareOptions*) {
  using O = CompareOptions;
  return std::array{InRange{&O::thin_nose, "thin_nose", "m", 1e-4, 0.2},
                    InRange{&O::confidence, "confidence", "-", 0.5, 0.999}, InRange{&O::threads, "threads", 0, 4096}};
}

// Place of a quantity among those observed of each passage: quantity::compared(steel, track), in its order.
[[nodiscard]] std::size_t observed(std::string_view key, bool steel, bool track = false);

struct Comparison : assess::CrossingComparison {
  cases::Population population;
  CompareOptions options; // without callbacks
  // Files it rests on: those of the options, of every crossing's case and wheel class.
  std::vector<cases::InputFile> inputs;
  std::vector<quantity::Statistic> criteria; // what crossings are ranked by, one per ranking
};
// What a difference is one of.
[[nodiscard]] quantity::Statistic statistic_of(const Comparison& comparison, const PairedDifference& difference);

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
