#include "wingnose/assess/damage_traffic.hpp"

#include "wingnose/error.hpp"
#include "wingnose/frame.hpp"

#include <algorithm>
#include <cmath>

namespace wingnose::assess {
namespace {

constexpr double shape_kept = 0.2e-3; // m, twice a Hertz approach: beyond, worn shapes touch elsewhere

void check_traffic(std::span<const TrafficWheel> traffic) {
  double all = 0.0;
  for (const TrafficWheel& w : traffic) {
    if (!(w.wheels >= 0.0 && std::isfinite(w.wheels)))
      throw InputError("number of wheels of one kind", number(w.wheels), "0 or more", "It counts passages.");
    if (w.trail == nullptr || traffic.front().trail == nullptr || w.trail->bodies != traffic.front().trail->bodies)
      throw InputError("wheels of the traffic", "passages over different bodies", "passages over one crossing",
                       "Add up the damage of each crossing by itself.");
    all += w.wheels;
  }
  if (!(all > 0.0))
    throw InputError("wheels of the traffic", number(all), "above 0", "Give at least one kind of wheel a number.");
}

// Largest count of wheels at any place of the bodies.
double most_loaded(const std::vector<DamageMap>& maps) {
  double most = 0.0;
  for (const DamageMap& m : maps)
    for (const double wheels : m.wheels)
      most = std::max(most, wheels);
  return most;
}

double deepest(const std::vector<DamageMap>& maps) {
  double most = 0.0;
  for (const DamageMap& m : maps)
    for (const double depth : m.wear_depth)
      most = std::max(most, depth);
  return most;
}

} // namespace

std::vector<TrafficWheel> for_tonnage(std::span<const TrafficWheel> mix, double tonnage) {
  check_traffic(mix);
  if (!(tonnage > 0.0 && std::isfinite(tonnage)))
    throw InputError("tonnage", number(tonnage * 1e-9) + " MGT", "above 0", "Busy lines carry 10 to 60 MGT a year.");
  double mass = 0.0;
  for (const TrafficWheel& w : mix) {
    if (!(w.load > 0.0 && std::isfinite(w.load)))
      throw InputError("static load of a wheel", number(w.load * 1e-3) + " kN", "above 0",
                       "A tonnage needs the load of every wheel.");
    mass += w.wheels * 2.0 * w.load / gravity;
  }
  std::vector<TrafficWheel> scaled(mix.begin(), mix.end());
  for (TrafficWheel& w : scaled)
    w.wheels *= tonnage / mass;
  return scaled;
}

TrafficDamage damage_of_traffic(std::span<const TrafficWheel> traffic, const Steel& steel, const DamageOptions& options,
                                int stages) {
  check_traffic(traffic);
  if (stages < 1 || stages > 1000)
    throw InputError("stages of the traffic", std::to_string(stages), "1 to 1000",
                     "Ten stages show how a steel hardens.");
  TrafficDamage total;
  for (const std::string& body : traffic.front().trail->bodies)
    total.maps.push_back(empty_map(body, {.spacing_x = options.spacing_x, .spacing_y = options.spacing_y}));
  for (int i = 0; i < stages; ++i) {
    const std::vector<DamageMap> before = total.maps;
    const double loaded = most_loaded(before);
    TrafficStage stage{.shear_yield = shear_yield(steel, loaded), .hardness = wear_hardness(steel, loaded)};
    bool first = true;
    for (const TrafficWheel& w : traffic) {
      const double wheels = w.wheels / stages;
      if (wheels == 0.0)
        continue;
      const Damage d = damage(*w.trail, steel, options, &before);
      for (std::size_t b = 0; b < total.maps.size(); ++b)
        add(total.maps[b], d.maps[b], wheels);
      total.wheels += wheels;
      total.friction_energy += wheels * d.friction_energy;
      total.wear_volume += wheels * d.wear_volume;
      total.crack_damage += wheels * d.crack_damage.value;
      total.beyond_shakedown += d.shakedown.value > 1.0 ? wheels : 0.0;
      total.beyond_surface_flow += d.fatigue_index.value > 0.0 ? wheels : 0.0;
      stage.shakedown = std::max(stage.shakedown, d.shakedown.value);
      stage.fatigue_index = first ? d.fatigue_index.value : std::max(stage.fatigue_index, d.fatigue_index.value);
      first = false;
    }
    stage.wheels = total.wheels;
    stage.wear_depth = deepest(total.maps);
    total.stages.push_back(stage);
  }
  if (const double depth = total.stages.back().wear_depth; depth > shape_kept)
    total.notes.push_back(
        "Wear of " + number(std::round(depth * 1e4) * 0.1) +
        " mm at one place would change the shape: it spreads over a wider band and slows down. Read it "
        "as the rate at which the given shape begins to wear, not as a forecast.");
  return total;
}

} // namespace wingnose::assess
