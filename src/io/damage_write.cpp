#include "hdf5_handle.hpp"
#include "whole_file.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/io/damage_output.hpp"
#include "wingnose/io/result_file.hpp"
#include "wingnose/version.hpp"

#include <array>

namespace wingnose::io {
namespace {

using Values = std::vector<double>;
using assess::DamageMap;
using assess::RollingStep;

// [x][y], chunked and packed.
void write_field(hid_t file, const std::string& path, const assess::Grid& grid, Values values, double per_si,
                 const std::string& unit, const std::string& description) {
  for (double& v : values) {
    v *= per_si;
  }
  const std::array<hsize_t, 2> shape{grid.count_x, grid.count_y};
  const h5::Handle space(H5Screate_simple(2, shape.data(), nullptr), H5Sclose, "space of " + path);
  const h5::Handle links(H5Pcreate(H5P_LINK_CREATE), H5Pclose, "link properties");
  const h5::Handle layout(H5Pcreate(H5P_DATASET_CREATE), H5Pclose, "dataset properties");
  const auto demand = [&path](herr_t answer) {
    if (answer < 0) {
      throw ComputeError("HDF5 refused: " + path);
    }
  };
  demand(H5Pset_create_intermediate_group(links.id(), 1));
  demand(H5Pset_chunk(layout.id(), 2, shape.data()));
  demand(H5Pset_shuffle(layout.id()));
  if (H5Zfilter_avail(H5Z_FILTER_DEFLATE) > 0) {
    demand(H5Pset_deflate(layout.id(), 1));
  }
  const h5::Handle dataset(
      H5Dcreate2(file, path.c_str(), H5T_IEEE_F64LE, space.id(), links.id(), layout.id(), H5P_DEFAULT), H5Dclose,
      "dataset " + path);
  demand(H5Dwrite(dataset.id(), H5T_NATIVE_DOUBLE, H5S_ALL, H5S_ALL, H5P_DEFAULT, values.data()));
  h5::write_attribute(dataset.id(), "unit", unit);
  h5::write_attribute(dataset.id(), "description", description + "; [x][y]");
}

void write_map(hid_t file, const std::string& part, const DamageMap& map) {
  const assess::Grid& g = map.grid;
  if (g.size() == 0) {
    return;
  }
  Values x, y;
  for (std::size_t i = 0; i < g.count_x; ++i) {
    x.push_back(g.x(i) * 1e3);
  }
  for (std::size_t j = 0; j < g.count_y; ++j) {
    y.push_back(g.y(j) * 1e3);
  }
  const std::string group = part + "/" + map.body + "/";
  h5::write_numbers(file, group + "x_mm", x, false, "mm", "stations of the nodes");
  h5::write_numbers(file, group + "y_mm", y, false, "mm", "nodes from the track centre line");
  write_field(file, group + "peak_pressure_MPa", g, map.peak_pressure, 1e-6, "MPa", "largest elastic pressure seen");
  write_field(file, group + "wheels", g, map.wheels, 1.0, "-", "wheels that loaded the node");
  write_field(file, group + "wheels_beyond_shakedown", g, map.beyond_shakedown, 1.0, "-",
              "wheels whose contact there lay beyond elastic shakedown");
  write_field(file, group + "wheels_beyond_surface_flow", g, map.beyond_surface_flow, 1.0, "-",
              "wheels whose surface fatigue index there was above 0");
  write_field(file, group + "friction_energy_J_mm2", g, map.friction_energy, 1e-6, "J/mm2", "dissipated by sliding");
  write_field(file, group + "wear_depth_um", g, map.wear_depth, 1e6, "um", "Archard, the shape taken as unchanged");
}

void write_contacts(hid_t file, const DamageReport& r) {
  std::vector<std::string> bodies;
  for (const auto& s : r.trail.steps) {
    bodies.push_back(r.trail.bodies[s.body]);
  }
  h5::write_texts(file, "contacts/body", bodies, "body each contact lies on");
  const auto column = [&](const std::string& key, const std::string& unit, const std::string& description, auto get) {
    Values values;
    for (const auto& s : r.trail.steps) {
      values.push_back(get(s));
    }
    h5::write_numbers(file, "contacts/" + key, values, false, unit, description + "; one value per contact and step");
  };
  using S = const RollingStep&;
  column("time_ms", "ms", "time", [](S s) { return s.time * 1e3; });
  column("x_mm", "mm", "station of the patch", [](S s) { return s.x * 1e3; });
  column("y_mm", "mm", "patch from the track centre line", [](S s) { return s.y * 1e3; });
  column("contact_angle_mrad", "mrad", "contact angle", [](S s) { return s.angle * 1e3; });
  column("rolling_radius_mm", "mm", "rolling radius", [](S s) { return s.rolling_radius * 1e3; });
  column("normal_force_kN", "kN", "normal force", [](S s) { return s.normal_force * 1e-3; });
  column("half_length_mm", "mm", "half length of the patch along the track", [](S s) { return s.patch.a_x * 1e3; });
  column("half_width_mm", "mm", "half width of the patch across", [](S s) { return s.patch.a_y * 1e3; });
  column("peak_pressure_MPa", "MPa", "elastic peak pressure", [](S s) { return s.patch.peak_pressure * 1e-6; });
  column("longitudinal_creepage_permil", "permil", "longitudinal creepage, positive: the wheel slides forward",
         [](S s) { return s.creepage.longitudinal * 1e3; });
  column("spin_1_m", "1/m", "spin", [](S s) { return s.creepage.spin; });
  column("longitudinal_force_kN", "kN", "creep force on the wheel along travel",
         [](S s) { return s.force.longitudinal * 1e-3; });
  column("lateral_force_kN", "kN", "creep force on the wheel across", [](S s) { return s.force.lateral * 1e-3; });
  column("friction_power_kW", "kW", "friction power", [](S s) { return s.friction_power * 1e-3; });
}

void write_numbers(hid_t file, const std::string& group, const std::vector<DamageNumber>& numbers) {
  for (const auto& n : numbers) {
    h5::write_numbers(file, group + "/" + n.key, {n.value}, true, n.unit, n.label + ": " + n.description);
  }
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
    h5::write_numbers(target, "steel/shear_yield_MPa", {assess::shear_yield(r.steel) * 1e-6}, true, "MPa",
                      "yield in shear of the new steel");
    h5::write_numbers(target, "steel/hardness_MPa", {r.steel.hardness * 1e-6}, true, "MPa", "of the new steel");
    h5::write_numbers(target, "steel/friction", {r.options.friction}, true, "-", "coefficient of friction");
    write_numbers(target, "measures", damage_numbers(r));
    write_contacts(target, r);
    for (const auto& map : r.damage.maps) {
      write_map(target, "passage", map);
    }
    if (r.traffic) {
      write_numbers(target, "traffic/measures", traffic_numbers(r));
      for (const auto& map : r.traffic->maps) {
        write_map(target, "traffic", map);
      }
      h5::write_texts(target, "notes/traffic", r.traffic->notes, "what a reader must know about the sums");
    }
    h5::write_texts(target, "case/text", {c.source_text}, "the case file as read");
    h5::write_texts(target, "case/keys", case_keys(c), "every key the case rests on, given or default");
    h5::write_texts(target, "notes/damage", r.damage.notes, "what a reader must know beside the numbers");
  });
}

} // namespace wingnose::io
