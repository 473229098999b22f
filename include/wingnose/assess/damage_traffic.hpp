// Damage of many wheels: the sums over a population of wheels and a tonnage, with hardening between stages. SI.
//
// All wheels roll over the crossing as it is in the case: the shape does not change with wear or flow. Within a stage
// the steel is that of its beginning; after it, every place is harder by the wheels that have loaded it (steel.hpp).
// Each stage carries the same share of the traffic. Sums over wheels are added in the order given; another order
// changes them by rounding only (relative 1e-12 for thousands of wheels), the largest pressures not at all.
#pragma once

#include "wingnose/assess/damage.hpp"

#include <cstddef>
#include <functional>
#include <span>
#include <string>
#include <vector>

namespace wingnose::assess {

// Wheels alike: one passage and how many of them run.
struct TrafficWheel {
  const ContactTrail* trail; // not null, outlives the call
  double wheels = 1.0;       // -, >= 0, of this kind in the traffic
  double load = 0.0;         // N, static wheel load, > 0 when a tonnage is asked for
};

// The same mix with so many wheels that their axles weigh `tonnage` (kg) in all: 1 MGT is 1e9 kg. Both rails carry half
// of an axle. Throws InputError.
[[nodiscard]] std::vector<TrafficWheel> for_tonnage(std::span<const TrafficWheel> mix, double tonnage);

struct TrafficStage {
  double wheels = 0.0;        // after the stage, from the beginning
  double shear_yield = 0.0;   // Pa, in the stage, of the place loaded most so far
  double hardness = 0.0;      // Pa, likewise
  double shakedown = 0.0;     // -, largest exceedance of all wheels in the stage
  double fatigue_index = 0.0; // -, largest
  double wear_depth = 0.0;    // m, deepest node after the stage
};

struct TrafficDamage {
  double wheels = 0.0;          // -
  double friction_energy = 0.0; // J
  double wear_volume = 0.0;     // m3
  double crack_damage = 0.0; // -, sum over wheels of the largest crack function of each: an upper bound for one place
  double beyond_shakedown = 0.0;    // wheels that went beyond shakedown somewhere
  double beyond_surface_flow = 0.0; // wheels with a surface fatigue index above 0 somewhere
  std::vector<DamageMap> maps;      // one per body
  std::vector<TrafficStage> stages;
  Findings findings;
};

// progress: called after each passage assessed, with those done and their total; what it throws is passed on. Throws
// InputError: no wheels, wheels of different bodies, stages not 1 .. 1000, and as damage does.
[[nodiscard]] TrafficDamage
damage_of_traffic(std::span<const TrafficWheel> traffic, const Steel& steel, const DamageOptions& options,
                  int stages = 1, const std::function<void(std::size_t done, std::size_t total)>& progress = {});

} // namespace wingnose::assess
