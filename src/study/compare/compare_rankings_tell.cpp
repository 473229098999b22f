// Which crossing of a comparison is better, as a tree.
#include "compare_tell_parts.hpp"

#include <string>
#include <utility>
#include <vector>

namespace wingnose::study {
namespace {

using quantity::Statistic;

// Numbers of each criterion in its unit.
double per_si(const Statistic& statistic) { return quantity::named(statistic).unit.per_si; }
std::string in_print(const Statistic& statistic, double si) {
  return fixed(si * per_si(statistic), quantity::named(statistic).decimals);
}
std::string with_sign(const Statistic& statistic, double si) { return (si > 0.0 ? "+" : "") + in_print(statistic, si); }

} // namespace

void add_rankings(Tree& tree, const Comparison& c) {
  using R = assess::CrossingRanking;
  const Dims by_place{{"criterion", c.criteria.size()}, {"place", c.crossings.size()}},
      by_crossing{{"criterion", c.criteria.size()}, {"crossing", c.crossings.size()}};
  const auto values = [&](std::vector<double> R::*of) {
    return grid(by_crossing,
                [&](std::size_t k, std::size_t i) { return (c.rankings[k].*of)[i] * per_si(c.criteria[k]); });
  };
  const auto places = [&](std::vector<std::size_t> R::*of) {
    return grid(by_crossing, [&](std::size_t k, std::size_t i) { return static_cast<double>((c.rankings[k].*of)[i]); });
  };
  const auto last = [&](const R& r, std::size_t i) { return i >= r.apart.size(); };
  Filler ranking(tree, "ranking", "Ranking, best first (< apart from the next, ~ within the spread)", Layout::columns);
  Columns of_criteria(ranking, "criterion", c.criteria);
  of_criteria.text({"criterion", "criterion", "what crossings are ranked by"}, [](const Statistic& s) {
    return quantity::named(s).label + " (" + std::string(quantity::named(s).unit.name) + ")";
  });
  ranking.text_table({"best_first", "", "crossings with their values, the best first"}, by_place,
                     grid(by_place, [&](std::size_t k, std::size_t i) {
                       const R& r = c.rankings[k];
                       const std::size_t crossing = r.order[i];
                       const std::string mark = last(r, i) ? "" : r.apart[i] ? " <" : " ~";
                       return c.crossings[crossing].name + " " + in_print(c.criteria[k], r.values[crossing]) + mark;
                     }));
  of_criteria.text({"key", "", "key of the criterion", told}, [](const Statistic& s) { return quantity::named(s).key; })
      .text({"value_unit", "", "unit of its values", told},
            [](const Statistic& s) { return quantity::named(s).unit.name; })
      .text({"better", "", "which values are better", told},
            [](const Statistic& s) { return s.higher_is_better ? "higher" : "lower"; });
  ranking.table({"value", "", "value by each criterion, see value_unit", 6, told}, by_crossing, values(&R::values));
  ranking.table({"place_of", "", "place by each criterion, 1 is best; equal values share a place", 0, told},
                by_crossing, places(&R::places));
  ranking.table({"apart_from_next", "", "1: the interval of the difference to the next place is without 0", 0, told},
                by_place, grid(by_place, [&](std::size_t k, std::size_t i) {
                  return last(c.rankings[k], i) ? none : one_if(c.rankings[k].apart[i]);
                }));
  ranking.table({"worst_value", "",
                 "value over all wheels, those not compared counted as the worst; none where that leaves no bound", 6,
                 told},
                by_crossing, values(&R::worst_values));
  ranking.table({"worst_place_of", "", "place by worst_value", 0, told}, by_crossing, places(&R::worst_places));
}

void add_differences(Tree& tree, const Comparison& c) {
  // Each with its statistic.
  using D = std::pair<Statistic, PairedDifference>;
  const auto value = [](const D& d) { return d.second.value; };
  const auto low = [](const D& d) { return d.second.interval.low; };
  const auto high = [](const D& d) { return d.second.interval.high; };
  const auto printed = [](auto of) { return [of](const D& d) { return with_sign(d.first, of(d)); }; };
  const auto in_unit = [](auto of) { return [of](const D& d) { return of(d) * per_si(d.first); }; };
  for (std::size_t i = 1; i < c.crossings.size(); ++i) {
    std::vector<D> some;
    for (const PairedDifference& d : c.differences) {
      if (d.alternative == i) {
        some.emplace_back(statistic_of(c, d), d);
      }
    }
    const std::string title = "\"" + c.crossings[i].name + "\" less \"" + c.crossings.front().name +
                              "\", with the interval of " + fixed(100.0 * c.options.confidence, 1) + " %";
    Columns(Filler(tree, "differences/crossing_" + std::to_string(i), title, Layout::columns), "difference", some)
        .text({"label", "statistic", "statistic that differs"},
              [](const D& d) { return quantity::named(d.first).label; })
        .text({"difference_text", "difference", "crossing less reference, as printed"}, printed(value))
        .text({"low_text", "from", "begin of the interval, as printed"}, printed(low))
        .text({"high_text", "to", "end of the interval, as printed"}, printed(high))
        .text({"value_unit", "unit", "unit of the difference"},
              [](const D& d) { return quantity::named(d.first).unit.name; })
        .number(
            {"higher_percent", "wheels higher", "share of wheels whose quantity is higher than on the reference", 1},
            [](const D& d) { return d.second.higher; })
        .text({"key", "", "key of the statistic", told}, [](const D& d) { return quantity::named(d.first).key; })
        .number({"value", "", "crossing less reference, see value_unit", 6, told}, in_unit(value))
        .number({"low", "", "begin of the interval", 6, told}, in_unit(low))
        .number({"high", "", "end of the interval", 6, told}, in_unit(high));
  }
}

void add_groups(Tree& tree, const Comparison& c) {
  using G = assess::WheelGroup;
  std::vector<double> value, place, flips;
  for (const G& group : c.groups) {
    append(flips, each(group.flips, one_if));
    for (std::size_t k = 0; k < c.criteria.size(); ++k) {
      append(value, each(group.rankings[k].values, [unit = per_si(c.criteria[k])](double si) { return si * unit; }));
      append(place, each(group.rankings[k].places, [](std::size_t at) { return static_cast<double>(at); }));
    }
  }
  Columns(Filler(tree, "groups"), "group", c.groups)
      .text({"name", "", "some of the wheels: a class, or a half by speed or load", told}, &G::name)
      .text({"kind", "", "class, speed or load", told}, [](const G& g) { return name(g.kind); })
      .number({"wheels", "", "wheels of the group", 0, told},
              [](const G& g) { return static_cast<double>(g.members.size()); })
      .number({"share", "", "share of the weight compared", 3, told}, &G::share);
  const Dims clear{{"group", c.groups.size()}, {"criterion", c.criteria.size()}};
  Dims all = clear;
  all.emplace_back("crossing", c.crossings.size());
  Filler ranking(tree, "ranking/groups");
  ranking.table({"value", "", "value by each criterion, see ranking/value_unit", 6, told}, all, value);
  ranking.table({"place_of", "", "place by each criterion, 1 is best", 0, told}, all, place);
  ranking.table({"flips", "", "1: another crossing is best here, and clearly", 0, told}, clear, flips);
}

} // namespace wingnose::study
