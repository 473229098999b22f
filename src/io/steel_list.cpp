#include "wingnose/io/damage_output.hpp"
#include "wingnose/io/steel_output.hpp"

#include <algorithm>
#include <array>
#include <string_view>

namespace wingnose::io {
namespace {

using study::SteelMeasures;

struct Named {
  double SteelMeasures::*value;
  std::string_view key;
  double per_si;
};
constexpr std::array named{
    Named{&SteelMeasures::peak_pressure, "peak_pressure_MPa", 1e-6},
    Named{&SteelMeasures::shakedown, "shakedown_exceedance", 1.0},
    Named{&SteelMeasures::fatigue_index, "surface_fatigue_index", 1.0},
    Named{&SteelMeasures::t_gamma, "t_gamma_N", 1.0},
    Named{&SteelMeasures::crack_damage, "crack_damage_1e_6", 1e6},
    Named{&SteelMeasures::friction_energy, "friction_energy_J", 1.0},
    Named{&SteelMeasures::wear_volume, "wear_volume_mm3", 1e9},
    Named{&SteelMeasures::change_of_angle, "change_of_contact_angle_rad", 1.0},
};

} // namespace

std::vector<SteelMeasure> steel_measures() {
  const auto known = damage_numbers({});
  std::vector<SteelMeasure> list;
  for (const Named& n : named) {
    const auto number = std::find_if(known.begin(), known.end(), [&](const DamageNumber& d) { return d.key == n.key; });
    if (number != known.end()) {
      list.push_back(
          {{number->key, number->unit, number->label, number->description, number->decimals}, n.value, n.per_si});
    }
  }
  return list;
}

} // namespace wingnose::io
