#include "wingnose/assess/damage_traffic.hpp"

#include "wingnose/assess/damage_along.hpp"
#include "wingnose/words/error.hpp"
#include "wingnose/words/frame.hpp"

#include <algorithm>
#include <cmath>

namespace wingnose::assess {
namespace {

constexpr std::size_t stages_at_once = 10; // maps of so many are held at once, some megabytes each

void check_traffic(std::span<const TrafficWheel> traffic) {
  double all = 0.0;
  for (const TrafficWheel& w : traffic) {
    if (!(w.wheels >= 0.0 && std::isfinite(w.wheels))) {
      throw InputError("number of wheels of one kind", number(w.wheels), "0 or more", "It counts passages.");
    }
    if (w.trail == nullptr || traffic.front().trail == nullptr || w.trail->bodies != traffic.front().trail->bodies) {
      throw InputError("wheels of the traffic", "passages over different bodies", "passages over one crossing",
                       "Add up the damage of each crossing by itself.");
    }
    all += w.wheels;
  }
  if (!(all > 0.0)) {
    throw InputError("wheels of the traffic", number(all), "above 0", "Give at least one kind of wheel a number.");
  }
}

// Largest count of wheels at any place of the bodies.
double most_loaded(const std::vector<DamageMap>& maps) {
  double most = 0.0;
  for (const DamageMap& m : maps) {
    for (const double wheels : m.wheels) {
      most = std::max(most, wheels);
    }
  }
  return most;
}

double deepest(const std::vector<DamageMap>& maps) {
  double most = 0.0;
  for (const DamageMap& m : maps) {
    for (const double depth : m.wear_depth) {
      most = std::max(most, depth);
    }
  }
  return most;
}

// Damage of one stage.
struct StageSum {
  StageSum(const std::vector<DamageMap>& bodies, const DamageOptions& options) {
    for (const DamageMap& map : bodies) {
      maps.push_back(empty_map(map.body, {.spacing_x = options.spacing_x, .spacing_y = options.spacing_y}));
    }
  }
  void add_wheels(const Damage& d, double count) {
    for (std::size_t b = 0; b < maps.size(); ++b) {
      add(maps[b], d.maps[b], count);
    }
    shakedown = std::max(shakedown, d.shakedown.value);
    fatigue_index = wheels > 0.0 ? std::max(fatigue_index, d.fatigue_index.value) : d.fatigue_index.value;
    wheels += count;
    friction_energy += count * d.friction_energy;
    wear_volume += count * d.wear_volume;
    crack_damage += count * d.crack_damage.value;
    beyond_shakedown += d.shakedown.value > 1.0 ? count : 0.0;
    beyond_surface_flow += d.fatigue_index.value > 0.0 ? count : 0.0;
  }

  std::vector<DamageMap> maps;
  double wheels = 0.0, friction_energy = 0.0, wear_volume = 0.0, crack_damage = 0.0;
  double beyond_shakedown = 0.0, beyond_surface_flow = 0.0;
  double shakedown = 0.0, fatigue_index = 0.0; // largest
};

// Share of a stage's wear that brings the deepest node to the limit; 1 where it stays below. before: the maps without
// the stage, after: with all of it, on their grids.
double share_to_limit(const std::vector<DamageMap>& before, const std::vector<DamageMap>& after, double limit) {
  double share = 1.0;
  for (std::size_t b = 0; b < after.size(); ++b) {
    const DamageMap old = on_grid(before[b], after[b].grid);
    for (std::size_t i = 0; i < after[b].wear_depth.size(); ++i) {
      const double was = old.wear_depth[i], is = after[b].wear_depth[i];
      if (is > limit) {
        share = std::min(share, std::max(0.0, limit - was) / (is - was));
      }
    }
  }
  return share;
}

void add_stage(TrafficDamage& total, const StageSum& sum, double limit) {
  const std::vector<DamageMap> before = total.maps;
  for (std::size_t b = 0; b < total.maps.size(); ++b) {
    add(total.maps[b], sum.maps[b], 1.0);
  }
  const bool stopped = total.wear_wheels < total.wheels;
  const double share = stopped ? 0.0 : share_to_limit(before, total.maps, limit);
  for (std::size_t b = 0; share < 1.0 && b < total.maps.size(); ++b) {
    std::vector<double>& depth = total.maps[b].wear_depth;
    const DamageMap old = on_grid(before[b], total.maps[b].grid);
    for (std::size_t i = 0; i < depth.size(); ++i) {
      depth[i] = old.wear_depth[i] + share * (depth[i] - old.wear_depth[i]);
    }
  }
  total.wear_wheels += share * sum.wheels;
  total.wheels += sum.wheels;
  total.friction_energy += sum.friction_energy;
  total.wear_volume += share * sum.wear_volume;
  total.crack_damage += sum.crack_damage;
  total.beyond_shakedown += sum.beyond_shakedown;
  total.beyond_surface_flow += sum.beyond_surface_flow;
  total.stages.push_back({.wheels = total.wheels,
                          .shakedown = sum.shakedown,
                          .fatigue_index = sum.fatigue_index,
                          .wear_depth = deepest(total.maps)});
}

} // namespace

std::vector<TrafficWheel> for_tonnage(std::span<const TrafficWheel> mix, double tonnage) {
  check_traffic(mix);
  if (!(tonnage > 0.0 && std::isfinite(tonnage))) {
    throw InputError("tonnage", number(tonnage * 1e-9) + " MGT", "above 0", "Busy lines carry 10 to 60 MGT a year.");
  }
  double mass = 0.0;
  for (const TrafficWheel& w : mix) {
    if (!(w.load > 0.0 && std::isfinite(w.load))) {
      throw InputError("static load of a wheel", number(w.load * 1e-3) + " kN", "above 0",
                       "A tonnage needs the load of every wheel.");
    }
    mass += w.wheels * 2.0 * w.load / gravity;
  }
  std::vector<TrafficWheel> scaled(mix.begin(), mix.end());
  for (TrafficWheel& w : scaled) {
    w.wheels *= tonnage / mass;
  }
  return scaled;
}

TrafficDamage damage_of_traffic(std::span<const TrafficWheel> traffic, const Steel& steel, const DamageOptions& options,
                                int stages, const std::function<void(std::size_t, std::size_t)>& progress) {
  check_traffic(traffic);
  if (stages < 1 || stages > 1000) {
    throw InputError("stages of the traffic", std::to_string(stages), "1 to 1000",
                     "Ten stages show how a steel hardens.");
  }
  TrafficDamage total;
  for (const std::string& body : traffic.front().trail->bodies) {
    total.maps.push_back(empty_map(body, {.spacing_x = options.spacing_x, .spacing_y = options.spacing_y}));
  }
  // What hardens a place is how many wheels load it, and that does not depend on the steel: it is known beforehand, so
  // that a passage is assessed for several stages at once.
  std::vector<DamageMap> all_wheels = total.maps;
  for (const TrafficWheel& w : traffic) {
    const auto places = loaded_places(*w.trail, options);
    for (std::size_t b = 0; b < places.size(); ++b) {
      add(all_wheels[b], places[b], w.wheels);
    }
  }
  const double most = most_loaded(all_wheels);
  // Of a steel that does not harden all stages are alike: one is computed.
  const auto computed = static_cast<std::size_t>(steel.hardening ? stages : 1);
  const std::size_t blocks = (computed + stages_at_once - 1) / stages_at_once, passages = traffic.size() * blocks;
  std::size_t done = 0;
  std::vector<StageSum> sums;
  for (std::size_t stage = 0; stage < static_cast<std::size_t>(stages); ++stage) {
    const std::size_t in_block = stage % stages_at_once;
    if (stage < computed && in_block == 0) {
      std::vector<double> shares;
      for (std::size_t i = stage; i < std::min(computed, stage + stages_at_once); ++i) {
        shares.push_back(static_cast<double>(i) / stages);
      }
      sums.assign(shares.size(), StageSum(total.maps, options));
      for (const TrafficWheel& w : traffic) {
        if (w.wheels > 0.0) {
          const std::vector<Damage> found = damage_after(*w.trail, steel, options, &all_wheels, shares);
          for (std::size_t n = 0; n < found.size(); ++n) {
            sums[n].add_wheels(found[n], w.wheels / stages);
          }
        }
        ++done;
        if (progress) {
          progress(done, passages);
        }
      }
    }
    add_stage(total, computed > 1 ? sums[in_block] : sums.front(), options.wear_depth_limit);
    const double loaded = most * static_cast<double>(stage) / stages;
    total.stages.back().shear_yield = shear_yield(steel, loaded);
    total.stages.back().hardness = wear_hardness(steel, loaded);
  }
  if (total.wear_wheels < total.wheels) {
    total.findings.push_back({FindingKind::wear_changes_shape,
                              "wear is told up to " + number(1e3 * options.wear_depth_limit) +
                                  " mm at the deepest place, which " +
                                  number(100.0 * total.wear_wheels / total.wheels, 3) +
                                  " % of the traffic reaches; deeper it would change the shape, spread over a wider "
                                  "band and slow down"});
  }
  return total;
}

void WheelSums::add(const SteelMeasures* passage, double of_them, double each) {
  kinds += 1.0;
  if (passage == nullptr) {
    failed += 1.0;
    return;
  }
  wheels += of_them;
  load += of_them * each;
  shakedown = std::max(shakedown, passage->shakedown.value);
  fatigue_index = std::max(fatigue_index, passage->fatigue_index.value);
  t_gamma = std::max(t_gamma, passage->t_gamma.value);
}

} // namespace wingnose::assess
