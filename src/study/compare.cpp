#include "wingnose/study/compare.hpp"

#include "compare_parts.hpp"

#include "wingnose/study/many.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace wingnose::study {
namespace {

using State = MemberAnswer::State;
constexpr double none = std::numeric_limits<double>::quiet_NaN();

// m has speed and offset of the case already.
void add_answer(MemberAnswer& m, const Outcome& outcome, std::span<const quantity::Quantity* const> list) {
  if (!outcome.assessment) {
    m.failure = outcome.failure;
    m.state = outcome.state == Outcome::State::bad_input ? State::bad_input : State::could_not_compute;
    return;
  }
  const assess::Assessment& found = *outcome.assessment;
  m.static_load = found.measures->static_load;
  m.findings = found.findings;
  for (std::size_t q = 0; q < list.size(); ++q) {
    m.observed[q] = list[q]->of(found).value_or(none);
  }
  if (any_grave(m.findings)) {
    m.state = State::grave;
    m.failure = sentence(of_gravity(m.findings, Gravity::grave).front());
  }
}

class Comparing {
public:
  Comparing(std::span<const ComparedCrossing> crossings, Comparison& into)
      : crossings_(crossings), into_(into), list_(quantity::compared(into.options.steel)),
        forces_(crossings.size(), assess::ForcesOfMany(into.options.grid, members())) {
    const MemberAnswer unknown{State::done, {}, none, none, none, Observations(list_.size(), none), {}};
    for (const ComparedCrossing& crossing : crossings) {
      CrossingAnswer& answer = into_.crossings.emplace_back();
      answer.name = crossing.name;
      answer.members.assign(members(), unknown);
      if (into_.options.steel) {
        answer.steel = cases::steel_of(crossing.document.base()).name;
        answer.friction = crossing.document->damage.friction;
      }
    }
    into_.compared.assign(members(), true);
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

  void conclude() {
    std::vector<std::size_t> members_compared;
    PairedSample sample;
    sample.values.assign(crossings_.size(), std::vector<std::vector<double>>(list_.size()));
    double all = 0.0, compared = 0.0;
    for (std::size_t m = 0; m < members(); ++m) {
      const double weight = into_.population.members[m].weight;
      all += weight;
      if (into_.compared[m]) {
        members_compared.push_back(m);
        sample.weights.push_back(weight);
        compared += weight;
        for (std::size_t c = 0; c < crossings_.size(); ++c) {
          for (std::size_t q = 0; q < list_.size(); ++q) {
            sample.values[c][q].push_back(into_.crossings[c].members[m].observed[q]);
          }
        }
      }
    }
    if (!(compared > 0.0)) {
      refuse();
    }
    into_.dropped = 1.0 - compared / all;
    into_.effective_count = effective_count(sample.weights);
    for (std::size_t c = 0; c < crossings_.size(); ++c) {
      describe(c, members_compared, sample, all);
    }
    rank(into_, members_compared, sample);
    if (into_.options.paths) {
      add_paths(members_compared);
    }
    add_words(into_, crossings_);
  }

private:
  [[nodiscard]] std::size_t members() const { return into_.population.members.size(); }
  [[nodiscard]] std::size_t place_of(std::string_view key) const { return observed(key, into_.options.steel); }

  bool chunk(std::size_t begin, std::size_t end, const CompareOptions& options, SharedParts& parts) {
    const std::size_t of_one = crossings_.size();
    std::vector<Wheel> wheels;
    for (std::size_t m = begin; m < end; ++m) {
      wheels.push_back(wheel_of(crossings_, into_.population, m));
    }
    const auto make = [&](std::size_t i) {
      const std::size_t m = begin + i / of_one, c = i % of_one;
      Case one = put_on(crossings_[c], wheels[i / of_one], into_.population.members[m].name);
      into_.crossings[c].members[m].speed = one.passage.speed;
      into_.crossings[c].members[m].lateral_offset = one.wheel.lateral_offset;
      return one;
    };
    ManyOptions many;
    many.threads = options.threads;
    many.steel = options.steel;
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
      const std::size_t m = begin + i / of_one, c = i % of_one;
      MemberAnswer& answer = into_.crossings[c].members[m];
      add_answer(answer, outcomes[i], list_);
      if (answer.state == State::could_not_compute && never_transfers(c, m)) {
        answer.state = State::no_transfer;
      }
      into_.compared[m] = into_.compared[m] && answer.state == State::done;
    }
    return true;
  }

  // Of the wheels that could not be computed those that never change over have their own name.
  [[nodiscard]] bool never_transfers(std::size_t c, std::size_t m) const {
    try {
      return !geometry(case_of(crossings_, c, into_.population, m)).kinematics.transfer_station;
    } catch (const std::runtime_error&) { // it stays a failure
      return false;
    }
  }

  [[noreturn]] void refuse() const {
    for (const auto& crossing : into_.crossings) {
      for (std::size_t m = 0; m < members(); ++m) {
        if (crossing.members[m].state != State::done) {
          throw ComputeError(
              "no wheel with a weight could be computed on all crossings without a grave finding; on \"" +
              crossing.name + "\", " + into_.population.members[m].name + ": " + crossing.members[m].failure);
        }
      }
    }
    throw ComputeError("no wheel with a weight could be computed on all crossings");
  }

  void describe(std::size_t c, const std::vector<std::size_t>& compared, const PairedSample& sample, double all) {
    CrossingAnswer& a = into_.crossings[c];
    for (const auto& values : sample.values[c]) {
      a.distributions.push_back(distribution_of(values, sample.weights));
    }
    for (std::size_t m = 0; m < members(); ++m) {
      const double share = into_.population.members[m].weight / all;
      a.no_transfer += a.members[m].state == State::no_transfer ? share : 0.0;
      a.grave += a.members[m].state == State::grave ? share : 0.0;
      a.failed +=
          a.members[m].state == State::bad_input || a.members[m].state == State::could_not_compute ? share : 0.0;
    }
    const double total = std::accumulate(sample.weights.begin(), sample.weights.end(), 0.0);
    const auto& lost = sample.values[c][place_of("lost_contact_ms")];
    const auto& thickness = sample.values[c][place_of("nose_thickness_at_transfer_mm")];
    std::vector<std::size_t> early;
    for (std::size_t i = 0; i < compared.size(); ++i) {
      a.loses_contact += lost[i] > 0.0 ? sample.weights[i] / total : 0.0;
      if (thickness[i] < into_.options.thin_nose) {
        a.early += sample.weights[i] / total;
        early.push_back(i);
      }
    }
    std::stable_sort(early.begin(), early.end(),
                     [&](std::size_t x, std::size_t y) { return thickness[x] < thickness[y]; });
    for (const std::size_t i : early) {
      a.early_members.push_back(compared[i]);
    }
    if (into_.options.steel) {
      const auto above = [&](std::string_view key, double limit) {
        return weighted_share_above(sample.values[c][place_of(key)], sample.weights, limit);
      };
      a.beyond_shakedown = above("shakedown_exceedance", 1.0);
      a.beyond_surface_flow = above("surface_fatigue_index", 0.0);
    }
    a.envelope = forces_[c].envelope(compared, sample.weights);
    a.nose_load = forces_[c].nose_load(compared, sample.weights);
  }

  void add_paths(const std::vector<std::size_t>& compared) {
    const std::size_t quantity = place_of("nose_thickness_at_transfer_mm");
    const auto thickness = [&](std::size_t c, std::size_t m) {
      return into_.crossings[c].members[m].observed[quantity];
    };
    std::vector<TypicalPath> chosen;
    for (std::size_t k = 0; k < into_.population.classes.size(); ++k) {
      std::vector<double> values, weights;
      std::vector<std::size_t> places;
      for (const std::size_t m : compared) {
        if (into_.population.members[m].wheel_class == k && into_.population.members[m].weight > 0.0) {
          places.push_back(m);
          values.push_back(thickness(0, m));
          weights.push_back(into_.population.members[m].weight);
        }
      }
      if (places.empty()) {
        continue;
      }
      const double middle = weighted_quantile(values, weights, 0.5);
      const auto nearest = std::min_element(places.begin(), places.end(), [&](std::size_t x, std::size_t y) {
        return std::abs(thickness(0, x) - middle) < std::abs(thickness(0, y) - middle);
      });
      chosen.push_back({*nearest, "typical of " + into_.population.classes[k].name, nullptr});
    }
    std::size_t earliest = compared.front();
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t c = 0; c < crossings_.size(); ++c) {
      for (const std::size_t m : compared) {
        if (thickness(c, m) < least) {
          least = thickness(c, m);
          earliest = m;
        }
      }
    }
    chosen.push_back({earliest, "earliest transfer", nullptr});
    for (std::size_t c = 0; c < crossings_.size(); ++c) {
      for (TypicalPath path : chosen) {
        path.path = geometry(case_of(crossings_, c, into_.population, path.member)).path;
        into_.crossings[c].paths.push_back(std::move(path));
      }
    }
  }

  std::span<const ComparedCrossing> crossings_;
  Comparison& into_;
  std::vector<const quantity::Quantity*> list_; // what is observed
  std::vector<assess::ForcesOfMany> forces_;    // per crossing
};

} // namespace

std::size_t observed(std::string_view key, bool steel) {
  const auto list = quantity::compared(steel);
  const auto found = std::find_if(list.begin(), list.end(), [key](const auto* q) { return q->key == key; });
  return static_cast<std::size_t>(found - list.begin());
}

std::optional<Comparison> compare(std::span<const ComparedCrossing> crossings, const cases::Population& population,
                                  const CompareOptions& options) {
  check(options);
  check(crossings, population);
  Comparison comparison;
  comparison.population = population;
  comparison.options = options;
  comparison.options.progress = {};
  comparison.options.cancel = nullptr;
  comparison.inputs = inputs_of(crossings, population, options);
  Comparing comparing(crossings, comparison);
  if (!comparing.run(options)) {
    return std::nullopt;
  }
  comparing.conclude();
  return comparison;
}

} // namespace wingnose::study
