#include "wingnose/words/text.hpp"

#include "wingnose/io/speeds_output.hpp"
#include "wingnose/version.hpp"

#include <nlohmann/json.hpp>

#include <cmath>
#include <cstdlib>

namespace wingnose::io {
namespace {

using Json = nlohmann::ordered_json;

Json value(std::optional<double> number) {
  return number && std::isfinite(*number) ? Json(std::strtod(plain(*number).c_str(), nullptr)) : Json(nullptr);
}
Json km_h(std::optional<double> speed) { return speed ? value(*speed * 3.6) : Json(nullptr); }
Json text(const std::string& words) { return words.empty() ? Json(nullptr) : Json(words); }

Json point_json(const study::SpeedPoint& point, bool steel) {
  Json one;
  const auto list = passage_measures();
  const auto values = measures_at(point);
  for (std::size_t i = 0; i < list.size(); ++i) {
    one[list[i].key] = value(values[i]);
  }
  if (steel) {
    const auto of_steel = steel_measures();
    const auto known = steel_at(point);
    for (std::size_t i = 0; i < of_steel.size(); ++i) {
      one[of_steel[i].key] = value(known[i]);
    }
  }
  one["estimates"] = Json::array();
  for (const auto& e : point.estimates) {
    one["estimates"].push_back(
        {{"track", e.track_name}, {"p1_kN", value(e.forces.P1 * 1e-3)}, {"p2_kN", value(e.forces.P2 * 1e-3)}});
  }
  return one;
}

Json limit_json(const study::Limit& limit, const study::LimitAnswer& answer) {
  const LimitQuantity quantity = limit_quantity(limit.quantity);
  Json one;
  one["quantity"] = quantity.key;
  one["kind"] = study::is_lower_limit(limit.quantity) ? "at least" : "at most";
  one[quantity.key] = value(limit.value * quantity.per_si);
  one["source"] = text(limit.source);
  one["outcome"] = outcome_name(answer.outcome);
  one["permissible_speed_km_h"] = km_h(answer.speed);
  one["lowest_scanned_speed_that_breaks_it_km_h"] = km_h(answer.first_broken);
  one["lowest_scanned_speed_that_breaks_it_was_computed"] =
      answer.first_broken ? Json(!answer.first_broken_not_computed) : Json(nullptr);
  one["monotone"] = answer.kept_again.empty();
  one["kept_again_km_h"] = Json::array();
  for (const auto& interval : answer.kept_again) {
    one["kept_again_km_h"].push_back({value(interval.from * 3.6), value(interval.to * 3.6)});
  }
  one["closed_form"] = Json::array();
  for (const auto& e : answer.estimates) {
    one["closed_form"].push_back({{"track", e.track_name}, {"permissible_speed_km_h", km_h(e.speed)}});
  }
  return one;
}

Json change_json(const study::SpeedStudy& study) {
  if (!study.today || !study.proposed) {
    return nullptr;
  }
  Json json;
  json["today_km_h"] = km_h(study.points[*study.today].speed);
  json["proposed_km_h"] = km_h(study.points[*study.proposed].speed);
  for (const auto& change : speed_changes(study)) {
    json["measures"].push_back({{"quantity", change.key},
                                {"unit", change.unit},
                                {"today", value(change.today)},
                                {"proposed", value(change.proposed)},
                                {"difference", value(change.difference)},
                                {"difference_percent", value(change.percent)}});
  }
  return json;
}

} // namespace

std::string speeds_json(const study::Case& c, const study::SpeedStudy& study) {
  Json json;
  json["name"] = c.name;
  json["excitation"] = study.geometry.path ? study.geometry.path->excitation : "";
  for (const auto& measure : geometry_measures()) {
    json[measure.key] = value(measure.value(study.geometry));
  }
  json["from_km_h"] = km_h(study.range.from);
  json["to_km_h"] = km_h(study.range.to);
  json["step_km_h"] = km_h(study.range.step);
  json["p2_filter_order"] = c.measures.p2_order;
  if (study.steel) {
    json["steel"] = study.steel_name;
    json["friction"] = value(study.friction);
  }
  json["speeds"] = Json::array();
  for (const auto& point : study.points) {
    json["speeds"].push_back(point_json(point, study.steel));
  }
  json["failures"] = Json::array();
  for (const auto& failure : study.failures) {
    json["failures"].push_back({{"speed_km_h", value(failure.speed * 3.6)}, {"reason", failure.reason}});
  }
  json["limits"] = Json::array();
  for (std::size_t i = 0; i < study.limits.size(); ++i) {
    json["limits"].push_back(limit_json(study.limits[i], study.answers[i]));
  }
  if (study.limits.empty()) {
    json["permissible"] = nullptr;
  } else {
    const auto& v = study.permissible;
    json["permissible"] = {
        {"outcome", outcome_name(v.outcome)},
        {"speed_km_h", km_h(v.speed)},
        {"governed_by", v.governs ? Json(limit_quantity(study.limits[*v.governs].quantity).key) : Json(nullptr)},
        {"governing_limit", v.governs ? Json(*v.governs + 1) : Json(nullptr)}};
  }
  json["change"] = change_json(study);
  json["assumptions"] = Json::array();
  if (!study.points.empty()) {
    for (const auto& e : study.points.front().estimates) {
      json["assumptions"].push_back(e.track_name + ": " + e.assumptions);
    }
  }
  json["warnings"] = study.warnings;
  json["warnings_of_wheel_path"] = contact::sentences(study.geometry.kinematics.findings);
  json["notes"] = study.notes;
  if (study.steel) {
    json["steel_assumptions"] = study.steel_assumptions;
  }
  json["version"] = version;
  json["commit"] = commit;
  json["caution"] = caution;
  // Names come from users: text that is not UTF-8 is shown with a replacement mark, not refused.
  return json.dump(2, ' ', false, Json::error_handler_t::replace);
}

} // namespace wingnose::io
