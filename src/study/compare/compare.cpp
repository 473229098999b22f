#include "wingnose/study/compare.hpp"

#include "compare_parts.hpp"

#include "wingnose/study/many.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <limits>

namespace wingnose::study {
namespace {

using assess::ComparedPassage;
using State = ComparedPassage::State;
constexpr double undetermined = std::numeric_limits<double>::quiet_NaN();

// Every wheel over every crossing.
class Rolling {
public:
  Rolling(std::span<const ComparedCrossing> crossings, Comparison& into)
      : crossings_(crossings), into_(into), list_(quantity::compared(into.options.steel, into.options.track)),
        forces_(crossings.size(), assess::ForcesOfMany(into.options.grid, members())) {
    ComparedPassage unknown;
    unknown.speed = unknown.static_load = unknown.lateral_offset = undetermined;
    unknown.observed.assign(list_.size(), undetermined);
    for (const ComparedCrossing& crossing : crossings) {
      assess::ComparedOnCrossing& answer = into_.crossings.emplace_back();
      answer.name = crossing.name;
      answer.members.assign(members(), unknown);
      if (into_.options.steel) {
        answer.steel = cases::steel_of(crossing.document.base()).name;
        answer.friction = crossing.document->damage.friction;
      }
    }
  }

  // false when cancelled.
  bool run(const CompareOptions& options) {
    SharedParts parts;
    const std::size_t per_chunk = std::max<std::size_t>(1, options.passages_per_chunk / crossings_.size());
    for (std::size_t begin = 0; begin < members(); begin += per_chunk) {
      if (!chunk(begin, std::min(begin + per_chunk, members()), options, parts)) {
        return false;
      }
    }
    return true;
  }

  [[nodiscard]] const std::vector<assess::ForcesOfMany>& forces() const { return forces_; }

private:
  [[nodiscard]] std::size_t members() const { return into_.population.members.size(); }

  bool chunk(std::size_t begin, std::size_t end, const CompareOptions& options, SharedParts& parts) {
    const std::size_t of_one = crossings_.size();
    std::vector<Wheel> wheels;
    for (std::size_t m = begin; m < end; ++m) {
      wheels.push_back(wheel_of(crossings_, into_.population, m));
    }
    const auto answer = [&](std::size_t i) -> ComparedPassage& {
      return into_.crossings[i % of_one].members[begin + i / of_one];
    };
    const auto make = [&](std::size_t i) {
      Case one = put_on(crossings_[i % of_one], wheels[i / of_one], into_.population.members[begin + i / of_one].name);
      answer(i).speed = one.passage.speed;
      answer(i).lateral_offset = one.wheel.lateral_offset;
      return one;
    };
    ManyOptions many;
    many.threads = options.threads;
    many.steel = options.steel;
    many.probes = options.track;
    many.look = [&](std::size_t i, const Case&, const Result& result) {
      forces_[i % of_one].keep(begin + i / of_one, result.history, *result.geometry.crossing);
    };
    many.cancel = options.cancel;
    if (options.progress) {
      many.progress = [&](std::size_t done, std::size_t) {
        options.progress(begin * of_one + done, members() * of_one);
      };
    }
    const auto outcomes = run_many(wheels.size() * of_one, make, many, &parts);
    for (std::size_t i = 0; i < outcomes.size(); ++i) {
      if (outcomes[i].state == Outcome::State::not_run) {
        return false;
      }
      put(outcomes[i], answer(i));
      if (answer(i).state == State::could_not_compute && never_transfers(i % of_one, begin + i / of_one)) {
        answer(i).state = State::no_transfer;
      }
    }
    return true;
  }

  void put(const Outcome& outcome, ComparedPassage& into) const {
    if (!outcome.assessment) {
      into.failure = outcome.failure;
      into.state = outcome.state == Outcome::State::bad_input ? State::bad_input : State::could_not_compute;
      return;
    }
    const assess::Assessment& found = *outcome.assessment;
    into.static_load = found.measures->static_load;
    into.findings = found.findings;
    for (std::size_t q = 0; q < list_.size(); ++q) {
      into.observed[q] = list_[q]->of(found).value_or(undetermined);
    }
    if (any_grave(into.findings)) {
      into.state = State::grave;
      into.failure = sentence(of_gravity(into.findings, Gravity::grave).front());
    }
  }

  // Of the wheels that could not be computed those that never change over have their own name.
  [[nodiscard]] bool never_transfers(std::size_t crossing, std::size_t m) const {
    try {
      return !geometry(case_of(crossings_, crossing, into_.population, m)).kinematics.transfer_station;
    } catch (const std::runtime_error&) { // it stays a failure
      return false;
    }
  }

  std::span<const ComparedCrossing> crossings_;
  Comparison& into_;
  std::vector<const quantity::Quantity*> list_; // what is observed
  std::vector<assess::ForcesOfMany> forces_;    // per crossing
};

assess::ComparisonTerms terms_of(const Comparison& c, std::span<const ComparedCrossing> crossings) {
  const CompareOptions& o = c.options;
  const auto place = [&](std::string_view key) { return observed(key, o.steel, o.track); };
  assess::ComparisonTerms terms{.lost_contact = place("lost_contact_ms"),
                                .nose_thickness = place("nose_thickness_at_transfer_mm"),
                                .peak_nose = place("peak_nose_kN"),
                                .thin_nose = o.thin_nose,
                                .direction = crossings.front().document->passage.direction,
                                .resamples = o.resamples,
                                .seed = o.seed,
                                .confidence = o.confidence};
  for (const auto& one : c.population.classes) {
    terms.classes.push_back(one.name);
  }
  for (const auto& member : c.population.members) {
    terms.names.push_back(member.name);
    terms.wheel_class.push_back(member.wheel_class);
    terms.weights.push_back(member.weight);
  }
  for (const quantity::Statistic& s : c.criteria) {
    terms.criteria.push_back({place(s.of->key), {s.kind, s.level}, s.higher_is_better});
    const auto n = quantity::named(s);
    terms.called.push_back({n.label, n.unit, n.decimals});
  }
  terms.of_cases = found_of_cases(crossings, c.population, o);
  if (o.steel) {
    terms.shakedown = place("shakedown_exceedance");
    terms.surface_fatigue = place("surface_fatigue_index");
    terms.of_steel = found_of_steel(c.population);
  }
  return terms;
}

} // namespace

std::size_t observed(std::string_view key, bool steel, bool track) {
  const auto list = quantity::compared(steel, track);
  const auto found = std::find_if(list.begin(), list.end(), [key](const auto* q) { return q->key == key; });
  return static_cast<std::size_t>(found - list.begin());
}

quantity::Statistic statistic_of(const Comparison& c, const PairedDifference& d) {
  return d.criterion ? c.criteria[*d.criterion]
                     : quantity::Statistic{quantity::compared(c.options.steel, c.options.track)[d.variable]};
}

std::optional<Comparison> compare(std::span<const ComparedCrossing> crossings, const cases::Population& population,
                                  const CompareOptions& options) {
  check(options);
  check(crossings, population);
  for (const ComparedCrossing& crossing : crossings) {
    demand_vertical(crossing.document.base(), "compare");
  }
  for (const std::string& key : options.differs_on_purpose) {
    (void)with_place("differs_on_purpose", [&] { return cases::key_info(crossings.front().document, key); });
  }
  Comparison comparison;
  comparison.population = population;
  comparison.options = options;
  comparison.options.progress = {};
  comparison.options.cancel = nullptr;
  comparison.inputs = inputs_of(crossings, population, options);
  comparison.criteria = quantity::criteria(options.steel);
  Rolling rolling(crossings, comparison);
  if (!rolling.run(options)) {
    return std::nullopt;
  }
  assess::compare(comparison, terms_of(comparison, crossings), rolling.forces(), options.paths);
  for (std::size_t c = 0; c < crossings.size(); ++c) {
    for (assess::TypicalPath& path : comparison.crossings[c].paths) {
      path.path = geometry(case_of(crossings, c, population, path.member)).path;
    }
  }
  return comparison;
}

} // namespace wingnose::study
