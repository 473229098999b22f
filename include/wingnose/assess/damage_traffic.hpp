// Damage of many wheels: the sums over a population of wheels and a tonnage, with hardening between stages. SI.
//
// All wheels roll over the crossing as it is in the case: the shape does not change with wear or flow. Within a stage
// the steel is that of its beginning; after it, every place is harder by the wheels that have loaded it (steel.hpp).
// Each stage carries the same share of the traffic. Sums over wheels are added in the order given; another order
// changes them by rounding only (relative 1e-12 for thousands of wheels), the largest pressures not at all.
//
// Wear is a rate for the shape given. It is told up to the number of wheels that wear the deepest place to
// DamageOptions::wear_depth_limit (`wear_wheels`), straight within a stage; what the wheels after them wear is not
// told.
#pragma once

#include "wingnose/assess/damage.hpp"
#include "wingnose/words/column.hpp"

#include <cstddef>
#include <functional>
#include <limits>
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
inline constexpr auto stage_columns = std::to_array<Column<TrafficStage>>(
    {{"wheels", "wheels", "wheels after the stage, from the beginning", &TrafficStage::wheels, 0},
     {"shear_yield_MPa", "shear yield", "yield in shear in the stage, of the place loaded most so far",
      &TrafficStage::shear_yield, 0},
     {"hardness_MPa", "hardness", "hardness, likewise", &TrafficStage::hardness, 0},
     {"shakedown_exceedance", "shakedown exceedance", "largest of all wheels in the stage", &TrafficStage::shakedown,
      2},
     {"surface_fatigue_index", "surface fatigue index", "largest of all wheels in the stage",
      &TrafficStage::fatigue_index, 3},
     {"wear_depth_mm", "wear depth", "deepest node after the stage", &TrafficStage::wear_depth, 3}});

struct TrafficDamage {
  double wheels = 0.0;          // -
  double wear_wheels = 0.0;     // those up to which wear is told
  double friction_energy = 0.0; // J
  double wear_volume = 0.0;     // m3
  double crack_damage = 0.0; // -, sum over wheels of the largest crack function of each: an upper bound for one place
  double beyond_shakedown = 0.0;    // wheels that went beyond shakedown somewhere
  double beyond_surface_flow = 0.0; // wheels with a surface fatigue index above 0 somewhere
  std::vector<DamageMap> maps;      // one per body
  std::vector<TrafficStage> stages;
  Findings findings;
  [[nodiscard]] TrafficStage first() const { return stages.empty() ? TrafficStage{} : stages.front(); }
  [[nodiscard]] TrafficStage last() const { return stages.empty() ? TrafficStage{} : stages.back(); }
};
inline constexpr auto traffic_columns = std::to_array<Column<TrafficDamage>>(
    {{"wheels", "wheels", "over this crossing", &TrafficDamage::wheels, 0},
     {"wheels_beyond_shakedown", "wheels beyond shakedown", "somewhere on the stretch",
      &TrafficDamage::beyond_shakedown, 0},
     {"wheels_beyond_surface_flow", "wheels with fatigue index > 0", "somewhere on the stretch",
      &TrafficDamage::beyond_surface_flow, 0},
     {"wear_depth_per_wheel_nm", "wear depth per wheel",
      "deepest node, mean over the wheels up to which wear is told: a rate for the shape given",
      [](const TrafficDamage& t) { return t.last().wear_depth / t.wear_wheels; }, 1},
     {"wear_wheels", "wear told up to wheels",
      "wheels that wear the deepest node to damage.wear_depth_limit_mm, or all of them", &TrafficDamage::wear_wheels,
      0},
     {"wear_depth_mm", "wear depth, shape unchanged", "deepest node, after so many wheels",
      [](const TrafficDamage& t) { return t.last().wear_depth; }, 3},
     {"wear_volume_mm3", "wear volume", "of the whole stretch, after so many wheels", &TrafficDamage::wear_volume, 0},
     {"crack_damage", "crack damage", "sum of each wheel's largest; an upper bound for one place",
      &TrafficDamage::crack_damage, 2},
     {"shear_yield_first_MPa", "shear yield, first stage", "at the place loaded most",
      [](const TrafficDamage& t) { return t.first().shear_yield; }, 0},
     {"shear_yield_last_MPa", "shear yield, last stage", "at the place loaded most",
      [](const TrafficDamage& t) { return t.last().shear_yield; }, 0},
     {"shakedown_exceedance_first", "shakedown exceedance, first stage", "largest of all wheels",
      [](const TrafficDamage& t) { return t.first().shakedown; }, 2},
     {"shakedown_exceedance_last", "shakedown exceedance, last stage", "largest of all wheels",
      [](const TrafficDamage& t) { return t.last().shakedown; }, 2}});

// Some of the wheels of a traffic, such as those of a class: how many, and the largest values of one over new steel.
struct WheelSums {
  std::string name;
  double kinds = 0.0, failed = 0.0; // wheels of the population, and those of them without damage
  double wheels = 0.0;              // in the traffic
  double load = 0.0;                // N, of all these
  double share = 0.0;               // of the traffic
  double shakedown = -1.0, fatigue_index = -1.0, t_gamma = -1.0; // -, -, N; nothing is told without wheels
  // passage: nullptr where it failed; load: N, of one.
  void add(const SteelMeasures* passage, double of_them, double load);
};
inline constexpr auto wheel_sum_columns = std::to_array<Column<WheelSums>>(
    {{"kinds", "kinds", "wheels of the population", &WheelSums::kinds, 0},
     {"failed", "failed", "of them without damage", &WheelSums::failed, 0},
     {"share_percent", "share", "share of the traffic", &WheelSums::share, 1},
     {"mean_load_kN", "mean load", "mean static wheel load", [](const WheelSums& s) { return s.load / s.wheels; }, 1},
     {"shakedown_exceedance", "shakedown", "largest shakedown exceedance",
      [](const WheelSums& s) { return s.wheels > 0.0 ? s.shakedown : std::numeric_limits<double>::quiet_NaN(); }, 2},
     {"surface_fatigue_index", "fatigue index", "largest surface fatigue index",
      [](const WheelSums& s) { return s.wheels > 0.0 ? s.fatigue_index : std::numeric_limits<double>::quiet_NaN(); },
      3},
     {"t_gamma_N", "T-gamma", "largest T-gamma",
      [](const WheelSums& s) { return s.wheels > 0.0 ? s.t_gamma : std::numeric_limits<double>::quiet_NaN(); }, 1}});

// progress: called after each passage assessed, with those done and their total; what it throws is passed on. Throws
// InputError: no wheels, wheels of different bodies, stages not 1 .. 1000, and as damage does.
[[nodiscard]] TrafficDamage
damage_of_traffic(std::span<const TrafficWheel> traffic, const Steel& steel, const DamageOptions& options,
                  int stages = 1, const std::function<void(std::size_t done, std::size_t total)>& progress = {});

} // namespace wingnose::assess
