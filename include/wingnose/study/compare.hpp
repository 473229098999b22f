// Several crossings under one population of wheels: distributions, ranking, differences with their spread, and wheels
// that transfer early onto a thin nose.
//
// Every wheel runs over every crossing, so crossings are compared wheel by wheel (paired). Crossings are compared on
// the wheels that could be computed on all of them; how many were dropped, and why, is part of the answer.
//
// - quantile: the inverse of the weighted empirical distribution function, the mean of two neighbours where it is flat
//   (definition 2 of Hyndman & Fan 1996, doi:10.1080/00031305.1996.10473566, with weights). Standard deviation: of the
//   weighted population, no correction.
// - interval: percentile bootstrap (Efron 1979, doi:10.1214/aos/1176344552) over wheels, weights carried along, the
//   same resamples for all crossings. Of a stratified population it is on the wide side.
// - share of a class, an early transfer, ...: share of weight, not of number.
//
// Asked for, the answer also tells what each landing does to the steel (study/steel_measures.hpp), with the steel and
// friction of each crossing's case. Nothing else changes by that.
// SI; wingnose/words/frame.hpp.
#pragma once

#include "wingnose/study/case.hpp"
#include "wingnose/study/population.hpp"

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
  std::string name;          // "worn"
  io::CaseDocument document; // a case that runs over a crossing (generated or sections)
};

struct CompareOptions {
  double thin_nose = 0.020; // m, > 0; a wheel that transfers where the nose is thinner transfers early. Default: common
                            // practice, no source
  double confidence = 0.95; // of the intervals, 0.5 .. 0.999
  std::size_t resamples = 2000;        // of the bootstrap, 100 .. 100000
  std::uint64_t seed = 1;              // of the bootstrap
  double envelope_step = 0.010;        // m, 1 mm .. 1 m; the largest force within each step counts
  double envelope_from = -0.5;         // m, stations of the envelopes, cut to what all passages cover
  double envelope_to = 1.5;            // m
  double thickness_step = 0.002;       // m, 0.1 mm .. 50 mm, bins of nose thickness
  double thickness_to = 0.080;         // m, bins reach from 0 to here
  bool steel = false;                  // what the landing does to the steel, too; half as much work again
  bool paths = true;                   // wheel paths of typical wheels, see CrossingAnswer::paths
  int threads = 0;                     // 0: one per core
  std::size_t passages_per_chunk = 64; // answered at once; without influence on the numbers
  std::vector<InputFile> inputs;       // files the comparison was asked with, to be told with the answer
  // Passages done so far. As of run_many.
  std::function<void(std::size_t done, std::size_t total)> progress = {};
  const std::atomic<bool>* cancel = nullptr; // set it to end soon
};

// What is observed of each passage.
enum class Observed {
  transfer_station, // m
  nose_thickness,   // m
  dip_angle,        // rad
  p2,               // N
  peak_nose,        // N
  peak_total,       // N
  lost_contact,     // s
  // Of the steel, only when asked for.
  peak_pressure,   // Pa
  shakedown,       // -, exceedance
  fatigue_index,   // -, surface
  t_gamma,         // N
  crack_damage,    // -, per wheel
  friction_energy, // J
  wear_volume      // m3
};
inline constexpr std::array observed_all{
    Observed::transfer_station, Observed::nose_thickness, Observed::dip_angle,    Observed::p2,
    Observed::peak_nose,        Observed::peak_total,     Observed::lost_contact, Observed::peak_pressure,
    Observed::shakedown,        Observed::fatigue_index,  Observed::t_gamma,      Observed::crack_damage,
    Observed::friction_energy,  Observed::wear_volume};
inline constexpr std::size_t observed_count = observed_all.size();
using Observations = std::array<double, observed_count>; // NaN where a passage has no such value
[[nodiscard]] constexpr bool of_steel(Observed of) { return of >= Observed::peak_pressure; }
// What a comparison observes: all, or all but the steel.
[[nodiscard]] constexpr std::span<const Observed> observed(bool steel) {
  return std::span(observed_all).first(steel ? observed_count : static_cast<std::size_t>(Observed::peak_pressure));
}

inline constexpr std::array quantile_levels{0.05, 0.25, 0.50, 0.75, 0.95, 0.99};

// A statistic of one quantity over the population.
struct Statistic {
  enum class Kind { mean, quantile, share_above_zero };
  Observed of = Observed::p2;
  Kind kind = Kind::mean;
  double level = 0.5;            // of a quantile
  bool higher_is_better = false; // as a criterion
};
// What crossings are ranked by: P2 median, P2 95 %, peak nose force 95 %, dip angle mean, share that loses contact, and
// nose thickness at transfer 5 % (earliest transfers; thicker is better). With the steel also shakedown exceedance 95 %
// (what the hardest landings do to the bulk), share of wheels with a surface fatigue index above 0 (how many make the
// surface flow) and wear volume mean (what every wheel takes away). Peak pressure and friction energy say much the same
// as these; T-gamma is no criterion, as more of it first grows cracks and then wears them away.
[[nodiscard]] inline std::vector<Statistic> criteria(bool steel = false) {
  using Kind = Statistic::Kind;
  std::vector<Statistic> list{{Observed::p2, Kind::quantile, 0.50, false},
                              {Observed::p2, Kind::quantile, 0.95, false},
                              {Observed::peak_nose, Kind::quantile, 0.95, false},
                              {Observed::dip_angle, Kind::mean, 0.5, false},
                              {Observed::lost_contact, Kind::share_above_zero, 0.5, false},
                              {Observed::nose_thickness, Kind::quantile, 0.05, true}};
  if (steel) {
    list.push_back({Observed::shakedown, Kind::quantile, 0.95, false});
    list.push_back({Observed::fatigue_index, Kind::share_above_zero, 0.5, false});
    list.push_back({Observed::wear_volume, Kind::mean, 0.5, false});
  }
  return list;
}

// --- statistics of weighted samples; weights >= 0, not all 0; throw InputError for unequal or empty lists ----------
[[nodiscard]] double weighted_mean(std::span<const double> values, std::span<const double> weights);
[[nodiscard]] double weighted_deviation(std::span<const double> values, std::span<const double> weights);
[[nodiscard]] double weighted_quantile(std::span<const double> values, std::span<const double> weights, double level);
// NaN when no value counts; values that are NaN do not count.
[[nodiscard]] double evaluate(const Statistic& statistic, std::span<const double> values,
                              std::span<const double> weights);

struct Distribution {
  std::size_t count = 0;                                           // wheels with a value
  double share = 0.0;                                              // of the weight of the wheels compared
  double mean = 0.0, deviation = 0.0, least = 0.0, greatest = 0.0; // NaN without a value
  std::array<double, quantile_levels.size()> quantiles{};
  std::vector<double> values, cumulative; // rising values, and the share of weight at or below each
};

struct Envelope {
  std::vector<double> station;           // m, middle of each step
  std::vector<double> low, middle, high; // N, 5, 50 and 95 % of the wheels' largest force within the step
  std::vector<double> most;              // N, over all wheels
};

// Load of the nose where it is so thick: over wheels, the mean force while the axle is over the bin, and the largest.
struct NoseLoad {
  std::vector<double> from, to; // m, nose thickness; bins no passage covers are left out
  std::vector<double> mean;     // N, weighted mean over wheels of each wheel's mean force
  std::vector<double> high;     // N, 95 % quantile over wheels of each wheel's largest force
  std::vector<double> bearing;  // share of wheels whose nose bears at all there
};

struct TypicalPath {
  std::size_t member;
  std::string reason; // "typical of hollow", "earliest transfer"
  std::shared_ptr<const contact::WheelPath> path;
};

struct MemberAnswer {
  enum class State { done, no_transfer, bad_input, could_not_compute };
  State state = State::done;
  std::string failure;                                         // why it is not done
  double speed = 0.0, static_load = 0.0, lateral_offset = 0.0; // m/s, N, m
  Observations observed{};
  std::string steel_failure;    // why nothing is known of the steel although the wheel is done and it was asked for
  double change_of_angle = 0.0; // rad, inside a patch; 0 where the steel was not asked for
};

struct CrossingAnswer {
  std::string name;
  std::vector<MemberAnswer> members;                        // one per wheel
  std::array<Distribution, observed_count> distributions{}; // over the wheels compared
  double failed = 0.0, no_transfer = 0.0;                   // share of all wheels
  double loses_contact = 0.0, early = 0.0;                  // share of the wheels compared
  // Of the wheels compared, of the weight of those whose steel is known; NaN where it was not asked for.
  double beyond_shakedown = std::numeric_limits<double>::quiet_NaN();    // shakedown exceedance above 1
  double beyond_surface_flow = std::numeric_limits<double>::quiet_NaN(); // surface fatigue index above 0
  std::string steel;                      // name of the steel of wing and nose; empty where it was not asked for
  double friction = 0.0;                  // -
  std::vector<std::size_t> early_members; // earliest first
  Envelope envelope;
  NoseLoad nose_load;
  // The wheel of each class nearest to its class's median transfer on the first crossing, and the earliest of all; the
  // same wheels on every crossing.
  std::vector<TypicalPath> paths;
};

struct Ranking {
  Statistic criterion;
  std::vector<double> values;     // per crossing
  std::vector<std::size_t> order; // crossings, best first; equal values in the order given
  // Per place but the last: the interval of the difference to the next place does not hold 0.
  std::vector<bool> apart;
  // Per crossing: 1 for the best; equal values share a place, values that do not exist share the last.
  std::vector<std::size_t> places;
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
  Population population;
  CompareOptions options;        // without callbacks
  std::vector<InputFile> inputs; // files it rests on: those of the options, of every crossing's case and wheel class
  std::vector<bool> compared;    // per member: computed on all crossings
  double dropped = 0.0;          // share of weight not compared
  double effective_count = 0.0;  // equal wheels that would say as much (Kish 1965), of those compared
  std::vector<CrossingAnswer> crossings;
  std::vector<Ranking> rankings;       // one per criterion
  std::vector<Difference> differences; // per crossing but the first: criteria, then the means of the other quantities
  std::vector<Group> groups;
  std::vector<std::string> dependence;        // what the ranking depends on, in sentences
  std::vector<std::string> warnings;          // early transfers onto a thin nose, by name
  std::vector<std::string> notes;             // what a reader must know beside the numbers
  std::vector<std::string> steel_assumptions; // what the numbers of the steel rest on; empty where not asked for
};

// nullopt when cancelled. Throws InputError: fewer than two crossings, a name twice or empty, a case that is no
// crossing, options out of range, a key no case knows, as check(population); ComputeError when no wheel could be
// computed on all crossings. The case of one wheel on one crossing is the crossing's case with the wheel's values and
// profile, answered by run_many.
[[nodiscard]] std::optional<Comparison> compare(std::span<const ComparedCrossing> crossings,
                                                const Population& population, const CompareOptions& options = {});

// The case of one wheel on one crossing. Throws InputError as io::vary does.
[[nodiscard]] Case case_of(std::span<const ComparedCrossing> crossings, std::size_t crossing,
                           const Population& population, std::size_t member);

} // namespace wingnose::study
