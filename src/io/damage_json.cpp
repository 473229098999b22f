#include "wingnose/words/text.hpp"

#include "wingnose/io/damage_output.hpp"
#include "wingnose/io/result_file.hpp"
#include "wingnose/version.hpp"

#include <nlohmann/json.hpp>

#include <cmath>
#include <cstdlib>

namespace wingnose::io {
namespace {

using Json = nlohmann::ordered_json;

Json value(double number) {
  return std::isfinite(number) ? Json(std::strtod(plain(number).c_str(), nullptr)) : Json(nullptr);
}

Json object(const std::vector<DamageNumber>& numbers) {
  Json json;
  for (const auto& n : numbers) {
    json[n.key] = value(n.value);
  }
  return json;
}

} // namespace

std::string damage_json(const study::Case& c, const DamageReport& r) {
  Json json;
  json["name"] = c.name;
  json["steel"] = {{"name", r.steel.name},
                   {"shear_yield_MPa", value(assess::shear_yield(r.steel) * 1e-6)},
                   {"hardness_HB", value(r.steel.hardness / assess::from_brinell(1.0))},
                   {"trust", r.steel.trust}};
  json["friction"] = value(r.options.friction);
  json["passage"] = object(damage_numbers(r));
  for (const auto& n : damage_numbers(r)) {
    if (n.peak && !n.peak->body.empty()) {
      json["places"][n.key] = {{"body", n.peak->body},
                               {"station_mm", value(n.peak->x * 1e3)},
                               {"y_mm", value(n.peak->y * 1e3)},
                               {"time_ms", value(n.peak->time * 1e3)}};
    }
  }
  if (r.traffic) {
    json["traffic"] = object(traffic_numbers(r));
    for (const auto& s : r.traffic->stages) {
      json["traffic"]["stages"].push_back({{"wheels", value(s.wheels)},
                                           {"shear_yield_MPa", value(s.shear_yield * 1e-6)},
                                           {"shakedown_exceedance", value(s.shakedown)},
                                           {"surface_fatigue_index", value(s.fatigue_index)},
                                           {"wear_depth_mm", value(s.wear_depth * 1e3)}});
    }
  }
  if (r.mix) {
    Json& wheels = json["traffic"]["population"];
    wheels["wheels"] = r.mix->members.size();
    wheels["failed"] = r.mix->failed;
    wheels["failed_share"] = value(r.mix->failed_share);
  }
  json["notes"] = r.damage.notes;
  if (r.traffic) {
    for (const auto& note : r.traffic->notes) {
      json["notes"].push_back(note);
    }
  }
  json["inputs"] = Json::array();
  for (const auto* inputs : {&c.inputs, &r.mix_inputs}) {
    for (const auto& input : *inputs) {
      json["inputs"].push_back({{"role", input.role}, {"path", input.path}, {"sha256", input.sha256}});
    }
  }
  json["version"] = version;
  json["commit"] = commit;
  json["caution"] = caution;
  return json.dump(2, ' ', false, Json::error_handler_t::replace);
}

} // namespace wingnose::io
