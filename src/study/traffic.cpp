#include "wingnose/study/traffic.hpp"

#include "wingnose/assess/damage_along.hpp"
#include "wingnose/study/compare.hpp"
#include "wingnose/study/many.hpp"
#include "wingnose/study/steel_damage.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <set>

namespace wingnose::study {
namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();
struct Cancelled {};

void check(const io::CaseDocument& document, const Population& population, const TrafficOptions& o) {
  if (!(o.tonnage > 0.0 && std::isfinite(o.tonnage))) {
    throw InputError("tonnage", number(o.tonnage * 1e-9) + " MGT", "above 0", "Busy lines carry 10 to 60 MGT a year.");
  }
  if (o.stages < 1 || o.stages > 1000) {
    throw InputError("stages of the traffic", std::to_string(o.stages), "1 to 1000",
                     "Ten stages show how a steel hardens.");
  }
  const Excitation& excitation = document.base().excitation;
  if (!std::holds_alternative<layout::CrossingShape>(excitation) &&
      !std::holds_alternative<layout::SectionedShape>(excitation)) {
    throw InputError("the case runs over a joint or a given path; a traffic needs a crossing, of the kind "
                     "\"generated\" or \"sections\"");
  }
  check(population);
  std::set<std::pair<std::size_t, std::string>> seen;
  for (const Member& member : population.members) {
    for (const auto& value : member.values) {
      if (value.key.rfind("damage.", 0) == 0) {
        throw InputError("\"" + value.key +
                         "\" cannot vary over the wheels of a traffic: they all meet the same steel. Give it in the "
                         "case");
      }
      const WheelClass& c = population.classes[member.wheel_class];
      const bool own = io::shapes_wheel(value.key) && c.wheel;
      if (seen.emplace(own ? member.wheel_class + 1 : 0, value.key).second) {
        try {
          (void)io::key_info(own ? *c.wheel : document, value.key);
        } catch (const InputError& error) {
          throw InputError((own ? "wheel class \"" + c.name + "\": " : "wheels of the traffic: ") + error.what());
        }
      }
    }
  }
}

class Rolling {
public:
  Rolling(const io::CaseDocument& document, const TrafficOptions& options, Traffic& into)
      : crossing_{{{"crossing", document}}}, options_(options), into_(into), trails_(members()) {
    into_.members.resize(members());
    const Case& base = document.base();
    into_.steel = options.steel.value_or(base.grade);
    damage_ = options.damage.value_or(base.damage);
    into_.tonnage = options.tonnage;
    assess::check(into_.steel);
    assess::check(damage_);
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
    double all = 0.0, lost = 0.0;
    for (std::size_t m = 0; m < members(); ++m) {
      const double weight = into_.population.members[m].weight;
      all += weight;
      if (trails_[m]) {
        mix.push_back({.trail = &*trails_[m], .wheels = weight, .load = into_.members[m].static_load});
        places.push_back(m);
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
    into_.damage =
        assess::damage_of_traffic(mix, into_.steel, damage_, options_.stages, [this](std::size_t done, std::size_t of) {
          report(members() + done * members() / of);
        });
    into_.damage.notes.push_back(words_of_spread(places));
    if (into_.failed > 0) {
      into_.damage.notes.push_back(words_of_failures());
    }
  }

private:
  [[nodiscard]] std::size_t members() const { return into_.population.members.size(); }

  void stop_if_asked() const {
    if (options_.cancel != nullptr && options_.cancel->load(std::memory_order_relaxed)) {
      throw Cancelled{};
    }
  }

  void report(std::size_t done) const {
    stop_if_asked();
    if (options_.progress) {
      options_.progress(done, 2 * members()); // rolled, then assessed
    }
  }

  void fail(std::size_t m, const std::string& why) {
    TrafficMember& a = into_.members[m];
    a.failure = why;
    a.static_load = a.peak_pressure = a.shakedown = a.fatigue_index = a.t_gamma = a.friction_energy = none;
  }

  void roll(std::size_t begin, std::size_t end, SharedParts& parts) {
    std::vector<Case> cases;
    std::vector<std::size_t> places;
    for (std::size_t m = begin; m < end; ++m) {
      try {
        Case c = case_of(crossing_, 0, into_.population, m);
        c.damage = damage_;
        into_.members[m].speed = c.passage.speed;
        into_.members[m].lateral_offset = c.lateral_offset;
        cases.push_back(std::move(c));
        places.push_back(m);
      } catch (const InputError& error) {
        fail(m, error.what());
      }
    }
    ManyOptions many;
    many.threads = options_.threads;
    many.keep_history = true;
    many.cancel = options_.cancel;
    many.progress = [&](std::size_t done, std::size_t) { report(begin + done); };
    auto outcomes = run_many(cases, many, &parts);
    for (std::size_t i = 0; i < outcomes.size(); ++i) {
      if (outcomes[i].state == Outcome::State::not_run) {
        throw Cancelled{};
      }
      if (outcomes[i].result) {
        keep(places[i], cases[i], *outcomes[i].result);
      } else {
        fail(places[i], outcomes[i].failure);
      }
      outcomes[i].result.reset();
      stop_if_asked();
    }
  }

  void keep(std::size_t m, const Case& c, const Result& result) {
    try {
      assess::ContactTrail trail = contact_trail(c, result);
      TrafficMember& a = into_.members[m];
      a.static_load = result.history.static_load;
      for (const auto& step : trail.steps) {
        a.peak_pressure = std::max(a.peak_pressure, step.patch.peak_pressure);
        a.friction_energy += step.friction_power * trail.duration;
      }
      a.fatigue_index = -std::numeric_limits<double>::infinity();
      for (const auto& at : assess::steel_along(trail, into_.steel, damage_)) {
        a.shakedown = std::max(a.shakedown, at.shakedown);
        a.fatigue_index = std::max(a.fatigue_index, at.fatigue_index);
        a.t_gamma = std::max(a.t_gamma, at.t_gamma);
      }
      trails_[m] = std::move(trail);
    } catch (const ComputeError& error) {
      fail(m, error.what());
    }
  }

  // One wheel that touches an edge can be far above all others: the largest value alone would mislead.
  [[nodiscard]] std::string words_of_spread(const std::vector<std::size_t>& places) const {
    std::vector<double> values, weights;
    std::size_t worst = places.front();
    for (const std::size_t m : places) {
      values.push_back(into_.members[m].shakedown);
      weights.push_back(into_.members[m].wheels);
      worst = into_.members[m].shakedown > into_.members[worst].shakedown ? m : worst;
    }
    const auto shown = [](double value) { return number(std::round(value * 100.0) / 100.0); };
    return "Shakedown exceedance of one wheel over new steel: half of the traffic stays up to " +
           shown(weighted_quantile(values, weights, 0.5)) + ", 95 % up to " +
           shown(weighted_quantile(values, weights, 0.95)) + "; the largest, " + shown(into_.members[worst].shakedown) +
           ", is that of " + into_.population.members[worst].name + ".";
  }

  [[nodiscard]] std::string words_of_failures() const {
    constexpr std::size_t told = 3;
    std::string words = std::to_string(into_.failed) + " of " + std::to_string(members()) +
                        " wheels could not be computed (" + number(std::round(into_.failed_share * 1000.0) / 10.0) +
                        " % of the traffic); the others carry the whole tonnage in their place:";
    std::size_t count = 0;
    for (std::size_t m = 0; m < members() && count < told; ++m) {
      if (!trails_[m]) {
        words += (count > 0 ? "; " : " ") + into_.population.members[m].name + ": " + into_.members[m].failure;
        ++count;
      }
    }
    return words + (into_.failed > told ? "; and others." : ".");
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
  assess::DamageOptions damage_;
  std::vector<std::optional<assess::ContactTrail>> trails_; // per wheel
};

} // namespace

std::optional<Traffic> traffic(const io::CaseDocument& document, const Population& population,
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

Population wheels_of(const std::variant<PopulationRecipe, Population>& wheels) {
  const auto* recipe = std::get_if<PopulationRecipe>(&wheels);
  return recipe != nullptr ? draw(*recipe) : std::get<Population>(wheels);
}

} // namespace wingnose::study
