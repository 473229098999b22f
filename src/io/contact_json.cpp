#include "wingnose/words/text.hpp"

#include "wingnose/io/contact_output.hpp"
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

} // namespace

std::string contact_json(const study::Case& c, const contact::StationContact& contact) {
  Json json;
  json["name"] = c.name;
  if (!contact.instant.empty()) {
    json["instant"] = {{"at", contact.instant}, {"time_ms", value(contact.time * 1e3)}};
  }
  json["station_mm"] = value(contact.station * 1e3);
  json["force_kN"] = value(contact.vertical * 1e-3);
  json["roll_mrad"] = value(contact.roll * 1e3);
  json["yaw_mrad"] = value(contact.yaw * 1e3);
  json["law"] = contact.law;
  json["wheel_height_mm"] = value(contact.height * 1e3);
  json["patches"] = Json::array();
  for (const auto& p : contact.patches) {
    json["patches"].push_back({{"body", p.body},
                               {"y_mm", value(p.y * 1e3)},
                               {"wheel_y_mm", value(p.wheel_y * 1e3)},
                               {"ahead_of_axle_mm", value(p.dx * 1e3)},
                               {"contact_angle_mrad", value(p.angle * 1e3)},
                               {"normal_force_kN", value(p.force * 1e-3)},
                               {"approach_um", value(p.approach * 1e6)},
                               {"half_length_mm", value(p.half_length * 1e3)},
                               {"half_width_mm", value(p.half_width * 1e3)},
                               {"area_mm2", value(p.area * 1e6)},
                               {"peak_pressure_MPa", value(p.peak_pressure * 1e-6)}});
  }
  json["bodies"] = Json::array();
  for (const auto& body : contact.bodies) {
    json["bodies"].push_back({{"body", body.body},
                              {"vertical_force_kN", value(body.vertical * 1e-3)},
                              {"wheel_height_mm", value(body.height * 1e3)}});
    if (body.field) {
      json["bodies"].back()["half_space"] = {{"approach_um", value(body.field->approach * 1e6)},
                                             {"peak_pressure_MPa", value(body.field->peak_pressure * 1e-6)},
                                             {"area_mm2", value(body.field->area * 1e6)},
                                             {"change_of_angle_rad", value(body.field->turn.turn)}};
    }
  }
  json["warnings"] = contact::sentences(contact.findings);
  json["version"] = version;
  json["commit"] = commit;
  json["caution"] = caution;
  return json.dump(2, ' ', false, Json::error_handler_t::replace);
}

} // namespace wingnose::io
