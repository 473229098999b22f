// The traffic in a file of damage.
#include "damage_layout.hpp"
#include "hdf5_handle.hpp"

#include "wingnose/assess/damage_along.hpp"

#include <numeric>

namespace wingnose::io::damage {
namespace {

using Values = std::vector<double>;

template <class Items, class Get> Values column(const Items& items, Get get) {
  Values values;
  values.reserve(items.size());
  for (const auto& item : items) {
    values.push_back(get(item));
  }
  return values;
}

void write_stages(hid_t file, const assess::TrafficDamage& t) {
  using S = const assess::TrafficStage&;
  const auto write = [&](const std::string& key, const std::string& unit, const std::string& description, auto get) {
    h5::write_numbers(file, "traffic/stages/" + key, column(t.stages, get), false, unit,
                      description + "; one value per stage");
  };
  write("wheels", "-", "wheels after the stage, from the beginning", [](S s) { return s.wheels; });
  write("shear_yield_MPa", "MPa", "yield in shear in the stage, of the place loaded most so far",
        [](S s) { return s.shear_yield * 1e-6; });
  write("hardness_MPa", "MPa", "hardness, likewise", [](S s) { return s.hardness * 1e-6; });
  write("shakedown_exceedance", "-", "largest of all wheels in the stage", [](S s) { return s.shakedown; });
  write("surface_fatigue_index", "-", "largest of all wheels in the stage", [](S s) { return s.fatigue_index; });
  write("wear_depth_mm", "mm", "deepest node after the stage", [](S s) { return s.wear_depth * 1e3; });
}

// The case's own wheel on the steel as each stage finds it: every stage brings the same share of wheels to a place.
void write_contacts_in_stages(hid_t file, const DamageReport& r) {
  const std::size_t stages = r.traffic->stages.size();
  Values yield, shakedown, index;
  for (std::size_t i = 0; i < stages; ++i) {
    const double share = static_cast<double>(i) / static_cast<double>(stages);
    for (const auto& at : assess::steel_along(r.trail, r.steel, r.options, &r.traffic->maps, share)) {
      yield.push_back(at.shear_yield * 1e-6);
      shakedown.push_back(at.shakedown);
      index.push_back(at.fatigue_index);
    }
  }
  const std::string group = "traffic/contacts/", tail = " for the case's own wheel at the begin of each stage; "
                                                        "[stage][contact]";
  h5::write_table(file, group + "shear_yield_MPa", stages, yield, "MPa", "yield in shear" + tail);
  h5::write_table(file, group + "shakedown_exceedance", stages, shakedown, "-",
                  "load factor over its elastic shakedown limit" + tail);
  h5::write_table(file, group + "surface_fatigue_index", stages, index, "-", "surface fatigue index" + tail);
}

void write_wheels(hid_t file, const study::Traffic& t) {
  std::vector<std::string> names, classes, failures;
  Values weights;
  for (std::size_t m = 0; m < t.members.size(); ++m) {
    const study::Member& member = t.population.members[m];
    names.push_back(member.name);
    classes.push_back(t.population.classes[member.wheel_class].name);
    failures.push_back(t.members[m].failure);
    weights.push_back(member.weight);
  }
  const double all = std::accumulate(weights.begin(), weights.end(), 0.0);
  for (double& weight : weights) {
    weight /= all;
  }
  const std::string group = "traffic/population/";
  h5::write_texts(file, group + "name", names, "names of the wheels");
  h5::write_texts(file, group + "class", classes, "their classes");
  h5::write_texts(file, group + "failure", failures, "why there is no damage; empty: there is");
  h5::write_numbers(file, group + "share", weights, false, "-", "of the wheels asked for; one value per wheel");
  using M = const study::TrafficMember&;
  const auto write = [&](const std::string& key, const std::string& unit, const std::string& description, auto get) {
    h5::write_numbers(file, group + key, column(t.members, get), false, unit, description + "; one value per wheel");
  };
  write("wheels", "-", "of this kind in the traffic, 0 where it failed", [](M m) { return m.wheels; });
  write("speed_km_h", "km/h", "speed", [](M m) { return m.speed * 3.6; });
  write("static_load_kN", "kN", "static wheel load", [](M m) { return m.static_load * 1e-3; });
  write("lateral_offset_mm", "mm", "shift of the wheelset", [](M m) { return m.lateral_offset * 1e3; });
  write("peak_pressure_MPa", "MPa", "largest elastic pressure of one such wheel",
        [](M m) { return m.peak_pressure * 1e-6; });
  write("shakedown_exceedance", "-", "largest of one such wheel over new steel", [](M m) { return m.shakedown; });
  write("surface_fatigue_index", "-", "largest of one such wheel over new steel", [](M m) { return m.fatigue_index; });
  write("t_gamma_N", "N", "largest of one such wheel", [](M m) { return m.t_gamma; });
  write("friction_energy_J", "J", "of one such wheel over the whole stretch", [](M m) { return m.friction_energy; });
}

} // namespace

void write_traffic(hid_t file, const DamageReport& r) {
  write_numbers(file, "traffic/measures", traffic_numbers(r));
  for (const auto& map : r.traffic->maps) {
    write_map(file, "traffic", map);
  }
  write_stages(file, *r.traffic);
  write_contacts_in_stages(file, r);
  if (r.mix) {
    write_wheels(file, *r.mix);
    h5::write_texts(file, "traffic/text", {r.mix_text}, "the file of the traffic as read");
  }
  h5::write_texts(file, "notes/traffic", r.traffic->notes, "what a reader must know about the sums");
}

} // namespace wingnose::io::damage
