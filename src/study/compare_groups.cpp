// Does the ranking hold for every kind of wheel, speed and load?
#include "compare_parts.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace wingnose::study {
namespace {

constexpr std::size_t fewest = 10; // wheels; of fewer a bootstrap says nothing

// The halves of the wheels below and above the weighted median of a value; none when it does not vary.
void add_halves(std::vector<std::pair<Group, std::vector<std::size_t>>>& groups, Group::Kind kind,
                const std::vector<double>& values, const std::vector<double>& weights, double per_unit,
                const std::string& unit) {
  const auto [least, most] = std::minmax_element(values.begin(), values.end());
  if (!(*most - *least > 1e-6 * *most)) {
    return;
  }
  double middle = weighted_quantile(values, weights, 0.5);
  if (middle >= *most) { // more than half of the weight has the greatest value
    middle = *least;
    for (const double value : values) {
      middle = value < *most ? std::max(middle, value) : middle;
    }
  }
  std::pair<Group, std::vector<std::size_t>> lower, upper;
  lower.first.kind = upper.first.kind = kind;
  const std::string limit = number(std::round(10.0 * middle / per_unit) / 10.0) + " " + unit;
  lower.first.name = (kind == Group::Kind::speed ? "speeds up to " : "wheel loads up to ") + limit;
  upper.first.name = (kind == Group::Kind::speed ? "speeds above " : "wheel loads above ") + limit;
  for (std::size_t i = 0; i < values.size(); ++i) {
    (values[i] <= middle ? lower : upper).second.push_back(i);
  }
  groups.push_back(std::move(lower));
  groups.push_back(std::move(upper));
}

} // namespace

std::vector<Group> groups_of(const Comparison& comparison, const std::vector<std::size_t>& members,
                             const Sample& sample) {
  std::vector<std::pair<Group, std::vector<std::size_t>>> candidates;
  const auto& classes = comparison.population.classes;
  for (std::size_t k = 0; classes.size() > 1 && k < classes.size(); ++k) {
    std::pair<Group, std::vector<std::size_t>> one;
    one.first.name = "class " + classes[k].name;
    for (std::size_t i = 0; i < members.size(); ++i) {
      if (comparison.population.members[members[i]].wheel_class == k) {
        one.second.push_back(i);
      }
    }
    candidates.push_back(std::move(one));
  }
  std::vector<double> speeds, loads;
  for (const std::size_t m : members) {
    speeds.push_back(comparison.crossings.front().members[m].speed);
    loads.push_back(comparison.crossings.front().members[m].static_load);
  }
  add_halves(candidates, Group::Kind::speed, speeds, sample.weights, 1.0 / 3.6, "km/h");
  add_halves(candidates, Group::Kind::load, loads, sample.weights, 1e3, "kN");

  const double total = std::accumulate(sample.weights.begin(), sample.weights.end(), 0.0);
  std::vector<Group> groups;
  for (auto& [group, places] : candidates) {
    const Sample part = part_of(sample, places);
    const double weight = std::accumulate(part.weights.begin(), part.weights.end(), 0.0);
    if (places.size() < fewest || !(weight > 0.0)) {
      continue;
    }
    for (const std::size_t i : places) {
      group.members.push_back(members[i]);
    }
    group.share = weight / total;
    const Bootstrap bootstrap(part, comparison.options.resamples, comparison.options.seed);
    group.rankings = rank(part, bootstrap, comparison.options.confidence);
    for (std::size_t k = 0; k < group.rankings.size(); ++k) {
      const std::size_t here = group.rankings[k].order.front(), all = comparison.rankings[k].order.front();
      const Interval interval = bootstrap.criterion(k, here, all, comparison.options.confidence);
      group.flips.push_back(here != all && (interval.low > 0.0 || interval.high < 0.0));
    }
    groups.push_back(std::move(group));
  }
  return groups;
}

} // namespace wingnose::study
