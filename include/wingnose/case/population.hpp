// A population of wheels: what rolls over every crossing of a comparison, each wheel with the weight it has in traffic.
//
// A wheel is a profile and values of case keys (offset, speed, load, ... in the unit of the key). Populations are
// listed wheel by wheel, or drawn from distributions (numeric/sampling.hpp) with a seed.
#pragma once

#include "wingnose/case/document.hpp"
#include "wingnose/numeric/sampling.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace wingnose::cases {

// Units of all three spreads: those of the key they belong to.
struct ChoiceSpread {
  std::vector<KeyValue> values; // at least one
  std::vector<double> weights;  // one per value, >= 0, not all 0
};
using Spread = std::variant<NormalSpread, UniformSpread, ChoiceSpread>;
[[nodiscard]] KeyValue value_at(const Spread& spread, double u); // as numeric/sampling.hpp

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
  std::optional<Document> wheel;
  std::vector<Variation> variations; // beside those of the recipe, which they replace where the key is the same
};

struct Member {
  std::string name;             // "hollow 7"
  std::size_t wheel_class = 0;  // index into Population::classes
  double weight = 1.0;          // >= 0, in any unit
  std::vector<Override> values; // each key once
};

struct Population {
  std::vector<WheelClass> classes;
  std::vector<Member> members;
};

enum class Sampling { stratified, simple };
constexpr auto names(Sampling) {
  return std::array{Name{Sampling::stratified, "stratified", "a Latin hypercube within each class"},
                    Name{Sampling::simple, "simple", "every wheel drawn by itself"}};
}

struct PopulationRecipe {
  std::vector<WheelClass> classes;   // at least one
  std::vector<Variation> variations; // of all classes
  std::size_t count = 100;           // wheels, at least one per class, at most a million
  std::uint64_t seed = 1;
  Sampling sampling = Sampling::stratified;
};

// As numeric/sampling.hpp; weights sum to 1. Throws InputError: no class, a share not above 0, a class or key twice, a
// spread that is none, too few or too many wheels.
[[nodiscard]] Population draw(const PopulationRecipe& recipe);

// Throws InputError: no member, a weight below 0 or not finite, no weight above 0, a class that does not exist, a
// class name twice.
void check(const Population& population);

// What rolls, as a file says: listed, or drawn.
using Wheels = std::variant<PopulationRecipe, Population>;
[[nodiscard]] Population wheels_of(const Wheels& wheels);
// Of a sheet with [population], [[class]] and [[wheel]]:
//
//   [population]   count, seed, sampling             wheels drawn from [[class]] and [[population.vary]]
//   [population]   csv                               or listed: columns weight, and optionally name, class, keys
//   [[wheel]]      weight, name, class, keys         or listed here: wheel.lateral_offset_mm = 2
//   [[class]]      name, share, wheel = { ... }      profile as in [wheel] of a case; [[class.vary]]
//
// A vary table has a key and a distribution: "normal" (mean, standard_deviation, from, to), "uniform" (from, to),
// "choice" (values, weights). Values are in the unit of the key. Throws InputError.
[[nodiscard]] Wheels read_wheels(const Sheet& sheet, Files& files);
// A file of wheels alone: which wheels roll over the crossing of a case. Throws InputError, also for a comparison.
[[nodiscard]] Wheels read_population(const Sheet& sheet, Files& files);

// Values of keys that vary, as files give them; sweeps read theirs with these, too. A list or table is refused with
// where it stands, what is expected and what to do; the text of a cell that is a number is one.
[[nodiscard]] KeyValue one_value(const Written& value, const std::string& where, const std::string& expected,
                                 const std::string& advice);
[[nodiscard]] KeyValue cell_value(const std::string& cell);

} // namespace wingnose::cases
