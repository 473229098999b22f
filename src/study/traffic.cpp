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
        try {
          (void)cases::key_info(own ? *c.wheel : document, value.key);
        } catch (const InputError& error) {
          throw InputError((own ? "wheel class \"" + c.name + "\": " : "wheels of the traffic: ") + error.what());
        }
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

class Rolling {
public:
  Rolling(const cases::Document& document, const TrafficOptions& options, Traffic& into)
      : crossing_{{{"crossing", document}}}, options_(options), into_(into), trails_(members()) {
    into_.members.resize(members());
    into_.tonnage = options.tonnage;
    assess::check(cases::steel_of(document.base()));
  }

  void roll() {
    SharedParts parts;
    const std::size_t chunk = std::max<std::size_t>(1, options_.passages_per_chunk);
    for (std::size_t begin = 0; begin < members(); begin += chunk) {
      roll(begin, std::min(begin + chunk, members()), parts);
    }
  }

  void add_up() {
    std::vector<assess::TrafficWheel> mix;
    std::vector<std::size_t> places;
    GatheredFindings found;
    double all = 0.0, lost = 0.0;
    for (std::size_t m = 0; m < members(); ++m) {
      const double weight = into_.population.members[m].weight;
      TrafficMember& member = into_.members[m];
      all += weight;
      if (trails_[m]) {
        mix.push_back({.trail = &*trails_[m], .wheels = weight, .load = member.passage.measures->static_load});
        places.push_back(m);
        found.add(into_.population.members[m].name, member.passage.findings);
      } else {
        ++into_.failed;
        lost += weight;
      }
    }
    into_.failed_share = lost / all;
    if (!(lost < all) || mix.empty()) {
      refuse();
    }
    mix = assess::for_tonnage(mix, options_.tonnage);
    for (std::size_t i = 0; i < mix.size(); ++i) {
      into_.members[places[i]].wheels = mix[i].wheels;
    }
    const Case& base = crossing_.front().document.base();
    into_.damage = assess::damage_of_traffic(
        mix, cases::steel_of(base), base.damage, options_.stages,
        [this](std::size_t done, std::size_t of) { report(members() + done * members() / of); });
    Findings& findings = into_.damage.findings;
    // The case's own wheel, which rolls where none is given, has its findings told with the case.
    if (members() > 1 || !into_.population.members.front().values.empty()) {
      const Findings of_wheels = found.told(std::to_string(members()) + " wheels");
      findings.insert(findings.end(), of_wheels.begin(), of_wheels.end());
    }
    if (members() > 1) {
      findings.push_back(spread_of(into_));
    }
    if (into_.failed > 0) {
      findings.push_back(failures_of(into_));
    }
  }

private:
  [[nodiscard]] std::size_t members() const { return into_.population.members.size(); }

  void report(std::size_t done) const {
    if (options_.cancel != nullptr && options_.cancel->load(std::memory_order_relaxed)) {
      throw Cancelled{};
    }
    if (options_.progress) {
      options_.progress(done, 2 * members()); // rolled, then assessed
    }
  }

  void roll(std::size_t begin, std::size_t end, SharedParts& parts) {
    std::vector<Case> list;
    std::vector<std::size_t> places;
    for (std::size_t m = begin; m < end; ++m) {
      try {
        list.push_back(case_of(crossing_, 0, into_.population, m));
        places.push_back(m);
        into_.members[m].passage.speed = list.back().passage.speed;
        into_.members[m].lateral_offset = list.back().wheel.lateral_offset;
      } catch (const InputError& error) {
        into_.members[m].failure = error.what();
      }
    }
    ManyOptions many;
    many.threads = options_.threads;
    many.cancel = options_.cancel;
    many.progress = [&](std::size_t done, std::size_t) { report(begin + done); };
    many.look = [&](std::size_t i, const Case& c, const Result& result) { // each member by one thread
      assess::ContactTrail trail = contact_trail(c, result.geometry, result.history);
      TrafficMember& member = into_.members[places[i]];
      member.passage = result.assessment;
      add_steel(member.passage, c, trail);
      trails_[places[i]] = std::move(trail);
    };
    const auto outcomes = run_many(list, many, &parts);
    for (std::size_t i = 0; i < outcomes.size(); ++i) {
      if (outcomes[i].state == Outcome::State::not_run) {
        throw Cancelled{};
      }
      into_.members[places[i]].failure = outcomes[i].failure;
    }
  }

  [[noreturn]] void refuse() const {
    for (std::size_t m = 0; m < members(); ++m) {
      if (!trails_[m]) {
        throw ComputeError("no wheel of the traffic with a weight could be computed; " +
                           into_.population.members[m].name + ": " + into_.members[m].failure);
      }
    }
    throw ComputeError("no wheel of the traffic with a weight could be computed");
  }

  std::array<ComparedCrossing, 1> crossing_;
  const TrafficOptions& options_;
  Traffic& into_;
  std::vector<std::optional<assess::ContactTrail>> trails_; // per wheel
};

} // namespace

std::optional<Traffic> traffic(const cases::Document& document, const cases::Population& population,
                               const TrafficOptions& options) {
  check(document, population, options);
  Traffic answer;
  answer.population = population;
  try {
    Rolling rolling(document, options, answer);
    rolling.roll();
    rolling.add_up();
  } catch (const Cancelled&) {
    return std::nullopt;
  }
  return answer;
}

} // namespace wingnose::study
