// A mixed traffic over one crossing: every wheel of a population rolls over it once, and the damage it does is added up
// as often as such wheels come in a tonnage (assess/damage_traffic.hpp, its limits too).
//
// Wheels that cannot be computed, or that leave no contact around the landing, are counted and told by name; the others
// then carry the whole tonnage, in the proportion of their weights. Of each passage only its contacts are kept, some
// hundred kilobytes. The same bits whatever the number of threads. SI; wingnose/words/frame.hpp.
#pragma once

#include "wingnose/assess/damage_traffic.hpp"
#include "wingnose/case/population.hpp"
#include "wingnose/study/run.hpp"

#include <atomic>
#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace wingnose::study {

struct TrafficOptions {
  double tonnage = 10e9; // kg, > 0: 1 MGT is 1e9 kg
  int stages = 10;       // between which the steel hardens
  int threads = 0;       // of the passages; 0: one per core
  // Called with what is done of `total` equal parts of work. As of run_many.
  std::function<void(std::size_t done, std::size_t total)> progress = {};
  const std::atomic<bool>* cancel = nullptr; // set it to end soon
};
constexpr auto ranges(const TrafficOptions*) {
  using O = TrafficOptions;
  return std::array{InRange{&O::tonnage, "tonnage", "kg", 1e3, 1e15}, InRange{&O::stages, "stages", 1, 1000}};
}
void check(const TrafficOptions& options); // throws InputError

struct TrafficMember {
  std::string failure;         // why there is no damage; empty: there is
  double lateral_offset = 0.0; // m
  double wheels = 0.0;         // of this kind in the traffic, 0 where it failed
  assess::Assessment passage;  // of one such wheel over new steel; nothing measured where it failed
};

struct Traffic {
  cases::Population population;
  std::vector<TrafficMember> members; // one per wheel of the population
  double tonnage = 0.0;               // kg
  std::size_t failed = 0;             // wheels of the population without damage
  double failed_share = 0.0;          // of the weight
  assess::TrafficDamage damage;       // its findings: of the sums and of all wheels
};

// nullopt when cancelled. document: a case whose excitation is a crossing, its steel that of wing and nose. Throws
// InputError: a case that is no crossing, a key no case knows, tonnage or stages out of range, and as
// check(population); ComputeError when no wheel with a weight could be computed.
[[nodiscard]] std::optional<Traffic> traffic(const cases::Document& document, const cases::Population& population,
                                             const TrafficOptions& options = {});

} // namespace wingnose::study
