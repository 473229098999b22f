// What a comparison says in sentences: what the ranking depends on, and what is found.
#include "comparison_words.hpp"

#include "wingnose/words/number.hpp"
#include "wingnose/words/text.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace wingnose::assess {
namespace {

std::string percent(double share) { return fixed(100.0 * share, 1) + " %"; }
std::string mm(double length) { return fixed(1e3 * length, 1) + " mm"; }
std::string in_quotes(const std::string& name) { return '"' + name + '"'; }

// Some crossings may be equally good.
std::vector<std::size_t> best_of(const PairedRanking& ranking) {
  std::vector<std::size_t> best;
  for (std::size_t c = 0; c < ranking.places.size(); ++c) {
    if (ranking.places[c] == 1 && !std::isnan(ranking.values[c])) {
      best.push_back(c);
    }
  }
  return best;
}

std::string names_of(const CrossingComparison& c, const std::vector<std::size_t>& crossings) {
  std::vector<std::string> names;
  names.reserve(crossings.size());
  for (const std::size_t i : crossings) {
    names.push_back(in_quotes(c.crossings[i].name));
  }
  return listed(names);
}

// A criterion by which the best lies within the spread of the next tells no best: say_close says how near they are.
void say_best(CrossingComparison& c, const ComparisonTerms& terms) {
  std::map<std::vector<std::size_t>, std::vector<std::string>> by; // best crossings -> criteria
  std::size_t alike = 0;
  for (std::size_t k = 0; k < c.rankings.size(); ++k) {
    if (const auto best = best_of(c.rankings[k]); best.size() == c.crossings.size()) {
      c.dependence.push_back("by " + terms.called[k].label + " all crossings are equal");
      ++alike;
    } else if (!best.empty() && c.rankings[k].apart[best.size() - 1]) {
      by[best].push_back(terms.called[k].label);
    }
  }
  if (by.empty() && alike < c.rankings.size()) {
    c.dependence.emplace_back("these wheels tell no best crossing by any criterion");
  }
  for (const auto& [best, labels] : by) {
    const std::string verb = best.size() > 1 ? " are equally good and best by " : " is best by ";
    c.dependence.push_back(
        names_of(c, best) + verb +
        (labels.size() + alike == c.rankings.size() && alike > 0 ? "every other criterion" : listed(labels)));
  }
  if (by.size() == 1 && by.begin()->second.size() == c.rankings.size()) {
    c.dependence.back() = names_of(c, by.begin()->first) + " is best by every criterion";
  } else if (by.size() > 1) {
    c.dependence.emplace_back("the ranking depends on the criterion: no crossing is best by all of them");
  }
}

// Neighbours in the ranking that these wheels do not tell apart.
void say_close(CrossingComparison& c, const ComparisonTerms& terms) {
  for (std::size_t k = 0; k < c.rankings.size(); ++k) {
    const auto& r = c.rankings[k];
    const auto& n = terms.called[k];
    const auto begin = r.order.begin();
    for (auto first = begin; first != r.order.end();) {
      auto last = first;
      while (last + 1 != r.order.end() && !r.apart[last - begin]) {
        ++last;
      }
      const double difference = std::abs(r.values[*last] - r.values[*first]);
      if (difference > 0.0) {
        c.dependence.push_back("by " + n.label + " " + names_of(c, {first, last + 1}) + " lie within " +
                               fixed(difference * n.unit.per_si, n.decimals) +
                               (n.unit.name == "-" ? "" : " " + std::string(n.unit.name)) +
                               ", each within the spread of the next");
      }
      first = last + 1;
    }
  }
}

void say_flips(CrossingComparison& c, const ComparisonTerms& terms) {
  bool flipped = false;
  std::size_t unclear = 0;
  for (const auto& group : c.groups) {
    std::map<std::pair<std::size_t, std::size_t>, std::vector<std::string>> flips; // best here, best of all -> criteria
    for (std::size_t k = 0; k < c.rankings.size(); ++k) {
      const std::size_t before = c.rankings[k].order.front(), now = group.rankings[k].order.front();
      const bool differs = group.rankings[k].places[before] > 1;
      if (group.flips[k]) {
        flips[{now, before}].push_back(terms.called[k].label);
      }
      unclear += differs && !group.flips[k] ? 1 : 0;
    }
    for (const auto& [pair, labels] : flips) {
      flipped = true;
      c.dependence.push_back("for " + group.name + " (" + percent(group.share) + " of the wheels) " +
                             in_quotes(c.crossings[pair.first].name) + " is better than " +
                             in_quotes(c.crossings[pair.second].name) + ", which comes first over all wheels, by " +
                             listed(labels));
    }
  }
  if (!flipped && !c.groups.empty()) {
    c.dependence.emplace_back("no wheel class and no half of speeds or loads clearly has another best crossing");
  }
  if (unclear > 0) {
    c.dependence.push_back(
        "in " + std::to_string(unclear) + " of " + std::to_string(c.groups.size() * c.rankings.size()) +
        " pairs of a group of wheels and a criterion another crossing comes first, but within the spread");
  }
}

// Early of a wheel that comes onto the nose, late of one that leaves it.
void find_early(CrossingComparison& c, const ComparisonTerms& terms) {
  const bool facing = terms.direction == Direction::facing;
  for (const auto& crossing : c.crossings) {
    if (crossing.early_members.empty()) {
      continue;
    }
    std::map<std::size_t, std::pair<std::size_t, std::size_t>> of_class; // early and all of each that has early ones
    for (const std::size_t m : crossing.early_members) {
      ++of_class[terms.wheel_class[m]].first;
    }
    std::vector<std::string> classes, names;
    for (auto& [k, wheels] : of_class) {
      for (std::size_t m = 0; m < c.compared.size(); ++m) {
        wheels.second += c.compared[m] && terms.wheel_class[m] == k ? 1 : 0;
      }
      classes.push_back(std::to_string(wheels.first) + " of " + std::to_string(wheels.second) + " of class " +
                        terms.classes[k]);
    }
    constexpr std::size_t most_names = 5;
    for (std::size_t i = 0; i < std::min(most_names, crossing.early_members.size()); ++i) {
      const std::size_t m = crossing.early_members[i];
      const auto& o = crossing.members[m].observed;
      names.push_back(terms.names[m] + " at " + mm(o[terms.nose_thickness]) + " (offset " +
                      mm(crossing.members[m].lateral_offset) +
                      (facing ? ", " + fixed(1e-3 * o[terms.peak_nose], 0) + " kN on the nose)" : ")"));
    }
    const std::size_t others = crossing.early_members.size() - names.size();
    c.findings.push_back({FindingKind::early_transfer,
                          percent(crossing.early) + " of the wheels transfer " + (facing ? "early" : "late") +
                              ", where the nose is thinner than " + mm(terms.thin_nose) + ": " + listed(classes) +
                              (facing ? "; earliest " : "; latest ") + listed(names) +
                              (others > 0 ? " and " + std::to_string(others) + " more" : ""),
                          "on " + in_quotes(crossing.name)});
  }
}

void find_earliest(CrossingComparison& c, const ComparisonTerms& terms) {
  const bool any = std::any_of(c.crossings.begin(), c.crossings.end(), [](const auto& x) { return x.early > 0.0; });
  double least = INFINITY;
  std::string where;
  for (const auto& crossing : c.crossings) {
    for (std::size_t m = 0; m < c.compared.size(); ++m) {
      if (c.compared[m] && crossing.members[m].observed[terms.nose_thickness] < least) {
        least = crossing.members[m].observed[terms.nose_thickness];
        where = terms.names[m] + " on " + in_quotes(crossing.name);
      }
    }
  }
  if (!any && !where.empty()) {
    c.findings.push_back(
        {FindingKind::reading, "no wheel transfers where the nose is thinner than " + mm(terms.thin_nose) +
                                   (terms.direction == Direction::facing ? "; the earliest is " : "; the latest is ") +
                                   where + " at " + mm(least)});
  }
}

// Wheels that are left out, why, and whether the ranking would be another if they counted as the worst.
void find_dropped(CrossingComparison& c, const ComparisonTerms& terms) {
  const auto dropped = static_cast<std::size_t>(std::count(c.compared.begin(), c.compared.end(), false));
  if (dropped == 0) {
    return;
  }
  c.findings.push_back(
      {FindingKind::not_computed,
       std::to_string(dropped) + " of " + std::to_string(c.compared.size()) + " wheels (" + percent(c.dropped) +
           " of the weight) could not be computed, or are grave, on some crossing and are left out on all of them"});
  for (const auto& crossing : c.crossings) {
    std::map<std::string, std::pair<std::size_t, std::size_t>> reasons; // reason -> wheels, first of them
    for (std::size_t m = 0; m < crossing.members.size(); ++m) {
      if (crossing.members[m].state != ComparedPassage::State::done) {
        ++reasons.try_emplace(crossing.members[m].failure, 0, m).first->second.first;
      }
    }
    std::size_t told = 0;
    for (const auto& [reason, wheels] : reasons) {
      const std::string on = "on " + in_quotes(crossing.name);
      if (++told > 3) {
        c.findings.push_back({FindingKind::not_computed, std::to_string(reasons.size() - 3) + " more reasons", on});
        break;
      }
      c.findings.push_back({FindingKind::not_computed, reason,
                            on + " " + std::to_string(wheels.first) +
                                (wheels.first == 1 ? " wheel, " : " wheels, first ") + terms.names[wheels.second]});
    }
  }
  std::vector<std::string> other;
  for (std::size_t k = 0; k < c.rankings.size(); ++k) {
    if (c.rankings[k].worst_places != c.rankings[k].places) {
      other.push_back(terms.called[k].label);
    }
  }
  c.findings.push_back({FindingKind::not_computed, other.empty()
                                                       ? "counted as the worst, these wheels change no ranking"
                                                       : "counted as the worst, these wheels change the ranking by " +
                                                             listed(other) + ": see ranking/worst_value"});
}

// What single passages found, once per kind and crossing.
void find_of_passages(CrossingComparison& c, const ComparisonTerms& terms) {
  for (const auto& crossing : c.crossings) {
    GatheredFindings all;
    for (std::size_t m = 0; m < crossing.members.size(); ++m) {
      all.add(terms.names[m], crossing.members[m].findings);
    }
    const std::string of = std::to_string(crossing.members.size()) + " wheels on " + in_quotes(crossing.name);
    for (Finding& f : all.told(of)) {
      c.findings.push_back(std::move(f));
    }
  }
}

void find_beyond_shakedown(CrossingComparison& c) {
  std::string beyond;
  for (const auto& crossing : c.crossings) {
    if (crossing.beyond_shakedown > 0.0) {
      beyond += (beyond.empty() ? "" : ", ") + number(std::round(1000.0 * crossing.beyond_shakedown) / 10.0) +
                " % of the wheels on \"" + crossing.name + "\"";
    }
  }
  if (!beyond.empty()) {
    c.findings.push_back(
        {FindingKind::reading, "beyond elastic shakedown lie " + beyond +
                                   ": the shapes as given flow under them, and real pressures settle below these. Peak "
                                   "pressure and shakedown exceedance then tell how sharp a shape is where wheels "
                                   "land; friction energy and wear volume rest less on that"});
  }
}

} // namespace

void add_words(CrossingComparison& c, const ComparisonTerms& terms) {
  say_best(c, terms);
  say_close(c, terms);
  say_flips(c, terms);
  find_early(c, terms);
  find_earliest(c, terms);
  find_dropped(c, terms);
  c.findings.insert(c.findings.end(), terms.of_cases.begin(), terms.of_cases.end());
  find_of_passages(c, terms);
  c.findings.insert(c.findings.end(), terms.of_steel.begin(), terms.of_steel.end());
  find_beyond_shakedown(c);
  c.findings.push_back(
      {FindingKind::reading,
       "intervals of " + percent(terms.confidence) + " tell how far the answer rests on which wheels were taken (" +
           fixed(c.effective_count, 0) +
           " wheels of equal weight would say as much), not how far the model may be from a real crossing"});
  std::stable_sort(c.findings.begin(), c.findings.end(),
                   [](const Finding& x, const Finding& y) { return gravity_of(x) > gravity_of(y); });
}

} // namespace wingnose::assess
