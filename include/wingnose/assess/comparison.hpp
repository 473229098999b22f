// What the passages of a population of wheels over several crossings mean: distributions, ranking and differences with
// their spread, groups of wheels that may rank otherwise, and wheels that transfer early onto a thin nose.
//
// Every wheel runs over every crossing, so crossings are compared wheel by wheel (numeric/paired.hpp), on the wheels
// that could be computed on all of them without a grave finding; how many were dropped is part of the answer, and every
// criterion is also told with the dropped wheels counted as the worst. Shares (of a class, of early transfers, ...) are
// shares of weight, not of number. SI.
#pragma once

#include "wingnose/assess/force_grid.hpp"
#include "wingnose/contact/path/kinematics.hpp"
#include "wingnose/numeric/paired.hpp"
#include "wingnose/words/finding.hpp"
#include "wingnose/words/names.hpp"
#include "wingnose/words/unit.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace wingnose::assess {

// One wheel on one crossing.
struct ComparedPassage {
  enum class State { done, no_transfer, bad_input, could_not_compute, grave };
  friend constexpr auto names(State) {
    return std::array{Name{State::done, "done"}, Name{State::no_transfer, "no_transfer"},
                      Name{State::bad_input, "bad_input"}, Name{State::could_not_compute, "could_not_compute"},
                      Name{State::grave, "grave"}};
  }
  State state = State::done;
  std::string failure;                                         // why it is not done
  double speed = 0.0, static_load = 0.0, lateral_offset = 0.0; // m/s, N, m
  std::vector<double> observed;                                // SI; NaN where the passage has no such value
  Findings findings;
};

struct TypicalPath {
  std::size_t member;
  std::string reason; // "typical of hollow", "earliest transfer"; of a trailing move "latest transfer"
  std::shared_ptr<const contact::WheelPath> path;
};

struct ComparedOnCrossing {
  std::string name;
  std::vector<ComparedPassage> members;                // one per wheel
  std::vector<Distribution> distributions;             // of what is observed, over the wheels compared
  double failed = 0.0, no_transfer = 0.0, grave = 0.0; // share of all wheels
  double loses_contact = 0.0, early = 0.0;             // share of the wheels compared
  // Of the wheels compared, of the weight of those whose steel is known; NaN where it was not asked for.
  double beyond_shakedown = std::numeric_limits<double>::quiet_NaN();    // shakedown exceedance above 1
  double beyond_surface_flow = std::numeric_limits<double>::quiet_NaN(); // surface fatigue index above 0
  std::string steel;                      // name of the steel of wing and nose; empty where it was
                                          // not asked for
  double friction = 0.0;                  // -
  std::vector<std::size_t> early_members; // earliest first
  Envelope envelope;
  NoseLoad nose_load;
  // The wheel of each class nearest to its class's median transfer on the first crossing, and the earliest of all; the
  // same wheels on every crossing.
  std::vector<TypicalPath> paths;
};

struct CrossingRanking : PairedRanking {
  // Per crossing: the same over all wheels, those that could not be computed or are grave counted as the worst;
  // infinite where that leaves no bound.
  std::vector<double> worst_values;
  std::vector<std::size_t> worst_places;
};

// Some of the wheels: a class, or the slower or faster, lighter or heavier half.
struct WheelGroup {
  enum class Kind { wheel_class, speed, load };
  friend constexpr auto names(Kind) {
    return std::array{Name{Kind::wheel_class, "class"}, Name{Kind::speed, "speed"}, Name{Kind::load, "load"}};
  }
  Kind kind = Kind::wheel_class;
  std::string name;                    // "class hollow", "speeds up to 112.4 km/h"
  std::vector<std::size_t> members;    // of those compared
  double share = 0.0;                  // of the weight compared
  std::vector<PairedRanking> rankings; // one per criterion
  // Per criterion: another crossing is best here than over all wheels, and the interval of their difference among these
  // wheels does not hold 0.
  std::vector<bool> flips;
};

struct CrossingComparison {
  std::vector<bool> compared;   // per member: computed on all crossings, and nowhere grave
  double dropped = 0.0;         // share of weight not compared
  double effective_count = 0.0; // equal wheels that would say as much (Kish 1965), of those compared
  std::vector<ComparedOnCrossing> crossings;
  std::vector<CrossingRanking> rankings;     // one per criterion
  std::vector<PairedDifference> differences; // per crossing but the first: criteria, then means of the
                                             // other quantities
  std::vector<WheelGroup> groups;
  std::vector<std::string> dependence; // what the ranking depends on, in sentences
  Findings findings;                   // grave ones first
};

// How a criterion is told: "P2, 95 %".
struct CriterionName {
  std::string label;
  Unit unit;
  int decimals;
};
// What is needed beside the passages. Places are those among what is observed.
struct ComparisonTerms {
  std::vector<std::string> names = {};       // of each wheel
  std::vector<std::string> classes = {};     // names of wheel classes
  std::vector<std::size_t> wheel_class = {}; // of each wheel
  std::vector<double> weights = {};          // of each wheel
  std::vector<Criterion> criteria = {};      // what crossings are ranked by
  std::vector<CriterionName> called = {};    // the criteria
  std::size_t lost_contact = 0, nose_thickness = 0, peak_nose = 0;
  std::optional<std::size_t> shakedown = {}, surface_fatigue = {}; // where the steel was asked for
  double thin_nose = 0.0; // m; a facing transfer onto a thinner nose is early, a trailing one from it late
  Direction direction = Direction::facing;
  std::size_t resamples = 0;
  std::uint64_t seed = 0;
  double confidence = 0.0;
  Findings of_cases = {}, of_steel = {}; // found of the cases alone
};

// Fills all that follows from the passages of every crossing. forces: of each crossing. paths: without the paths
// themselves, where asked for. Throws ComputeError when no wheel could be computed on all crossings.
void compare(CrossingComparison& comparison, const ComparisonTerms& terms, std::span<const ForcesOfMany> forces,
             bool paths);

} // namespace wingnose::assess
