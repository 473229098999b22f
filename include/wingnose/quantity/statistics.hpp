// What crossings are ranked by, and how a statistic of a quantity is called.
#pragma once

#include "wingnose/numeric/weighted.hpp"
#include "wingnose/quantity/quantity.hpp"

#include <string>
#include <vector>

namespace wingnose::quantity {

// A statistic of one quantity over a population.
struct Statistic {
  using Kind = SampleStatistic::Kind;
  const Quantity* of = nullptr;
  Kind kind = Kind::mean;
  double level = 0.5;            // of a quantile
  bool higher_is_better = false; // as a criterion
};

// What crossings are ranked by: P2 median, P2 95 %, peak nose force 95 %, dip angle mean, share that loses contact, and
// nose thickness at transfer 5 % (earliest transfers; thicker is better). With the steel also shakedown exceedance 95 %
// (what the hardest landings do to the bulk), share of wheels with a surface fatigue index above 0 (how many make the
// surface flow) and wear volume mean (what every wheel takes away). Peak pressure and friction energy say much the same
// as these; T-gamma is no criterion, as more of it first grows cracks and then wears them away.
[[nodiscard]] std::vector<Statistic> criteria(bool steel = false);

// As it is printed and stored: key "p2_kN_q95", label "P2, 95 %"; shares in %.
struct NamedStatistic {
  std::string key, label, meaning;
  Unit unit;
  int decimals;
};
[[nodiscard]] NamedStatistic named(const Statistic& statistic);

[[nodiscard]] std::string quantile_name(double level);  // "q05"
[[nodiscard]] std::string quantile_label(double level); // "5 %"

} // namespace wingnose::quantity
