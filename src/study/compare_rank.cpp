// Ranking and differences of crossings, and whether the ranking holds for every kind of wheel, speed and load.
#include "compare_parts.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace wingnose::study {
namespace {

constexpr std::size_t fewest = 10; // wheels of a group; of fewer a bootstrap says nothing

class RankingCrossings {
public:
  RankingCrossings(Comparison& into, const std::vector<std::size_t>& members, const PairedSample& sample)
      : c_(into), members_(members), sample_(sample), statistics_(quantity::criteria(into.options.steel)) {
    for (const Statistic& s : statistics_) {
      criteria_.push_back({observed(s.of->key, c_.options.steel), {s.kind, s.level}, s.higher_is_better});
    }
  }

  void of_all_wheels() {
    const PairedBootstrap bootstrap = resampled(sample_);
    c_.rankings = rankings_of(sample_, bootstrap);
    const auto quantities = quantity::compared(c_.options.steel);
    for (const PairedDifference& d : differences(sample_, criteria_, bootstrap)) {
      c_.differences.push_back({d.alternative,
                                d.criterion ? statistics_[*d.criterion] : Statistic{quantities[d.variable]}, d.value,
                                d.interval.low, d.interval.high, d.higher});
    }
    with_the_worst();
  }

  void of_classes() {
    const auto& classes = c_.population.classes;
    for (std::size_t k = 0; classes.size() > 1 && k < classes.size(); ++k) {
      add(Group::Kind::wheel_class, "class " + classes[k].name,
          [&](std::size_t i) { return c_.population.members[members_[i]].wheel_class == k; });
    }
  }

  // The halves of the wheels below and above the weighted median of a value; none when it does not vary.
  void of_halves(Group::Kind kind, const std::string& what, double MemberAnswer::*value, const Unit& unit) {
    std::vector<double> values;
    for (const std::size_t m : members_) {
      values.push_back(c_.crossings.front().members[m].*value);
    }
    const auto [least, most] = std::minmax_element(values.begin(), values.end());
    if (*most - *least > 1e-6 * *most) {
      const double middle = parting_value(values, sample_.weights);
      const std::string limit = number(std::round(10.0 * middle / unit.to_si) / 10.0) + " " + std::string(unit.name);
      add(kind, what + " up to " + limit, [&](std::size_t i) { return values[i] <= middle; });
      add(kind, what + " above " + limit, [&](std::size_t i) { return !(values[i] <= middle); });
    }
  }

private:
  [[nodiscard]] PairedBootstrap resampled(const PairedSample& sample) const {
    return {sample, criteria_, c_.options.resamples, c_.options.seed, c_.options.confidence};
  }

  [[nodiscard]] std::vector<Ranking> rankings_of(const PairedSample& sample, const PairedBootstrap& bootstrap) const {
    std::vector<Ranking> rankings;
    for (PairedRanking& r : wingnose::rank(sample, criteria_, bootstrap)) {
      rankings.push_back({std::move(r), statistics_[rankings.size()], {}, {}});
    }
    return rankings;
  }

  // Every criterion over all wheels, those not compared counted as the worst.
  void with_the_worst() {
    std::vector<double> weights;
    for (const auto& member : c_.population.members) {
      weights.push_back(member.weight);
    }
    for (std::size_t k = 0; k < criteria_.size(); ++k) {
      const auto& [variable, statistic, higher_is_better] = criteria_[k];
      Ranking& r = c_.rankings[k];
      const double worst = (higher_is_better ? -1.0 : 1.0) * std::numeric_limits<double>::infinity();
      for (const CrossingAnswer& crossing : c_.crossings) {
        std::vector<double> values;
        for (const MemberAnswer& m : crossing.members) {
          values.push_back(m.state == MemberAnswer::State::done ? m.observed[variable] : worst);
        }
        r.worst_values.push_back(evaluate(statistic, values, weights));
      }
      r.worst_places = places_of(higher_is_better, r.worst_values);
    }
  }

  template <class Belongs> void add(Group::Kind kind, std::string name, Belongs belongs) {
    Group group;
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
    const double weight = std::accumulate(part.weights.begin(), part.weights.end(), 0.0);
    if (places.size() < fewest || !(weight > 0.0)) {
      return;
    }
    group.share = weight / std::accumulate(sample_.weights.begin(), sample_.weights.end(), 0.0);
    const PairedBootstrap bootstrap = resampled(part);
    group.rankings = rankings_of(part, bootstrap);
    for (std::size_t k = 0; k < criteria_.size(); ++k) {
      const std::size_t here = group.rankings[k].order.front(), all = c_.rankings[k].order.front();
      group.flips.push_back(here != all && bootstrap.criterion(k, here, all).without_zero());
    }
    c_.groups.push_back(std::move(group));
  }

  Comparison& c_;
  const std::vector<std::size_t>& members_;
  const PairedSample& sample_;
  std::vector<Statistic> statistics_;
  std::vector<Criterion> criteria_; // the same, by place of what is observed
};

} // namespace

void rank(Comparison& comparison, const std::vector<std::size_t>& members, const PairedSample& sample) {
  RankingCrossings ranking(comparison, members, sample);
  ranking.of_all_wheels();
  ranking.of_classes();
  ranking.of_halves(Group::Kind::speed, "speeds", &MemberAnswer::speed, unit("km/h"));
  ranking.of_halves(Group::Kind::load, "wheel loads", &MemberAnswer::static_load, unit("kN"));
}

} // namespace wingnose::study
