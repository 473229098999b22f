// Tables, maps and contacts of a file of damage.
#include "damage_layout.hpp"
#include "hdf5_handle.hpp"

#include "wingnose/assess/damage_along.hpp"

namespace wingnose::io::damage {
namespace {

using Values = std::vector<double>;
using assess::DamageMap;
using assess::RollingStep;
using assess::SteelUnderContact;

void write_field(hid_t file, const std::string& path, const assess::Grid& grid, Values values, double per_si,
                 const std::string& unit, const std::string& description) {
  for (double& v : values) {
    v *= per_si;
  }
  h5::write_table(file, path, grid.count_x, values, unit, description + "; [x][y]");
}

} // namespace

void write_map(hid_t file, const std::string& part, const DamageMap& map) {
  const assess::Grid& g = map.grid;
  if (g.size() == 0) {
    return;
  }
  Values x, y;
  x.reserve(g.count_x);
  for (std::size_t i = 0; i < g.count_x; ++i) {
    x.push_back(g.x(i) * 1e3);
  }
  y.reserve(g.count_y);
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

void write_numbers(hid_t file, const std::string& group, const std::vector<DamageNumber>& numbers) {
  for (const auto& n : numbers) {
    h5::write_numbers(file, group + "/" + n.key, {n.value}, true, n.unit, n.label + ": " + n.description);
  }
}

void write_contacts(hid_t file, const DamageReport& r) {
  std::vector<std::string> bodies;
  bodies.reserve(r.trail.steps.size());
  for (const auto& s : r.trail.steps) {
    bodies.push_back(r.trail.bodies[s.body]);
  }
  h5::write_texts(file, "contacts/body", bodies, "body each contact lies on");
  const auto column = [&](const std::string& key, const std::string& unit, const std::string& description,
                          const auto& items, auto get) {
    Values values;
    values.reserve(items.size());
    for (const auto& item : items) {
      values.push_back(get(item));
    }
    h5::write_numbers(file, "contacts/" + key, values, false, unit, description + "; one value per contact and step");
  };
  using S = const RollingStep&;
  const auto& steps = r.trail.steps;
  column("time_ms", "ms", "time", steps, [](S s) { return s.time * 1e3; });
  column("x_mm", "mm", "station of the patch", steps, [](S s) { return s.x * 1e3; });
  column("y_mm", "mm", "patch from the track centre line", steps, [](S s) { return s.y * 1e3; });
  column("contact_angle_mrad", "mrad", "contact angle", steps, [](S s) { return s.angle * 1e3; });
  column("rolling_radius_mm", "mm", "rolling radius", steps, [](S s) { return s.rolling_radius * 1e3; });
  column("normal_force_kN", "kN", "normal force", steps, [](S s) { return s.normal_force * 1e-3; });
  column("half_length_mm", "mm", "half length of the patch along the track", steps,
         [](S s) { return s.patch.a_x * 1e3; });
  column("half_width_mm", "mm", "half width of the patch across", steps, [](S s) { return s.patch.a_y * 1e3; });
  column("peak_pressure_MPa", "MPa", "elastic peak pressure", steps, [](S s) { return s.patch.peak_pressure * 1e-6; });
  column("longitudinal_creepage_permil", "permil", "longitudinal creepage, positive: the wheel slides forward", steps,
         [](S s) { return s.creepage.longitudinal * 1e3; });
  column("spin_1_m", "1/m", "spin", steps, [](S s) { return s.creepage.spin; });
  column("longitudinal_force_kN", "kN", "creep force on the wheel along travel", steps,
         [](S s) { return s.force.longitudinal * 1e-3; });
  column("lateral_force_kN", "kN", "creep force on the wheel across", steps,
         [](S s) { return s.force.lateral * 1e-3; });
  column("friction_power_kW", "kW", "friction power", steps, [](S s) { return s.friction_power * 1e-3; });
  column("change_of_contact_angle_rad", "rad", "change of the contact angle inside the patch", steps,
         [](S s) { return s.change_of_angle; });
  using U = const SteelUnderContact&;
  const auto along = assess::steel_along(r.trail, r.steel, r.options);
  column("traction_coefficient", "-", "creep force over normal force", along, [](U u) { return u.traction; });
  column("load_factor", "-", "peak pressure over the yield in shear of the new steel", along,
         [](U u) { return u.load_factor; });
  column("shakedown_exceedance", "-", "load factor over its elastic shakedown limit", along,
         [](U u) { return u.shakedown; });
  column("surface_fatigue_index", "-", "traction coefficient less k/p0 (Ekberg, Kabo and Andersson 2002)", along,
         [](U u) { return u.fatigue_index; });
  column("t_gamma_N", "N", "creep force times creepage, without the spin moment", along, [](U u) { return u.t_gamma; });
  column("crack_damage_1e_6", "1e-6", "crack function of T-gamma per wheel (Burstow 2004, for R260)", along,
         [](U u) { return u.crack_damage * 1e6; });
}

} // namespace wingnose::io::damage
