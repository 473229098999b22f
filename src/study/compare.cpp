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

MemberAnswer answer_of(const Case& c, const Outcome& outcome, bool steel) {
  MemberAnswer a;
  a.observed.assign(quantity::compared(steel).size(), none);
  a.speed = c.passage.speed;
  a.lateral_offset = c.wheel.lateral_offset;
  a.static_load = none;
  if (outcome.assessment) {
    const assess::Assessment& found = *outcome.assessment;
    a.static_load = found.measures->static_load;
    a.findings = found.findings;
    const auto list = quantity::compared(steel);
    for (std::size_t q = 0; q < list.size(); ++q) {
      a.observed[q] = list[q]->of(found).value_or(none);
    }
    if (any_grave(a.findings)) {
      a.state = State::grave;
      a.failure = sentence(of_gravity(a.findings, Gravity::grave).front());
    }
    return a;
  }
  a.failure = outcome.failure;
  a.state = outcome.state == Outcome::State::bad_input ? State::bad_input : State::could_not_compute;
  if (a.state == State::could_not_compute) { // of these the wheels that never change over have their own name
    try {
      a.state = geometry(c).kinematics.transfer_station ? a.state : State::no_transfer;
    } catch (const std::runtime_error&) { // it stays a failure
    }
  }
  return a;
}

class Comparing {
public:
  Comparing(std::span<const ComparedCrossing> crossings, Comparison& into)
      : crossings_(crossings), into_(into), traces_(crossings.size()) {
    for (std::size_t c = 0; c < crossings.size(); ++c) {
      CrossingAnswer answer;
      answer.name = crossings[c].name;
      answer.members.resize(members());
      if (into_.options.steel) {
        answer.steel = cases::steel_of(crossings[c].document.base()).name;
        answer.friction = crossings[c].document.base().damage.friction;
      }
      into_.crossings.push_back(std::move(answer));
      traces_[c] = Traces(into_.options, members());
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
    Sample sample;
    sample.steel = into_.options.steel;
    sample.values.assign(crossings_.size(), std::vector<std::vector<double>>(quantities()));
    double all = 0.0, squares = 0.0, compared = 0.0;
    for (std::size_t m = 0; m < members(); ++m) {
      const double weight = into_.population.members[m].weight;
      all += weight;
      if (into_.compared[m]) {
        members_compared.push_back(m);
        sample.weights.push_back(weight);
        compared += weight;
        squares += weight * weight;
        for (std::size_t c = 0; c < crossings_.size(); ++c) {
          for (std::size_t q = 0; q < quantities(); ++q) {
            sample.values[c][q].push_back(into_.crossings[c].members[m].observed[q]);
          }
        }
      }
    }
    if (!(compared > 0.0)) {
      refuse();
    }
    into_.dropped = 1.0 - compared / all;
    into_.effective_count = compared * compared / squares; // Kish (1965)
    const Bootstrap bootstrap(sample, into_.options.resamples, into_.options.seed);
    into_.rankings = rank(sample, bootstrap, into_.options.confidence);
    into_.differences = differences(sample, bootstrap, into_.options.confidence);
    for (std::size_t c = 0; c < crossings_.size(); ++c) {
      describe(c, members_compared, sample, all);
    }
    if (into_.options.paths) {
      add_paths(members_compared);
    }
    into_.groups = groups_of(into_, members_compared, sample);
    rank_with_the_worst(into_);
    add_words(into_, crossings_);
  }

private:
  [[nodiscard]] std::size_t members() const { return into_.population.members.size(); }
  [[nodiscard]] std::size_t quantities() const { return quantity::compared(into_.options.steel).size(); }
  [[nodiscard]] std::size_t place_of(std::string_view key) const { return observed(key, into_.options.steel); }

  bool chunk(std::size_t begin, std::size_t end, const CompareOptions& options, SharedParts& parts) {
    std::vector<Case> list;
    std::vector<std::pair<std::size_t, std::size_t>> places; // crossing, member
    std::size_t impossible = 0;
    for (std::size_t m = begin; m < end; ++m) {
      const Wheel wheel = wheel_of(crossings_, into_.population, m);
      for (std::size_t c = 0; c < crossings_.size(); ++c) {
        try {
          list.push_back(put_on(crossings_[c], wheel, into_.population.members[m].name));
          places.emplace_back(c, m);
        } catch (const InputError& error) {
          MemberAnswer& answer = into_.crossings[c].members[m];
          answer = {};
          answer.state = State::bad_input;
          answer.failure = error.what();
          answer.speed = answer.static_load = answer.lateral_offset = none;
          answer.observed.assign(quantities(), none);
          into_.compared[m] = false;
          ++impossible;
        }
      }
    }
    ManyOptions many;
    many.threads = options.threads;
    many.steel = options.steel;
    many.look = [&](std::size_t i, const Case&, const Result& result) {
      traces_[places[i].first].keep(places[i].second, result.history, *result.geometry.crossing);
    };
    many.cancel = options.cancel;
    if (options.progress) {
      const std::size_t before = begin * crossings_.size() + impossible, total = members() * crossings_.size();
      many.progress = [&options, before, total](std::size_t done, std::size_t) {
        options.progress(before + done, total);
      };
    }
    auto outcomes = run_many(list, many, &parts);
    for (std::size_t i = 0; i < outcomes.size(); ++i) {
      if (outcomes[i].state == Outcome::State::not_run) {
        return false;
      }
      const auto [c, m] = places[i];
      into_.crossings[c].members[m] = answer_of(list[i], outcomes[i], options.steel);
      into_.compared[m] = into_.compared[m] && into_.crossings[c].members[m].state == State::done;
    }
    return true;
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

  void describe(std::size_t c, const std::vector<std::size_t>& compared, const Sample& sample, double all) {
    CrossingAnswer& a = into_.crossings[c];
    for (std::size_t q = 0; q < quantities(); ++q) {
      a.distributions.push_back(distribution_of(sample.values[c][q], sample.weights));
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
    if (sample.steel) {
      a.beyond_shakedown = share_above(sample, c, place_of("shakedown_exceedance"), 1.0);
      a.beyond_surface_flow = share_above(sample, c, place_of("surface_fatigue_index"), 0.0);
    }
    a.envelope = traces_[c].envelope(compared, sample.weights);
    a.nose_load = traces_[c].nose_load(compared, sample.weights);
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
  std::vector<Traces> traces_; // per crossing
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
