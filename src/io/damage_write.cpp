#include "damage_layout.hpp"

#include "hdf5_handle.hpp"
#include "whole_file.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/io/damage_output.hpp"
#include "wingnose/io/result_file.hpp"
#include "wingnose/layout/surface.hpp"
#include "wingnose/version.hpp"

#include <algorithm>
#include <optional>

namespace wingnose::io {
namespace {

using Values = std::vector<double>;

std::optional<layout::Crossing> crossing_of(const study::Case& c) {
  if (const auto* shape = std::get_if<layout::CrossingShape>(&c.excitation)) {
    return layout::generate(*shape);
  }
  if (const auto* shape = std::get_if<layout::SectionedShape>(&c.excitation)) {
    return layout::from_sections(*shape);
  }
  return std::nullopt;
}

// Running edges where the maps lie, so that they can be drawn in one frame with them.
void write_edges(hid_t file, const study::Case& c, const std::vector<assess::DamageMap>& maps) {
  const auto shape = crossing_of(c);
  bool any = false;
  double from = 0.0, to = 0.0;
  for (const auto& map : maps) {
    if (map.grid.size() > 0) {
      const double first = map.grid.x(0), last = map.grid.x(map.grid.count_x - 1);
      from = any ? std::min(from, first) : first;
      to = any ? std::max(to, last) : last;
      any = true;
    }
  }
  if (!shape || !any) {
    return;
  }
  constexpr double pitch = 0.01; // m
  for (const auto& body : shape->bodies) {
    Values x, y;
    std::visit(
        [&](const auto& surface) {
          const double first = std::max(from, surface.x_begin()), last = std::min(to, surface.x_end());
          for (int i = 0; first + i * pitch <= last; ++i) {
            x.push_back((first + i * pitch) * 1e3);
            y.push_back(surface.edge(first + i * pitch) * 1e3);
          }
        },
        body.surface);
    if (!x.empty()) {
      h5::write_numbers(file, "edges/" + body.name + "/x_mm", x, false, "mm", "stations of the running edge");
      h5::write_numbers(file, "edges/" + body.name + "/y_mm", y, false, "mm",
                        "running edge from the track centre line, in plan");
    }
  }
}

void write_steel(hid_t file, const DamageReport& r) {
  const auto number = [file](const std::string& key, double value, const std::string& unit, const std::string& text) {
    h5::write_numbers(file, "steel/" + key, {value}, true, unit, text);
  };
  number("shear_yield_MPa", assess::shear_yield(r.steel) * 1e-6, "MPa", "yield in shear of the new steel");
  number("hardness_MPa", r.steel.hardness * 1e-6, "MPa", "of the new steel");
  number("friction", r.options.friction, "-", "coefficient of friction");
  if (r.steel.hardening) {
    number("hardened_shear_yield_MPa", r.steel.hardening->shear_yield * 1e-6, "MPa", "after many wheels");
    number("hardened_hardness_MPa", r.steel.hardening->hardness * 1e-6, "MPa", "after many wheels");
    number("hardening_wheels", r.steel.hardening->wheels, "-", "wheels that bring 63 % of the gain");
  }
  const assess::ShakedownMap limits(r.options.shakedown_shape);
  constexpr int steps = 60;
  constexpr double traction_step = 0.01;
  Values traction, yield, shakedown;
  for (int i = 0; i <= steps; ++i) {
    traction.push_back(i * traction_step);
    yield.push_back(limits.first_yield(traction.back()));
    shakedown.push_back(limits.elastic_shakedown(traction.back()));
  }
  h5::write_numbers(file, "limits/traction_coefficient", traction, false, "-", "creep force over normal force");
  h5::write_numbers(file, "limits/first_yield", yield, false, "-",
                    "load factor p0/k below which nothing ever yields; one value per traction coefficient");
  h5::write_numbers(file, "limits/elastic_shakedown", shakedown, false, "-",
                    "load factor below which residual stresses end yielding; one value per traction coefficient");
}

std::vector<std::string> input_lines(const study::Case& c, const DamageReport& r) {
  std::vector<std::string> lines;
  for (const auto* inputs : {&c.inputs, &r.mix_inputs}) {
    for (const auto& input : *inputs) {
      lines.push_back(input.role + "\t" + input.path + "\t" + input.sha256);
    }
  }
  return lines;
}

} // namespace

void write_damage(const std::filesystem::path& file, const study::Case& c, const DamageReport& r) {
  write_whole(file, [&](hid_t target) {
    h5::write_attribute(target, "format", std::string("wingnose damage"));
    h5::write_attribute(target, "schema_version", damage_schema_version);
    h5::write_attribute(target, "version", std::string(version));
    h5::write_attribute(target, "commit", std::string(commit));
    h5::write_attribute(target, "name", c.name);
    h5::write_attribute(target, "caution", std::string(caution));
    h5::write_attribute(target, "steel", r.steel.name);
    h5::write_attribute(target, "steel_trust", r.steel.trust);
    write_steel(target, r);
    damage::write_numbers(target, "measures", damage_numbers(r));
    damage::write_contacts(target, r);
    for (const auto& map : r.damage.maps) {
      damage::write_map(target, "passage", map);
    }
    write_edges(target, c, r.traffic ? r.traffic->maps : r.damage.maps);
    if (r.traffic) {
      damage::write_traffic(target, r);
    }
    h5::write_texts(target, "case/text", {c.source_text}, "the case file as read");
    h5::write_texts(target, "case/inputs", input_lines(c, r), "input files: role, name, SHA-256, separated by tabs");
    h5::write_texts(target, "case/keys", case_keys(c), "every key the case rests on, given or default");
    h5::write_texts(target, "notes/damage", r.damage.notes, "what a reader must know beside the numbers");
  });
}

} // namespace wingnose::io
