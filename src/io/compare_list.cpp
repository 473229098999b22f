// Which quantities and statistics a comparison names, and in which units.
#include "wingnose/io/compare_output.hpp"
#include "wingnose/io/steel_output.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace wingnose::io {
namespace {

struct Named {
  study::Observed of;
  const char* key;
  double per_si;
};
constexpr std::array named_list{
    Named{study::Observed::transfer_station, "transfer_station_mm", 1e3},
    Named{study::Observed::nose_thickness, "nose_thickness_at_transfer_mm", 1e3},
    Named{study::Observed::dip_angle, "dip_angle_mrad", 1e3},
    Named{study::Observed::p2, "p2_kN", 1e-3},
    Named{study::Observed::peak_nose, "peak_nose_kN", 1e-3},
    Named{study::Observed::peak_total, "peak_total_kN", 1e-3},
    Named{study::Observed::lost_contact, "lost_contact_ms", 1e3},
};

struct OfSteel {
  study::Observed of;
  double study::SteelMeasures::*value;
};
constexpr std::array steel_list{
    OfSteel{study::Observed::peak_pressure, &study::SteelMeasures::peak_pressure},
    OfSteel{study::Observed::shakedown, &study::SteelMeasures::shakedown},
    OfSteel{study::Observed::fatigue_index, &study::SteelMeasures::fatigue_index},
    OfSteel{study::Observed::t_gamma, &study::SteelMeasures::t_gamma},
    OfSteel{study::Observed::crack_damage, &study::SteelMeasures::crack_damage},
    OfSteel{study::Observed::friction_energy, &study::SteelMeasures::friction_energy},
    OfSteel{study::Observed::wear_volume, &study::SteelMeasures::wear_volume},
};

} // namespace

std::vector<ComparedQuantity> compared_quantities(bool steel) {
  std::vector<Measure> known;
  for (const auto& measure : geometry_measures()) {
    known.push_back(measure);
  }
  for (const auto& measure : passage_measures()) {
    known.push_back(measure);
  }
  std::vector<ComparedQuantity> list;
  for (const Named& n : named_list) {
    const auto measure = std::find_if(known.begin(), known.end(), [&](const Measure& m) { return m.key == n.key; });
    if (measure != known.end()) {
      list.push_back({*measure, n.of, n.per_si});
      list.back().decimals = std::min(measure->decimals, 2);
    }
  }
  for (const SteelMeasure& measure : steel ? steel_measures() : std::vector<SteelMeasure>{}) {
    const auto own = std::find_if(steel_list.begin(), steel_list.end(),
                                  [&](const OfSteel& one) { return one.value == measure.value; });
    if (own != steel_list.end()) {
      list.push_back({measure, own->of, measure.per_si});
    }
  }
  return list;
}

ComparedQuantity compared_quantity(study::Observed of) {
  const auto list = compared_quantities(study::of_steel(of));
  return *std::find_if(list.begin(), list.end(), [of](const auto& q) { return q.of == of; });
}

NamedStatistic named(const study::Statistic& statistic) {
  using Kind = study::Statistic::Kind;
  const ComparedQuantity q = compared_quantity(statistic.of);
  NamedStatistic n{{q.key, q.unit, q.label, q.description, q.decimals}, q.per_si};
  switch (statistic.kind) {
  case Kind::mean:
    n.key += "_mean";
    n.label += ", mean";
    n.description = "weighted mean over wheels: " + q.description;
    break;
  case Kind::quantile: {
    const std::string level = number(std::round(1000.0 * statistic.level) / 10.0);
    n.key += (level.size() < 2 ? "_q0" : "_q") + level;
    n.label += level == "50" ? ", median" : ", " + level + " %";
    n.description = "weighted quantile over wheels: " + q.description;
    break;
  }
  case Kind::share_above_zero: {
    const std::size_t unit = q.key.rfind('_');
    n.key = q.key.substr(0, unit) + "_share_percent";
    n.label = statistic.of == study::Observed::lost_contact    ? "share that loses contact"
              : statistic.of == study::Observed::fatigue_index ? "share that makes the surface flow"
                                                               : q.label + ", share above 0";
    n.description = "share of the wheels' weight";
    n.unit = "%";
    n.per_si = 100.0;
    n.decimals = 1;
    break;
  }
  }
  return n;
}

} // namespace wingnose::io
