#include "hdf5_handle.hpp"
#include "whole_file.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/io/contact_output.hpp"
#include "wingnose/io/result_file.hpp"
#include "wingnose/version.hpp"
#include "wingnose/words/error.hpp"

namespace wingnose::io {
namespace {

namespace fs = std::filesystem;
using Values = std::vector<double>;

template <class List, class Get> Values collect(const List& list, double per_si, Get get) {
  Values values;
  for (const auto& one : list) {
    values.push_back(get(one) * per_si);
  }
  return values;
}

void write_head(hid_t file, const study::Case& c, const contact::StationContact& s) {
  h5::write_attribute(file, "format", std::string("wingnose contact"));
  h5::write_attribute(file, "schema_version", contact_schema_version);
  h5::write_attribute(file, "version", std::string(version));
  h5::write_attribute(file, "commit", std::string(commit));
  h5::write_attribute(file, "name", c.name);
  h5::write_attribute(file, "law", s.law);
  h5::write_attribute(file, "caution", std::string(caution));
  h5::write_attribute(file, "instant", s.instant.empty() ? std::string("standing") : s.instant);
  if (!s.instant.empty()) {
    h5::write_numbers(file, "time_ms", {s.time * 1e3}, true, "ms", "time of the instant in the passage");
  }
  h5::write_numbers(file, "station_mm", {s.station * 1e3}, true, "mm", "station of the axle");
  h5::write_numbers(file, "roll_mrad", {s.roll * 1e3}, true, "mrad", "roll of the wheel, + lifts its field side");
  h5::write_numbers(file, "yaw_mrad", {s.yaw * 1e3}, true, "mrad", "yaw of the wheel, + turns it from x towards y");
  h5::write_numbers(file, "force_kN", {s.vertical * 1e-3}, true, "kN", "vertical load on the wheel");
  h5::write_numbers(
      file, "wheel_height_mm", {s.height * 1e3}, true, "mm",
      "height of the taping circle's bottom over z = 0, by the fast law that shares the load; in a passage of "
      "the body that carries most");
}

void write_patches(hid_t file, const contact::StationContact& s) {
  using Patch = contact::PatchSummary;
  std::vector<std::string> bodies;
  for (const Patch& p : s.patches) {
    bodies.push_back(p.body);
  }
  h5::write_texts(file, "patches/body", bodies, "body each patch lies on");
  const auto column = [&](const std::string& key, double per_si, double Patch::*member, const std::string& unit,
                          const std::string& description) {
    h5::write_numbers(file, "patches/" + key,
                      collect(s.patches, per_si, [member](const Patch& p) { return p.*member; }), false, unit,
                      description + "; one value per patch");
  };
  column("y_mm", 1e3, &Patch::y, "mm", "centre of the pressure from the track centre line");
  column("wheel_y_mm", 1e3, &Patch::wheel_y, "mm", "centre of the pressure from the wheel's taping line");
  column("ahead_of_axle_mm", 1e3, &Patch::dx, "mm", "centre of the pressure ahead of the axle");
  column("contact_angle_mrad", 1e3, &Patch::angle, "mrad", "slope of the common tangent across the track");
  column("normal_force_kN", 1e-3, &Patch::force, "kN", "normal force");
  column("approach_um", 1e6, &Patch::approach, "um", "normal approach at the deepest point");
  column("half_length_mm", 1e3, &Patch::half_length, "mm", "half length along the track");
  column("half_width_mm", 1e3, &Patch::half_width, "mm", "half width across, along the surface");
  column("area_mm2", 1e6, &Patch::area, "mm2", "area of contact");
  column("peak_pressure_MPa", 1e-6, &Patch::peak_pressure, "MPa", "largest pressure");
}

void write_strips(hid_t file, const contact::BodyContact& body) {
  using Strip = contact::Strip;
  const auto column = [&](const std::string& key, double per_si, double Strip::*member, const std::string& unit,
                          const std::string& description) {
    h5::write_numbers(file, body.body + "/strips/" + key,
                      collect(body.strips, per_si, [member](const Strip& s) { return s.*member; }), false, unit,
                      description + "; one value per strip");
  };
  column("y_mm", 1e3, &Strip::y, "mm", "middle of the strip from the track centre line");
  column("width_mm", 1e3, &Strip::width, "mm", "width across the track");
  column("ahead_of_axle_mm", 1e3, &Strip::dx, "mm", "middle of the strip ahead of the axle");
  column("half_length_mm", 1e3, &Strip::half_length, "mm", "half length along the track");
  column("pressure_MPa", 1e-6, &Strip::pressure, "MPa", "largest pressure of the strip");
  column("normal_force_N", 1.0, &Strip::force, "N", "normal force of the strip");
}

void write_field(hid_t file, const std::string& body, const contact::PressureField& f) {
  const std::string group = body + "/field/";
  const auto same = [](double v) { return v; };
  h5::write_numbers(file, group + "x_mm", collect(f.x, 1e3, same), false, "mm",
                    "centres of the cells ahead of the axle");
  h5::write_numbers(file, group + "y_mm", collect(f.y, 1e3, same), false, "mm",
                    "centres of the rows from the track centre line");
  h5::write_numbers(file, group + "contact_angle_mrad", collect(f.angle, 1e3, same), false, "mrad",
                    "contact angle of each row");
  h5::write_table(file, group + "pressure_MPa", f.y.size(), collect(f.pressure, 1e-6, same), "MPa",
                  "half-space solution; [y][x]");
  h5::write_numbers(file, group + "approach_um", {f.approach * 1e6}, true, "um", "normal approach");
  h5::write_numbers(file, group + "peak_pressure_MPa", {f.peak_pressure * 1e-6}, true, "MPa", "largest pressure");
  h5::write_numbers(file, group + "area_mm2", {f.area * 1e6}, true, "mm2", "area of contact");
  h5::write_numbers(file, group + "change_of_angle_rad", {f.turn.turn}, true, "rad",
                    "change of the contact angle inside the contact; above 0.15 the half-space is stretched");
}

} // namespace

void write_contact(const fs::path& file, const study::Case& c, const contact::StationContact& contact) {
  write_whole(file, [&](hid_t target) {
    write_head(target, c, contact);
    write_patches(target, contact);
    for (const auto& body : contact.bodies) {
      h5::write_numbers(target, body.body + "/vertical_force_kN", {body.vertical * 1e-3}, true, "kN",
                        "vertical force on the body");
      write_strips(target, body);
      if (body.field) {
        write_field(target, body.body, *body.field);
      }
    }
    h5::write_texts(target, "case/text", {c.source_text}, "the case file as read");
    h5::write_texts(target, "case/keys", case_keys(c), "every key the case rests on, given or default");
    h5::write_texts(target, "notes/warnings", contact::sentences(contact.findings), "what must not be overlooked");
  });
}

} // namespace wingnose::io
