#include "wingnose/case/population.hpp"

#include "wingnose/numeric/overloaded.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>
#include <string>

namespace wingnose::cases {
namespace {

constexpr std::size_t most_wheels = 1'000'000;

void check(const std::vector<Variation>& variations) {
  std::set<std::string> keys;
  for (const auto& variation : variations) {
    if (!keys.insert(variation.key).second) {
      throw InputError("\"" + variation.key + "\" varies twice; name each key once");
    }
    (void)with_place('"' + variation.key + '"', [&] { return value_at(variation.spread, 0.5); });
  }
}

void check_names(const std::vector<WheelClass>& classes) {
  std::set<std::string> names;
  for (const auto& c : classes) {
    if (c.name.empty() || !names.insert(c.name).second) {
      throw InputError(c.name.empty() ? "a wheel class has no name"
                                      : "two wheel classes are called \"" + c.name + "\"; give each its own name");
    }
  }
}

void check(const PopulationRecipe& r) {
  if (r.classes.empty()) {
    throw InputError("a population needs at least one wheel class");
  }
  if (r.count < r.classes.size() || r.count > most_wheels) {
    throw InputError("number of wheels", std::to_string(r.count),
                     std::to_string(r.classes.size()) + " (one of each class) to 1 million",
                     "A few hundred wheels settle medians, a few thousand the rare ones.");
  }
  check_names(r.classes);
  check(r.variations);
  for (const auto& c : r.classes) {
    if (!(std::isfinite(c.share) && c.share > 0.0)) {
      throw InputError("share of the class \"" + c.name + "\"", number(c.share), "above 0",
                       "Leave out a class that does not occur.");
    }
    check(c.variations);
  }
}

std::vector<Variation> variations_of(const PopulationRecipe& recipe, const WheelClass& c) {
  std::vector<Variation> all = recipe.variations;
  for (const auto& own : c.variations) {
    const auto same = std::find_if(all.begin(), all.end(), [&](const Variation& v) { return v.key == own.key; });
    if (same == all.end()) {
      all.push_back(own);
    } else {
      *same = own;
    }
  }
  return all;
}

} // namespace

KeyValue value_at(const Spread& spread, double u) {
  return std::visit(
      overloaded{[u](const ChoiceSpread& s) { return s.values[choice_at(s.values.size(), s.weights, u)]; },
                 [u](const auto& s) { return KeyValue(wingnose::value_at(s, u)); }},
      spread);
}

Population draw(const PopulationRecipe& recipe) {
  check(recipe);
  Population population{recipe.classes, {}};
  std::vector<ClassOfItems> classes;
  std::vector<std::vector<Variation>> variations;
  for (const WheelClass& c : recipe.classes) {
    variations.push_back(variations_of(recipe, c));
    classes.push_back({c.share, variations.back().size()});
  }
  Dice dice(recipe.seed);
  const auto draw_items = recipe.sampling == Sampling::stratified ? draw_stratified : draw_simple;
  std::vector<std::size_t> seen(classes.size(), 0);
  for (const auto& [c, weight, u] : draw_items(classes, recipe.count, dice)) {
    Member& member = population.members.emplace_back();
    member = {recipe.classes[c].name + " " + std::to_string(++seen[c]), c, weight, {}};
    for (std::size_t v = 0; v < u.size(); ++v) {
      member.values.push_back({variations[c][v].key, value_at(variations[c][v].spread, u[v])});
    }
  }
  return population;
}

void check(const Population& population) {
  if (population.members.empty()) {
    throw InputError("a population needs at least one wheel");
  }
  check_names(population.classes);
  double total = 0.0;
  for (const auto& member : population.members) {
    if (!(std::isfinite(member.weight) && member.weight >= 0.0)) {
      throw InputError("weight of the wheel \"" + member.name + "\"", number(member.weight), "0 or more",
                       "A weight says how often such a wheel comes.");
    }
    if (member.wheel_class >= population.classes.size()) {
      throw InputError("wheel class of \"" + member.name + "\"", std::to_string(member.wheel_class),
                       "one of " + std::to_string(population.classes.size()) + " classes, counted from 0",
                       "Every wheel belongs to a class.");
    }
    total += member.weight;
  }
  if (!(total > 0.0) || !std::isfinite(total)) {
    throw InputError("the weights of all wheels sum to " + number(total) +
                     "; at least one wheel needs a weight above 0");
  }
}

Population wheels_of(const Wheels& wheels) {
  const auto* recipe = std::get_if<PopulationRecipe>(&wheels);
  return recipe != nullptr ? draw(*recipe) : std::get<Population>(wheels);
}

} // namespace wingnose::cases
