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

MemberAnswer answer_of(const Case& c, const Outcome& outcome, const SteelAnswer& steel) {
  MemberAnswer a;
  a.observed.fill(none);
  a.speed = c.passage.speed;
  a.lateral_offset = c.lateral_offset;
  a.static_load = none;
  if (outcome.result) {
    const auto& k = outcome.result->geometry.kinematics;
    const auto& m = outcome.result->measures;
    a.static_load = m.static_load;
    const SteelMeasures s = steel.measures.value_or(SteelMeasures{none, none, none, none, none, none, none, 0.0});
    a.observed = {k.transfer_station.value_or(none),
                  k.nose_thickness.value_or(none),
                  k.dip_angle,
                  m.p2,
                  m.peak_nose.value_or(none),
                  m.peak_total,
                  m.lost_contact,
                  s.peak_pressure,
                  s.shakedown,
                  s.fatigue_index,
                  s.t_gamma,
                  s.crack_damage,
                  s.friction_energy,
                  s.wear_volume};
    a.change_of_angle = s.change_of_angle;
    a.steel_failure = steel.failure;
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
        answer.steel = crossings[c].document.base().grade.name;
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
    sample.values.resize(crossings_.size());
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
          for (std::size_t q = 0; q < observed(sample.steel).size(); ++q) {
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
    add_words(into_, crossings_);
  }

private:
  [[nodiscard]] std::size_t members() const { return into_.population.members.size(); }

  bool chunk(std::size_t begin, std::size_t end, const CompareOptions& options, SharedParts& parts) {
    std::vector<Case> cases;
    std::vector<std::pair<std::size_t, std::size_t>> places; // crossing, member
    std::size_t impossible = 0;
    for (std::size_t m = begin; m < end; ++m) {
      const Wheel wheel = wheel_of(crossings_, into_.population, m);
      for (std::size_t c = 0; c < crossings_.size(); ++c) {
        try {
          cases.push_back(put_on(crossings_[c], wheel, into_.population.members[m].name));
          places.emplace_back(c, m);
        } catch (const InputError& error) {
          MemberAnswer& answer = into_.crossings[c].members[m];
          answer = {};
          answer.state = State::bad_input;
          answer.failure = error.what();
          answer.speed = answer.static_load = answer.lateral_offset = none;
          answer.observed.fill(none);
          into_.compared[m] = false;
          ++impossible;
        }
      }
    }
    std::vector<SteelAnswer> steel(cases.size()); // each written by one thread, like the traces
    ManyOptions many;
    many.threads = options.threads;
    many.look = [&](std::size_t i, const Case& on, const Result& result) {
      const auto [c, m] = places[i];
      traces_[c].keep(m, result.history, *result.geometry.crossing);
      if (options.steel) {
        steel[i] = steel_of(on, result);
      }
    };
    many.cancel = options.cancel;
    if (options.progress) {
      const std::size_t before = begin * crossings_.size() + impossible, total = members() * crossings_.size();
      many.progress = [&options, before, total](std::size_t done, std::size_t) {
        options.progress(before + done, total);
      };
    }
    const auto outcomes = run_many(cases, many, &parts);
    for (std::size_t i = 0; i < outcomes.size(); ++i) {
      if (outcomes[i].state == Outcome::State::not_run) {
        return false;
      }
      const auto [c, m] = places[i];
      into_.crossings[c].members[m] = answer_of(cases[i], outcomes[i], steel[i]);
      into_.compared[m] = into_.compared[m] && outcomes[i].result;
    }
    return true;
  }

  [[noreturn]] void refuse() const {
    for (const auto& crossing : into_.crossings) {
      for (std::size_t m = 0; m < members(); ++m) {
        if (crossing.members[m].state != State::done) {
          throw ComputeError("no wheel with a weight could be computed on all crossings; on \"" + crossing.name +
                             "\", " + into_.population.members[m].name + ": " + crossing.members[m].failure);
        }
      }
    }
    throw ComputeError("no wheel with a weight could be computed on all crossings");
  }

  void describe(std::size_t c, const std::vector<std::size_t>& compared, const Sample& sample, double all) {
    CrossingAnswer& a = into_.crossings[c];
    for (std::size_t q = 0; q < observed(sample.steel).size(); ++q) {
      a.distributions[q] = distribution_of(sample.values[c][q], sample.weights);
    }
    for (std::size_t m = 0; m < members(); ++m) {
      const double share = into_.population.members[m].weight / all;
      a.no_transfer += a.members[m].state == State::no_transfer ? share : 0.0;
      a.failed += a.members[m].state != State::no_transfer && a.members[m].state != State::done ? share : 0.0;
    }
    const double total = std::accumulate(sample.weights.begin(), sample.weights.end(), 0.0);
    const auto& lost = sample.values[c][static_cast<std::size_t>(Observed::lost_contact)];
    const auto& thickness = sample.values[c][static_cast<std::size_t>(Observed::nose_thickness)];
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
      a.beyond_shakedown = share_above(sample, c, Observed::shakedown, 1.0);
      a.beyond_surface_flow = share_above(sample, c, Observed::fatigue_index, 0.0);
    }
    a.envelope = traces_[c].envelope(compared, sample.weights);
    a.nose_load = traces_[c].nose_load(compared, sample.weights);
  }

  void add_paths(const std::vector<std::size_t>& compared) {
    constexpr auto quantity = static_cast<std::size_t>(Observed::nose_thickness);
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

std::optional<Comparison> compare(std::span<const ComparedCrossing> crossings, const Population& population,
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
