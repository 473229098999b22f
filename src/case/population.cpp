#include "wingnose/case/population.hpp"

#include "wingnose/numeric/dice.hpp"
#include "wingnose/words/error.hpp"

#include <boost/math/distributions/normal.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>
#include <string>

namespace wingnose::cases {
namespace {

constexpr std::size_t most_wheels = 1'000'000;

// Logarithms and error functions differ in their last bits between machines; six digits do not.
double rounded(double value, double from, double to) { return std::clamp(std::stod(number(value)), from, to); }

struct At {
  double u;
  KeyValue operator()(const NormalSpread& s) const {
    if (!(std::isfinite(s.mean) && std::isfinite(s.deviation) && s.deviation > 0.0 && s.from < s.to)) {
      throw InputError(
          "a normal distribution needs a mean, a standard deviation above 0, and from below to where it is "
          "cut off");
    }
    const boost::math::normal normal(s.mean, s.deviation);
    const double low = std::isfinite(s.from) ? cdf(normal, s.from) : 0.0;
    const double high = std::isfinite(s.to) ? cdf(normal, s.to) : 1.0;
    if (!(high - low > 1e-9)) {
      throw InputError("a normal distribution of mean " + number(s.mean) + " and standard deviation " +
                       number(s.deviation) + " has nothing between " + number(s.from) + " and " + number(s.to));
    }
    const double p = low + u * (high - low);
    return rounded(p > 0.0 && p < 1.0 ? quantile(normal, p) : s.mean, s.from, s.to);
  }
  KeyValue operator()(const UniformSpread& s) const {
    if (!(std::isfinite(s.from) && std::isfinite(s.to) && s.from < s.to)) {
      throw InputError("a uniform distribution needs from below to; it has " + number(s.from) + " and " + number(s.to));
    }
    return rounded(s.from + u * (s.to - s.from), s.from, s.to);
  }
  KeyValue operator()(const ChoiceSpread& s) const {
    const double total = std::accumulate(s.weights.begin(), s.weights.end(), 0.0);
    if (s.values.empty() || s.values.size() != s.weights.size() || !(total > 0.0) || !std::isfinite(total) ||
        std::any_of(s.weights.begin(), s.weights.end(), [](double w) { return !(w >= 0.0); })) {
      throw InputError("a choice needs values and as many weights, none below 0 and not all 0");
    }
    double below = 0.0;
    std::size_t last = 0;
    for (std::size_t i = 0; i < s.values.size(); ++i) {
      below += s.weights[i];
      if (s.weights[i] > 0.0) {
        last = i;
        if (u * total < below) {
          break;
        }
      }
    }
    return s.values[last];
  }
};

void check(const std::vector<Variation>& variations) {
  std::set<std::string> keys;
  for (const auto& variation : variations) {
    if (!keys.insert(variation.key).second) {
      throw InputError("\"" + variation.key + "\" varies twice; name each key once");
    }
    try {
      (void)value_at(variation.spread, 0.5);
    } catch (const InputError& error) {
      throw InputError("\"" + variation.key + "\": " + error.what());
    }
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

// As many wheels of each class as its share asks for, by largest remainders, but at least one.
std::vector<std::size_t> allotted(const PopulationRecipe& recipe, double total) {
  std::vector<std::size_t> counts;
  std::vector<double> missing;
  for (const auto& c : recipe.classes) {
    const double quota = static_cast<double>(recipe.count) * c.share / total;
    counts.push_back(std::max<std::size_t>(1, static_cast<std::size_t>(quota)));
    missing.push_back(quota - static_cast<double>(counts.back()));
  }
  for (std::size_t sum = std::accumulate(counts.begin(), counts.end(), std::size_t{0}); sum != recipe.count;) {
    if (sum < recipe.count) {
      const auto most = static_cast<std::size_t>(std::max_element(missing.begin(), missing.end()) - missing.begin());
      ++counts[most], --missing[most], ++sum;
    } else {
      std::size_t least = counts.size();
      for (std::size_t i = 0; i < counts.size(); ++i) {
        least = counts[i] > 1 && (least == counts.size() || missing[i] < missing[least]) ? i : least;
      }
      --counts[least], ++missing[least], --sum;
    }
  }
  return counts;
}

void draw_stratified(const PopulationRecipe& recipe, double total, Dice& dice, std::vector<Member>& members) {
  const auto counts = allotted(recipe, total);
  for (std::size_t c = 0; c < recipe.classes.size(); ++c) {
    const std::size_t n = counts[c], first = members.size();
    const double weight = recipe.classes[c].share / total / static_cast<double>(n);
    for (std::size_t i = 0; i < n; ++i) {
      members.push_back({recipe.classes[c].name + " " + std::to_string(i + 1), c, weight, {}});
    }
    for (const auto& variation : variations_of(recipe, recipe.classes[c])) {
      std::vector<std::size_t> stratum(n);
      std::iota(stratum.begin(), stratum.end(), std::size_t{0});
      for (std::size_t i = n; i > 1; --i) {
        std::swap(stratum[i - 1], stratum[dice.below(i)]);
      }
      for (std::size_t i = 0; i < n; ++i) {
        const double u = (static_cast<double>(stratum[i]) + dice.fraction()) / static_cast<double>(n);
        members[first + i].values.push_back({variation.key, value_at(variation.spread, u)});
      }
    }
  }
}

void draw_simple(const PopulationRecipe& recipe, double total, Dice& dice, std::vector<Member>& members) {
  std::vector<std::size_t> seen(recipe.classes.size(), 0);
  for (std::size_t i = 0; i < recipe.count; ++i) {
    double left = dice.fraction() * total;
    std::size_t c = 0;
    while (c + 1 < recipe.classes.size() && left >= recipe.classes[c].share) {
      left -= recipe.classes[c++].share;
    }
    Member member{
        recipe.classes[c].name + " " + std::to_string(++seen[c]), c, 1.0 / static_cast<double>(recipe.count), {}};
    for (const auto& variation : variations_of(recipe, recipe.classes[c])) {
      member.values.push_back({variation.key, value_at(variation.spread, dice.fraction())});
    }
    members.push_back(std::move(member));
  }
}

} // namespace

KeyValue value_at(const Spread& spread, double u) { return std::visit(At{u}, spread); }

Population draw(const PopulationRecipe& recipe) {
  check(recipe);
  Population population;
  population.classes = recipe.classes;
  double total = 0.0;
  for (const auto& c : recipe.classes) {
    total += c.share;
  }
  Dice dice(recipe.seed);
  if (recipe.sampling == Sampling::stratified) {
    draw_stratified(recipe, total, dice, population.members);
  } else {
    draw_simple(recipe, total, dice, population.members);
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

const std::vector<WheelClass>& classes_of(const Wheels& wheels) {
  return std::visit([](const auto& one) -> const std::vector<WheelClass>& { return one.classes; }, wheels);
}

} // namespace wingnose::cases
