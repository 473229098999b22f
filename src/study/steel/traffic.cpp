#include "wingnose/study/traffic.hpp"

#include "wingnose/study/compare.hpp"
#include "wingnose/study/many.hpp"
#include "wingnose/study/steel.hpp"
#include "wingnose/words/unit.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

namespace wingnose::study {

void check(const TrafficOptions& o) {
  using O = TrafficOptions;
  demand_within("tonnage of the traffic", o.tonnage, range_of<&O::tonnage>(), "MGT", unit("MGT").per_si,
                "Busy lines carry 10 to 60 MGT a year.");
  demand_within("stages of the traffic", o.stages, range_of<&O::stages>(), "", 1.0,
                "Ten stages show how a steel hardens.");
}

namespace {

struct Cancelled {};
using Trails = std::vector<std::optional<assess::ContactTrail>>; // per wheel

void check(const cases::Document& document, const cases::Population& population, const TrafficOptions& o) {
  check(o);
  if (!layout::is_crossing(document->excitation)) {
    throw InputError("the case runs over a joint or a given path; a traffic needs a crossing, of the kind "
                     "\"generated\" or \"sections\"");
  }
  cases::check(population);
  std::set<std::pair<std::size_t, std::string>> seen;
  for (const cases::Member& member : population.members) {
    for (const auto& value : member.values) {
      if (value.key.starts_with("damage.")) {
        throw InputError("\"" + value.key +
                         "\" cannot vary over the wheels of a traffic: they all meet the same steel. Give it in the "
                         "case");
      }
      const cases::WheelClass& c = population.classes[member.wheel_class];
      const bool own = cases::shapes_wheel(value.key) && c.wheel;
      if (seen.emplace(own ? member.wheel_class + 1 : 0, value.key).second) {
        (void)with_place(own ? "wheel class \"" + c.name + '"' : "wheels of the traffic",
                         [&] { return cases::key_info(own ? *c.wheel : document, value.key); });
      }
    }
  }
}

// One wheel that touches an edge can be far above all others: the largest value alone would mislead.
Finding spread_of(const Traffic& t) {
  const quantity::Quantity& q = *quantity::find("shakedown_exceedance");
  std::vector<double> values, weights;
  std::vector<std::size_t> places;
  for (std::size_t m = 0; m < t.members.size(); ++m) {
    if (t.members[m].failure.empty()) {
      values.push_back(quantity::value(q, t.members[m].passage));
      weights.push_back(t.members[m].wheels);
      places.push_back(m);
    }
  }
  const auto worst = static_cast<std::size_t>(std::max_element(values.begin(), values.end()) - values.begin());
  const auto up_to = [&](double level) { return fixed(weighted_quantile(values, weights, level), 2); };
  return {FindingKind::reading, "shakedown exceedance of one wheel over new steel: half of the traffic stays up to " +
                                    up_to(0.5) + ", 95 % up to " + up_to(0.95) + "; the largest, " +
                                    fixed(values[worst], 2) + ", is that of " +
                                    t.population.members[places[worst]].name};
}

Finding failures_of(const Traffic& t) {
  constexpr std::size_t told = 3;
  std::string words = std::to_string(t.failed) + " of " + std::to_string(t.members.size()) +
                      " wheels could not be computed (" + fixed(100.0 * t.failed_share, 1) +
                      " % of the traffic); the others carry the whole tonnage in their place:";
  std::size_t count = 0;
  for (std::size_t m = 0; m < t.members.size() && count < told; ++m) {
    if (!t.members[m].failure.empty()) {
      words += (count > 0 ? "; " : " ") + t.population.members[m].name + ": " + t.members[m].failure;
      ++count;
    }
  }
  return {FindingKind::not_computed, words + (t.failed > told ? "; and others" : "")};
}

// Every wheel of the population over the crossing; trails: of those that could be computed.
Trails roll(const cases::Document& document, Traffic& t, const TrafficOptions& o,
            const std::function<void(std::size_t)>& report) {
  const std::array<ComparedCrossing, 1> crossing{{{"crossing", document}}};
  Trails trails(t.members.size());
  const auto make = [&](std::size_t m) {
    Case one = case_of(crossing, 0, t.population, m);
    t.members[m].passage.speed = one.passage.speed;
    t.members[m].lateral_offset = one.wheel.lateral_offset;
    return one;
  };
  ManyOptions many;
  many.threads = o.threads;
  many.cancel = o.cancel;
  many.progress = [&](std::size_t done, std::size_t) { report(done); };
  many.look = [&](std::size_t m, const Case& c, const Result& result) { // each member by one thread
    assess::ContactTrail trail = contact_trail(c, result.geometry, result.history);
    t.members[m].passage = result.assessment;
    add_steel(t.members[m].passage, c, trail);
    trails[m] = std::move(trail);
  };
  const auto outcomes = run_many(t.members.size(), make, many);
  for (std::size_t m = 0; m < outcomes.size(); ++m) {
    if (outcomes[m].state == Outcome::State::not_run) {
      throw Cancelled{};
    }
    t.members[m].failure = outcomes[m].failure;
  }
  return trails;
}

// Those that rolled, each as often as such wheels come in the tonnage.
std::vector<assess::TrafficWheel> mixed(Traffic& t, const Trails& trails) {
  std::vector<assess::TrafficWheel> mix;
  std::vector<std::size_t> places;
  double all = 0.0, lost = 0.0;
  std::string why;
  for (std::size_t m = 0; m < t.members.size(); ++m) {
    const cases::Member& member = t.population.members[m];
    all += member.weight;
    if (trails[m]) {
      mix.push_back(
          {.trail = &*trails[m], .wheels = member.weight, .load = t.members[m].passage.measures->static_load});
      places.push_back(m);
    } else {
      why = why.empty() ? "; " + member.name + ": " + t.members[m].failure : why;
      ++t.failed;
      lost += member.weight;
    }
  }
  t.failed_share = lost / all;
  if (!(lost < all) || mix.empty()) {
    throw ComputeError("no wheel of the traffic with a weight could be computed" + why);
  }
  mix = assess::for_tonnage(mix, t.tonnage);
  for (std::size_t i = 0; i < mix.size(); ++i) {
    t.members[places[i]].wheels = mix[i].wheels;
  }
  return mix;
}

Findings findings_of(const Traffic& t) {
  Findings findings;
  // The case's own wheel, which rolls where none is given, has its findings told with the case.
  if (t.members.size() > 1 || !t.population.members.front().values.empty()) {
    GatheredFindings found;
    for (std::size_t m = 0; m < t.members.size(); ++m) {
      if (t.members[m].failure.empty()) {
        found.add(t.population.members[m].name, t.members[m].passage.findings);
      }
    }
    findings = found.told(std::to_string(t.members.size()) + " wheels");
  }
  if (t.members.size() > 1) {
    findings.push_back(spread_of(t));
  }
  if (t.failed > 0) {
    findings.push_back(failures_of(t));
  }
  return findings;
}

} // namespace

std::optional<Traffic> traffic(const cases::Document& document, const cases::Population& population,
                               const TrafficOptions& options) {
  check(document, population, options);
  const Case& base = document.base();
  assess::check(cases::steel_of(base));
  const std::size_t wheels = population.members.size();
  const auto report = [&](std::size_t done) {
    if (options.cancel != nullptr && options.cancel->load(std::memory_order_relaxed)) {
      throw Cancelled{};
    }
    if (options.progress) {
      options.progress(done, 2 * wheels); // rolled, then assessed
    }
  };
  Traffic t;
  t.population = population;
  t.members.resize(wheels);
  t.tonnage = options.tonnage;
  try {
    const Trails trails = roll(document, t, options, report);
    t.damage =
        assess::damage_of_traffic(mixed(t, trails), cases::steel_of(base), base.damage, options.stages,
                                  [&](std::size_t done, std::size_t of) { report(wheels + done * wheels / of); });
  } catch (const Cancelled&) {
    return std::nullopt;
  }
  append(t.damage.findings, findings_of(t));
  return t;
}

} // namespace wingnose::study
