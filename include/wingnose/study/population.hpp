// A population of wheels: what rolls over every crossing of a comparison, each wheel with the weight it has in traffic.
//
// A wheel is a profile and values of case keys (offset, speed, load, ... in the unit of the key). Populations are
// listed wheel by wheel, or drawn from distributions with a seed. Drawn values are rounded to six significant digits,
// so that they are the same on every machine. Stratified drawing is a Latin hypercube (McKay, Beckman & Conover 1979,
// doi:10.1080/00401706.1979.10489755) within each class.
#pragma once

#include "wingnose/io/case_document.hpp"

#include <cstddef>
#include <cstdint>
#include <limits>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace wingnose::study {

// Units of all three: those of the key they belong to.
struct NormalSpread {
  double mean = 0.0, deviation = 1.0; // of the distribution before it is cut off; deviation > 0
  double from = -std::numeric_limits<double>::infinity(), to = std::numeric_limits<double>::infinity(); // cut off here
};
struct UniformSpread {
  double from = 0.0, to = 1.0; // from < to
};
struct ChoiceSpread {
  std::vector<io::KeyValue> values; // at least one
  std::vector<double> weights;      // one per value, >= 0, not all 0
};
using Spread = std::variant<NormalSpread, UniformSpread, ChoiceSpread>;
// The value below which lies the share u (0 < u < 1). Throws InputError for a spread that is none.
[[nodiscard]] io::KeyValue value_at(const Spread& spread, double u);

struct Variation {
  std::string key; // "wheel.lateral_offset_mm"
  Spread spread;
};

// Wheels alike in profile, known by one name.
struct WheelClass {
  std::string name;
  double share = 1.0; // of the population against the other classes, > 0; drawn populations only
  // A case whose wheel is that of the class; nullopt: the wheel of the first crossing's case. Its keys wheel.*, but the
  // offset and the radius, may vary.
  std::optional<io::CaseDocument> wheel;
  std::vector<Variation> variations; // beside those of the recipe, which they replace where the key is the same
};

struct Member {
  std::string name;                 // "hollow 7"
  std::size_t wheel_class = 0;      // index into Population::classes
  double weight = 1.0;              // >= 0, in any unit
  std::vector<io::Override> values; // each key once
};

struct Population {
  std::vector<WheelClass> classes;
  std::vector<Member> members;
};

enum class Sampling { stratified, simple };

struct PopulationRecipe {
  std::vector<WheelClass> classes;   // at least one
  std::vector<Variation> variations; // of all classes
  std::size_t count = 100;           // wheels, at least one per class, at most a million
  std::uint64_t seed = 1;
  Sampling sampling = Sampling::stratified;
};

// Stratified: every class gets its share of the count, at least one wheel, and the weights make up for the rounding.
// Simple: class and values of each wheel are drawn independently; all weights are equal. Weights sum to 1. Throws
// InputError: no class, a share not above 0, a class or key twice, a spread that is none, too few or too many wheels.
[[nodiscard]] Population draw(const PopulationRecipe& recipe);

// Throws InputError: no member, a weight below 0 or not finite, no weight above 0, a class that does not exist, a
// class name twice.
void check(const Population& population);

} // namespace wingnose::study
