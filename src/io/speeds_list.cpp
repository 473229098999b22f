// Which quantities a speed study names, limits and compares, and in which units.
#include "wingnose/words/text.hpp"

#include "wingnose/io/speeds_output.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>

namespace wingnose::io {
namespace {

struct Named {
  study::Quantity quantity;
  const char* key;
  double per_si;
};
constexpr std::array named{
    Named{study::Quantity::p2, "p2_kN", 1e-3},
    Named{study::Quantity::first_peak, "first_peak_kN", 1e-3},
    Named{study::Quantity::peak_total, "peak_total_kN", 1e-3},
    Named{study::Quantity::peak_nose, "peak_nose_kN", 1e-3},
    Named{study::Quantity::peak_wing, "peak_wing_kN", 1e-3},
    Named{study::Quantity::dynamic_factor, "dynamic_factor", 1.0},
    Named{study::Quantity::p2_dynamic_factor, "p2_dynamic_factor", 1.0},
    Named{study::Quantity::dip_angle, "dip_angle_mrad", 1e3},
    Named{study::Quantity::lost_contact, "lost_contact_ms", 1e3},
    Named{study::Quantity::minimum_force, "minimum_force_kN", 1e-3},
    Named{study::Quantity::rail_acceleration, "rail_acceleration_m_s2", 1.0},
    Named{study::Quantity::bearer_acceleration, "bearer_acceleration_m_s2", 1.0},
    Named{study::Quantity::peak_pressure, "peak_pressure_MPa", 1e-6},
    Named{study::Quantity::shakedown, "shakedown_exceedance", 1.0},
    Named{study::Quantity::t_gamma, "t_gamma_N", 1.0},
};

template <class List> const Measure* find(const List& list, std::string_view key) {
  const auto found = std::find_if(list.begin(), list.end(), [&](const Measure& m) { return m.key == key; });
  return found == list.end() ? nullptr : &*found;
}

// What a change of speed changes: forces, factors, times in the air. Places along the track and delays move too, but
// not as a share of where they were; the rest is input.
bool is_place(const std::string& key) { return key == "landing_station_mm" || key == "dynamic_transfer_station_mm"; }
bool is_compared(const std::string& key) {
  static constexpr std::array left_out{"speed_km_h",  "static_load_kN", "landing_time_ms",      "first_peak_delay_ms",
                                       "p2_delay_ms", "p2_cutoff_hz",   "peak_total_station_mm"};
  return std::find(left_out.begin(), left_out.end(), key) == left_out.end();
}

MeasureChange change(const Measure& measure, std::optional<double> today, std::optional<double> proposed, bool ratio) {
  MeasureChange c{measure, today, proposed, std::nullopt, std::nullopt};
  if (today && proposed) {
    c.difference = *proposed - *today;
    if (ratio && *today != 0.0) {
      c.percent = 100.0 * *c.difference / std::abs(*today);
    }
  }
  return c;
}

} // namespace

std::vector<LimitQuantity> limit_quantities() {
  const auto passage = passage_measures();
  const auto geometry = geometry_measures();
  const auto steel = steel_measures();
  std::vector<LimitQuantity> list;
  for (const Named& n : named) {
    const Measure* measure = find(passage, n.key);
    measure = measure != nullptr ? measure : find(geometry, n.key);
    measure = measure != nullptr ? measure : find(steel, n.key);
    if (measure != nullptr) {
      list.push_back({*measure, n.quantity, n.per_si});
    }
  }
  return list;
}

LimitQuantity limit_quantity(study::Quantity quantity) {
  const auto list = limit_quantities();
  return *std::find_if(list.begin(), list.end(), [quantity](const auto& q) { return q.quantity == quantity; });
}

study::Limit parse_limit(std::string_view text, std::string source) {
  const auto equals = text.find('=');
  if (equals == std::string_view::npos) {
    throw InputError("limit", "\"" + std::string(text) + "\"", "quantity=value", "For example p2_kN=200.");
  }
  const std::string key(trim(text.substr(0, equals))), value(trim(text.substr(equals + 1)));
  const auto list = limit_quantities();
  const auto found = std::find_if(list.begin(), list.end(), [&](const auto& q) { return q.key == key; });
  if (found == list.end()) {
    std::vector<std::string> keys;
    keys.reserve(list.size());
    for (const auto& q : list) {
      keys.push_back(q.key);
    }
    throw InputError("limit: \"" + key + "\" is no quantity that can be limited. " + suggestion(key, keys));
  }
  char* end = nullptr;
  const double number = std::strtod(value.c_str(), &end);
  const bool zero_allowed = found->quantity == study::Quantity::lost_contact;
  if (value.empty() || *end != '\0' || !std::isfinite(number) || number < 0.0 || (number == 0.0 && !zero_allowed)) {
    throw InputError("limit " + key, "\"" + value + "\"",
                     std::string("a number ") + (zero_allowed ? "of 0 or more" : "above 0") +
                         (found->unit == "-" ? "" : " in " + found->unit),
                     "For example p2_kN=200.");
  }
  return {found->quantity, number / found->per_si, std::move(source)};
}

std::vector<std::optional<double>> measures_at(const study::SpeedPoint& point) {
  study::Case c;
  c.passage.speed = point.speed;
  study::Result r;
  r.measures = point.measures;
  std::vector<std::optional<double>> values;
  for (const auto& measure : passage_measures()) {
    values.push_back(measure.value(c, r));
  }
  return values;
}

std::vector<std::optional<double>> steel_at(const study::SpeedPoint& point) {
  std::vector<std::optional<double>> values;
  for (const auto& measure : steel_measures()) {
    values.push_back(point.steel ? std::optional((*point.steel).*measure.value * measure.per_si) : std::nullopt);
  }
  return values;
}

std::vector<MeasureChange> speed_changes(const study::SpeedStudy& study) {
  if (!study.today || !study.proposed) {
    return {};
  }
  const auto &today = study.points[*study.today], &proposed = study.points[*study.proposed];
  const auto list = passage_measures();
  const auto before = measures_at(today), after = measures_at(proposed);
  std::vector<MeasureChange> changes;
  for (std::size_t i = 0; i < list.size(); ++i) {
    if (is_compared(list[i].key) && (before[i] || after[i])) {
      changes.push_back(change(list[i], before[i], after[i], !is_place(list[i].key)));
    }
  }
  const auto of_steel = steel_measures();
  const auto steel_before = steel_at(today), steel_after = steel_at(proposed);
  for (std::size_t i = 0; i < of_steel.size(); ++i) {
    if (steel_before[i] || steel_after[i]) {
      // An index that is a difference and changes its sign is no share of itself.
      const bool ratio = of_steel[i].value != &study::SteelMeasures::fatigue_index;
      changes.push_back(change(of_steel[i], steel_before[i], steel_after[i], ratio));
    }
  }
  for (std::size_t e = 0; e < today.estimates.size() && e < proposed.estimates.size(); ++e) {
    const std::string set = today.estimates[e].track_name;
    changes.push_back(change({"closed_form/" + set + "/p2_kN", "kN", "P2, closed form " + set,
                              "P2 after Jenkins et al. 1974 on the track " + set, 2},
                             today.estimates[e].forces.P2 * 1e-3, proposed.estimates[e].forces.P2 * 1e-3, true));
  }
  return changes;
}

std::string_view outcome_name(study::LimitAnswer::Outcome outcome) {
  switch (outcome) {
  case study::LimitAnswer::Outcome::found:
    return "found";
  case study::LimitAnswer::Outcome::not_reached:
    return "not_reached";
  case study::LimitAnswer::Outcome::broken_at_lowest:
    return "broken_at_lowest";
  }
  return "unknown";
}

} // namespace wingnose::io
