// A mixed traffic over one crossing: every wheel of a population rolls over it once, and the damage it does is added up
// as often as such wheels come in a tonnage (assess/damage_traffic.hpp, its limits too).
//
// Wheels that cannot be computed, or that leave no contact around the landing, are counted and told by name; the others
// then carry the whole tonnage, in the proportion of their weights. Of each passage only its contacts are kept, some
// hundred kilobytes. The same bits whatever the number of threads. SI; wingnose/words/frame.hpp.
#pragma once

#include "wingnose/assess/damage_traffic.hpp"
#include "wingnose/study/population.hpp"

#include <atomic>
#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace wingnose::study {

struct TrafficOptions {
  double tonnage = 10e9;                                      // kg, > 0: 1 MGT is 1e9 kg
  int stages = 10;                                            // 1 .. 1000, between which the steel hardens
  std::optional<assess::Steel> steel = std::nullopt;          // otherwise the case's own
  std::optional<assess::DamageOptions> damage = std::nullopt; // likewise
  int threads = 0;                                            // of the passages; 0: one per core
  std::size_t passages_per_chunk = 32; // held with their histories at once; no influence on the numbers
  // Called with what is done of `total` equal parts of work. As of run_many.
  std::function<void(std::size_t done, std::size_t total)> progress = {};
  const std::atomic<bool>* cancel = nullptr; // set it to end soon
};

struct TrafficMember {
  std::string failure;                                         // why there is no damage; empty: there is
  double speed = 0.0, static_load = 0.0, lateral_offset = 0.0; // m/s, N (NaN where it failed), m
  double wheels = 0.0;                                         // of this kind in the traffic, 0 where it failed
  // Of one such wheel over new steel; NaN where it failed.
  double peak_pressure = 0.0;   // Pa
  double shakedown = 0.0;       // -, exceedance
  double fatigue_index = 0.0;   // -
  double t_gamma = 0.0;         // N
  double friction_energy = 0.0; // J
};

struct Traffic {
  Population population;
  std::vector<TrafficMember> members; // one per wheel of the population
  assess::Steel steel;
  double tonnage = 0.0;         // kg
  std::size_t failed = 0;       // wheels of the population without damage
  double failed_share = 0.0;    // of the weight
  assess::TrafficDamage damage; // its notes say which wheels failed
};

// nullopt when cancelled. document: a case whose excitation is a crossing. Throws InputError: a case that is no
// crossing, a key no case knows, tonnage or stages out of range, and as check(population); ComputeError when no wheel
// with a weight could be computed.
[[nodiscard]] std::optional<Traffic> traffic(const io::CaseDocument& document, const Population& population,
                                             const TrafficOptions& options = {});

// The wheels of a file: listed, or drawn.
[[nodiscard]] Population wheels_of(const std::variant<PopulationRecipe, Population>& wheels);

} // namespace wingnose::study
