#include "wingnose/words/text.hpp"

#include "wingnose/io/result_file.hpp"
#include "wingnose/version.hpp"

#include <nlohmann/json.hpp>

#include <cmath>
#include <cstdlib>

namespace wingnose::io {

namespace {

using Json = nlohmann::ordered_json;

// Ten digits are more than any of these numbers deserves, and spare the reader 14.000000000000002.
Json number_or_null(std::optional<double> value) {
  return value && std::isfinite(*value) ? Json(std::strtod(plain(*value).c_str(), nullptr)) : Json(nullptr);
}

Json head(const study::Case& c, const study::Geometry& geometry) {
  Json json;
  json["name"] = c.name;
  json["excitation"] = geometry.path ? geometry.path->excitation : "";
  for (const auto& measure : geometry_measures()) {
    json[measure.key] = number_or_null(measure.value(geometry));
  }
  return json;
}

void add_tail(Json& json) {
  json["version"] = version;
  json["commit"] = commit;
  json["caution"] = caution;
}

Json estimate_list(const std::vector<study::Estimate>& estimates) {
  Json list = Json::array();
  for (const auto& estimate : estimates) {
    Json one;
    one["track"] = estimate.track_name;
    one["static_load_kN"] = number_or_null(estimate.input.static_load * 1e-3);
    one["unsprung_mass_kg"] = number_or_null(estimate.input.unsprung_mass);
    one["speed_km_h"] = number_or_null(estimate.input.speed * 3.6);
    one["dip_angle_mrad"] = number_or_null(estimate.input.dip_angle * 1e3);
    one["track_mass_kg"] = number_or_null(estimate.input.track.m_T2);
    one["track_stiffness_MN_m"] = number_or_null(estimate.input.track.k_T2 * 1e-6);
    one["track_damping_kNs_m"] = number_or_null(estimate.input.track.c_T2 * 1e-3);
    one["contact_stiffness_GN_m"] = number_or_null(estimate.input.k_H * 1e-9);
    one["effective_rail_mass_kg"] = number_or_null(estimate.input.m_e);
    one["p1_kN"] = number_or_null(estimate.forces.P1 * 1e-3);
    one["p2_kN"] = number_or_null(estimate.forces.P2 * 1e-3);
    one["p2_frequency_hz"] = number_or_null(estimate.forces.f2);
    one["p2_damping_ratio"] = number_or_null(estimate.forces.zeta);
    one["assumptions"] = estimate.assumptions;
    list.push_back(one);
  }
  return list;
}

// Case names and file names come from users: text that is not UTF-8 is shown with a replacement mark, not refused.
std::string dump(const Json& json) { return json.dump(2, ' ', false, Json::error_handler_t::replace); }

} // namespace

std::string geometry_json(const study::Case& c, const study::Geometry& geometry) {
  Json json = head(c, geometry);
  json["warnings"] = contact::sentences(geometry.kinematics.findings);
  add_tail(json);
  return dump(json);
}

std::string estimates_json(const study::Case& c, const study::Geometry& geometry,
                           const std::vector<study::Estimate>& estimates) {
  Json json = head(c, geometry);
  json["estimates"] = estimate_list(estimates);
  add_tail(json);
  return dump(json);
}

std::string measures_json(const study::Case& c, const study::Result& result) {
  Json json = head(c, result.geometry);
  json["landing_body"] = result.measures.landing_body;
  for (const auto& measure : passage_measures()) {
    json[measure.key] = number_or_null(measure.value(c, result));
  }
  json["p2_filter_order"] = c.measures.p2_order;
  json["method"] = result.history.method;
  json["estimates"] = estimate_list(result.estimates);
  json["warnings"] = contact::sentences(result.geometry.kinematics.findings);
  json["notes"] = result.measures.notes;
  add_tail(json);
  return dump(json);
}

} // namespace wingnose::io
