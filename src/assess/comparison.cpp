#include "wingnose/assess/comparison.hpp"

#include "comparison_words.hpp"

#include "wingnose/words/error.hpp"
#include "wingnose/words/number.hpp"
#include "wingnose/words/unit.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace wingnose::assess {
namespace {

using State = ComparedPassage::State;

constexpr std::size_t fewest = 10; // wheels of a group; of fewer a bootstrap says nothing

double sum_of(std::span<const double> values) { return std::accumulate(values.begin(), values.end(), 0.0); }

// The wheels of a comparison as samples.
struct Wheels {
  std::vector<std::size_t> compared; // those compared
  PairedSample everyone,
      sample; // observed of all wheels, and of those compared
};

[[noreturn]] void refuse(const CrossingComparison& c, const ComparisonTerms& terms) {
  for (const ComparedOnCrossing& crossing : c.crossings) {
    for (std::size_t m = 0; m < crossing.members.size(); ++m) {
      if (crossing.members[m].state != State::done) {
        throw ComputeError("no wheel with a weight could be computed on all crossings without a grave finding; on \"" +
                           crossing.name + "\", " + terms.names[m] + ": " + crossing.members[m].failure);
      }
    }
  }
  throw ComputeError("no wheel with a weight could be computed on all crossings");
}

Wheels compare_wheels(CrossingComparison& c, const ComparisonTerms& terms) {
  Wheels wheels;
  wheels.everyone.weights = terms.weights;
  c.compared.assign(terms.weights.size(), true);
  for (const ComparedOnCrossing& crossing : c.crossings) {
    auto& observed = wheels.everyone.values.emplace_back(crossing.members.front().observed.size());
    for (std::size_t m = 0; m < crossing.members.size(); ++m) {
      c.compared[m] = c.compared[m] && crossing.members[m].state == State::done;
      for (std::size_t q = 0; q < observed.size(); ++q) {
        observed[q].push_back(crossing.members[m].observed[q]);
      }
    }
  }
  for (std::size_t m = 0; m < c.compared.size(); ++m) {
    if (c.compared[m]) {
      wheels.compared.push_back(m);
    }
  }
  wheels.sample = part_of(wheels.everyone, wheels.compared);
  const double compared = sum_of(wheels.sample.weights);
  if (!(compared > 0.0)) {
    refuse(c, terms);
  }
  c.dropped = 1.0 - compared / sum_of(terms.weights);
  c.effective_count = effective_count(wheels.sample.weights);
  return wheels;
}

void describe(ComparedOnCrossing& a, const ComparisonTerms& terms, const Wheels& wheels,
              const std::vector<std::vector<double>>& observed, const ForcesOfMany& forces) {
  for (const auto& values : observed) {
    a.distributions.push_back(distribution_of(values, wheels.sample.weights));
  }
  const double all = sum_of(terms.weights), total = sum_of(wheels.sample.weights);
  for (std::size_t m = 0; m < a.members.size(); ++m) {
    const State state = a.members[m].state;
    if (state != State::done) {
      (state == State::no_transfer ? a.no_transfer
       : state == State::grave     ? a.grave
                                   : a.failed) += terms.weights[m] / all;
    }
  }
  const auto &lost = observed[terms.lost_contact], &thickness = observed[terms.nose_thickness];
  std::vector<std::size_t> early;
  for (std::size_t i = 0; i < wheels.compared.size(); ++i) {
    a.loses_contact += lost[i] > 0.0 ? wheels.sample.weights[i] / total : 0.0;
    if (thickness[i] < terms.thin_nose) {
      a.early += wheels.sample.weights[i] / total;
      early.push_back(i);
    }
  }
  std::stable_sort(early.begin(), early.end(),
                   [&](std::size_t x, std::size_t y) { return thickness[x] < thickness[y]; });
  for (const std::size_t i : early) {
    a.early_members.push_back(wheels.compared[i]);
  }
  if (terms.shakedown) {
    a.beyond_shakedown = weighted_share_above(observed[*terms.shakedown], wheels.sample.weights, 1.0);
    a.beyond_surface_flow = weighted_share_above(observed[*terms.surface_fatigue], wheels.sample.weights, 0.0);
  }
  a.envelope = forces.envelope(wheels.compared, wheels.sample.weights);
  a.nose_load = forces.nose_load(wheels.compared, wheels.sample.weights);
}

void choose_paths(CrossingComparison& c, const ComparisonTerms& terms, const Wheels& wheels) {
  std::vector<TypicalPath> chosen;
  const auto& first = wheels.everyone.values.front()[terms.nose_thickness];
  for (std::size_t k = 0; k < terms.classes.size(); ++k) {
    std::vector<double> values, weights;
    std::vector<std::size_t> places;
    for (const std::size_t m : wheels.compared) {
      if (terms.wheel_class[m] == k && terms.weights[m] > 0.0) {
        places.push_back(m);
        values.push_back(first[m]);
        weights.push_back(terms.weights[m]);
      }
    }
    if (!places.empty()) {
      const double middle = weighted_quantile(values, weights, 0.5);
      const auto nearest = std::min_element(places.begin(), places.end(), [&](std::size_t x, std::size_t y) {
        return std::abs(first[x] - middle) < std::abs(first[y] - middle);
      });
      chosen.push_back({*nearest, "typical of " + terms.classes[k], nullptr});
    }
  }
  std::size_t earliest = wheels.compared.front();
  double least = std::numeric_limits<double>::infinity();
  for (const auto& of_crossing : wheels.everyone.values) {
    for (const std::size_t m : wheels.compared) {
      if (of_crossing[terms.nose_thickness][m] < least) {
        least = of_crossing[terms.nose_thickness][m];
        earliest = m;
      }
    }
  }
  // Facing wheels come onto a thin nose too early, trailing ones leave the nose too late, where it is thin again.
  const bool facing = terms.direction == Direction::facing;
  chosen.push_back({earliest, facing ? "earliest transfer" : "latest transfer", nullptr});
  for (ComparedOnCrossing& crossing : c.crossings) {
    crossing.paths = chosen;
  }
}

class Ranking {
public:
  Ranking(CrossingComparison& into, const ComparisonTerms& terms, const Wheels& wheels)
      : c_(into), terms_(terms), members_(wheels.compared), sample_(wheels.sample) {}

  void rank() {
    const PairedBootstrap bootstrap = resampled(sample_);
    for (PairedRanking& r : wingnose::rank(sample_, terms_.criteria, bootstrap)) {
      c_.rankings.push_back({std::move(r), {}, {}});
    }
    c_.differences = differences(sample_, terms_.criteria, bootstrap);
    for (std::size_t k = 0; k < terms_.criteria.size(); ++k) {
      with_the_worst(terms_.criteria[k], c_.rankings[k]);
    }
    for (std::size_t k = 0; terms_.classes.size() > 1 && k < terms_.classes.size(); ++k) {
      add_group(WheelGroup::Kind::wheel_class, "class " + terms_.classes[k],
                [&](std::size_t i) { return terms_.wheel_class[members_[i]] == k; });
    }
    add_halves(WheelGroup::Kind::speed, "speeds", &ComparedPassage::speed, unit("km/h"));
    add_halves(WheelGroup::Kind::load, "wheel loads", &ComparedPassage::static_load, unit("kN"));
  }

private:
  [[nodiscard]] PairedBootstrap resampled(const PairedSample& sample) const {
    return {sample, terms_.criteria, terms_.resamples, terms_.seed, terms_.confidence};
  }

  void with_the_worst(const Criterion& criterion, CrossingRanking& r) const {
    const double worst = (criterion.higher_is_better ? -1.0 : 1.0) * std::numeric_limits<double>::infinity();
    for (const ComparedOnCrossing& crossing : c_.crossings) {
      std::vector<double> values;
      for (const ComparedPassage& m : crossing.members) {
        values.push_back(m.state == State::done ? m.observed[criterion.variable] : worst);
      }
      r.worst_values.push_back(evaluate(criterion.statistic, values, terms_.weights));
    }
    r.worst_places = places_of(criterion.higher_is_better, r.worst_values);
  }

  // The halves of the wheels below and above the weighted median of a value; none when it does not vary.
  void add_halves(WheelGroup::Kind kind, const std::string& what, double ComparedPassage::*value, const Unit& unit) {
    std::vector<double> values;
    for (const std::size_t m : members_) {
      values.push_back(c_.crossings.front().members[m].*value);
    }
    const auto [least, most] = std::minmax_element(values.begin(), values.end());
    if (*most - *least > 1e-6 * *most) {
      const double middle = parting_value(values, sample_.weights);
      const std::string limit = number(std::round(10.0 * middle / unit.to_si) / 10.0) + " " + std::string(unit.name);
      add_group(kind, what + " up to " + limit, [&](std::size_t i) { return values[i] <= middle; });
      add_group(kind, what + " above " + limit, [&](std::size_t i) { return values[i] > middle; });
    }
  }

  template <class Belongs> void add_group(WheelGroup::Kind kind, std::string name, Belongs belongs) {
    WheelGroup group;
    group.kind = kind;
    group.name = std::move(name);
    std::vector<std::size_t> places;
    for (std::size_t i = 0; i < members_.size(); ++i) {
      if (belongs(i)) {
        places.push_back(i);
        group.members.push_back(members_[i]);
      }
    }
    const PairedSample part = part_of(sample_, places);
    const double weight = sum_of(part.weights);
    if (places.size() < fewest || !(weight > 0.0)) {
      return;
    }
    group.share = weight / sum_of(sample_.weights);
    const PairedBootstrap bootstrap = resampled(part);
    group.rankings = wingnose::rank(part, terms_.criteria, bootstrap);
    for (std::size_t k = 0; k < group.rankings.size(); ++k) {
      const std::size_t here = group.rankings[k].order.front(), all = c_.rankings[k].order.front();
      group.flips.push_back(here != all && bootstrap.criterion(k, here, all).without_zero());
    }
    c_.groups.push_back(std::move(group));
  }

  CrossingComparison& c_;
  const ComparisonTerms& terms_;
  const std::vector<std::size_t>& members_; // compared
  const PairedSample& sample_;
};

} // namespace

void compare(CrossingComparison& comparison, const ComparisonTerms& terms, std::span<const ForcesOfMany> forces,
             bool paths) {
  const Wheels wheels = compare_wheels(comparison, terms);
  for (std::size_t c = 0; c < comparison.crossings.size(); ++c) {
    describe(comparison.crossings[c], terms, wheels, wheels.sample.values[c], forces[c]);
  }
  Ranking(comparison, terms, wheels).rank();
  if (paths) {
    choose_paths(comparison, terms, wheels);
  }
  add_words(comparison, terms);
}

} // namespace wingnose::assess
