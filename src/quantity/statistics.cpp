#include "wingnose/quantity/statistics.hpp"

#include "wingnose/words/number.hpp"

#include <cmath>

namespace wingnose::quantity {
namespace {

using Kind = Statistic::Kind;

std::string percent_of(double level) { return number(std::round(1000.0 * level) / 10.0); }

// What it means that a quantity lies above 0, where that has words of its own.
std::string share_label(const Quantity& q) {
  return q.key == "lost_contact_ms"         ? "share that loses contact"
         : q.key == "surface_fatigue_index" ? "share that makes the surface flow"
                                            : std::string(q.label) + ", share above 0";
}

} // namespace

std::vector<Statistic> criteria(bool steel) {
  const bool higher_is_better = true;
  std::vector<Statistic> list{{find("p2_kN"), Kind::quantile, 0.50},
                              {find("p2_kN"), Kind::quantile, 0.95},
                              {find("peak_nose_kN"), Kind::quantile, 0.95},
                              {find("dip_angle_mrad"), Kind::mean},
                              {find("lost_contact_ms"), Kind::share_above_zero},
                              {find("nose_thickness_at_transfer_mm"), Kind::quantile, 0.05, higher_is_better},
                              {find("shakedown_exceedance"), Kind::quantile, 0.95},
                              {find("surface_fatigue_index"), Kind::share_above_zero},
                              {find("wear_volume_mm3"), Kind::mean}};
  std::erase_if(list, [steel](const Statistic& s) { return !steel && of_steel(*s.of); });
  return list;
}

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
