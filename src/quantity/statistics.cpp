#include "wingnose/quantity/statistics.hpp"

#include "wingnose/words/number.hpp"

#include <cmath>

namespace wingnose::quantity {
namespace {

using Kind = Statistic::Kind;

struct Criterion {
  std::string_view key;
  Kind kind;
  double level = 0.5;
  bool higher_is_better = false;
};
constexpr Criterion ranked_by[]{
    {"p2_kN", Kind::quantile, 0.50},
    {"p2_kN", Kind::quantile, 0.95},
    {"peak_nose_kN", Kind::quantile, 0.95},
    {"dip_angle_mrad", Kind::mean},
    {"lost_contact_ms", Kind::share_above_zero},
    {"nose_thickness_at_transfer_mm", Kind::quantile, 0.05, true},
    {"shakedown_exceedance", Kind::quantile, 0.95},
    {"surface_fatigue_index", Kind::share_above_zero},
    {"wear_volume_mm3", Kind::mean},
};

// What it means that a quantity lies above 0, where that has words of its own.
std::string share_label(const Quantity& q) {
  return q.key == "lost_contact_ms"         ? "share that loses contact"
         : q.key == "surface_fatigue_index" ? "share that makes the surface flow"
                                            : std::string(q.label) + ", share above 0";
}

} // namespace

std::vector<Statistic> criteria(bool steel) {
  std::vector<Statistic> list;
  for (const Criterion& c : ranked_by) {
    const Quantity* of = find(c.key);
    if (steel || !of_steel(*of)) {
      list.push_back({of, c.kind, c.level, c.higher_is_better});
    }
  }
  return list;
}

namespace {
std::string percent_of(double level) { return number(std::round(1000.0 * level) / 10.0); }
} // namespace

std::string quantile_name(double level) {
  const std::string percent = percent_of(level);
  return (percent.size() < 2 ? "q0" : "q") + percent;
}

std::string quantile_label(double level) { return percent_of(level) + " %"; }

NamedStatistic named(const Statistic& s) {
  const Quantity& q = *s.of;
  const std::string key(q.key), label(q.label), meaning(q.meaning);
  switch (s.kind) {
  case Kind::mean:
    return {key + "_mean", label + ", mean", "weighted mean over wheels: " + meaning, q.unit, q.decimals};
  case Kind::quantile: {
    return {key + "_" + quantile_name(s.level), label + ", " + (s.level == 0.5 ? "median" : quantile_label(s.level)),
            "weighted quantile over wheels: " + meaning, q.unit, q.decimals};
  }
  case Kind::share_above_zero:
    return {key.substr(0, key.rfind('_')) + "_share_percent", share_label(q), "share of the wheels' weight", unit("%"),
            1};
  }
  return {};
}

} // namespace wingnose::quantity
