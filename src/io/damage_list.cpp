#include "wingnose/io/damage_output.hpp"

namespace wingnose::io {
namespace {

using assess::Damage;
using assess::DamagePeak;

struct PeakLine {
  DamagePeak Damage::*peak;
  const char *key, *unit, *label, *description;
  int decimals;
  double per_si;
};

constexpr PeakLine peaks[] = {
    {&Damage::peak_pressure, "peak_pressure_MPa", "MPa", "peak pressure", "largest elastic Hertz pressure", 0, 1e-6},
    {&Damage::load_factor, "load_factor", "-", "load factor p0/k", "peak pressure over the yield in shear", 2, 1.0},
    {&Damage::shakedown, "shakedown_exceedance", "-", "shakedown exceedance",
     "load factor over the elastic shakedown limit at the traction used; above 1 every wheel leaves plastic strain", 2,
     1.0},
    {&Damage::fatigue_index, "surface_fatigue_index", "-", "surface fatigue index",
     "traction coefficient less k/p0 (Ekberg, Kabo and Andersson 2002); above 0 the surface yields", 3, 1.0},
    {&Damage::creepage, "longitudinal_creepage_permil", "permil", "longitudinal creepage",
     "largest size, the wheel keeping its spin speed by inertia", 2, 1e3},
    {&Damage::creep_force, "creep_force_kN", "kN", "creep force", "largest tangential force on one body", 2, 1e-3},
    {&Damage::traction, "traction_coefficient", "-", "traction coefficient", "creep force over normal force", 3, 1.0},
    {&Damage::t_gamma, "t_gamma_N", "N", "T-gamma", "creep force times creepage, without the spin moment", 1, 1.0},
    {&Damage::crack_damage, "crack_damage_1e_6", "1e-6", "crack damage per wheel",
     "largest value of the crack function of T-gamma (Burstow 2004, for R260)", 2, 1e6},
    {&Damage::friction_power, "friction_power_kW", "kW", "friction power", "largest, on one body", 2, 1e-3},
    {&Damage::change_of_angle, "change_of_contact_angle_rad", "rad", "angle change in patch",
     "change of the contact angle inside a patch; above 0.15 the half-space is stretched", 3, 1.0},
    {&Damage::wear_depth, "wear_depth_nm", "nm", "wear depth per wheel", "deepest node of the maps, Archard", 2, 1e9},
};

} // namespace

std::vector<DamageNumber> damage_numbers(const DamageReport& r) {
  std::vector<DamageNumber> list;
  for (const PeakLine& line : peaks) {
    const DamagePeak& peak = r.damage.*line.peak;
    list.push_back({line.key, line.unit, line.label, line.description, line.decimals, peak.value * line.per_si, peak});
  }
  list.push_back({"friction_energy_J",
                  "J",
                  "friction energy",
                  "dissipated by sliding over the whole stretch",
                  2,
                  r.damage.friction_energy,
                  {}});
  list.push_back({"wear_volume_mm3",
                  "mm3",
                  "wear volume",
                  "lost over the whole stretch, Archard",
                  5,
                  r.damage.wear_volume * 1e9,
                  {}});
  return list;
}

std::vector<DamageNumber> traffic_numbers(const DamageReport& r) {
  if (!r.traffic) {
    return {};
  }
  const assess::TrafficDamage& t = *r.traffic;
  const assess::TrafficStage &first = t.stages.front(), &last = t.stages.back();
  return {
      {"tonnage_MGT", "MGT", "tonnage", "million gross tonnes, both rails", 2, r.tonnage * 1e-9, {}},
      {"wheels", "-", "wheels", "over this crossing", 0, t.wheels, {}},
      {"wheels_beyond_shakedown",
       "-",
       "wheels beyond shakedown",
       "somewhere on the stretch",
       0,
       t.beyond_shakedown,
       {}},
      {"wheels_beyond_surface_flow",
       "-",
       "wheels with fatigue index > 0",
       "somewhere on the stretch",
       0,
       t.beyond_surface_flow,
       {}},
      {"wear_depth_per_wheel_nm",
       "nm",
       "wear depth per wheel",
       "deepest node, mean over the wheels: a rate for the shape given",
       1,
       last.wear_depth / t.wheels * 1e9,
       {}},
      {"wear_depth_mm", "mm", "wear depth, shape unchanged", "deepest node", 3, last.wear_depth * 1e3, {}},
      {"wear_volume_mm3", "mm3", "wear volume", "of the whole stretch", 0, t.wear_volume * 1e9, {}},
      {"crack_damage",
       "-",
       "crack damage",
       "sum of each wheel's largest; an upper bound for one place",
       2,
       t.crack_damage,
       {}},
      {"shear_yield_first_MPa",
       "MPa",
       "shear yield, first stage",
       "at the place loaded most",
       0,
       first.shear_yield * 1e-6,
       {}},
      {"shear_yield_last_MPa",
       "MPa",
       "shear yield, last stage",
       "at the place loaded most",
       0,
       last.shear_yield * 1e-6,
       {}},
      {"shakedown_exceedance_first",
       "-",
       "shakedown exceedance, first stage",
       "largest of all wheels",
       2,
       first.shakedown,
       {}},
      {"shakedown_exceedance_last",
       "-",
       "shakedown exceedance, last stage",
       "largest of all wheels",
       2,
       last.shakedown,
       {}},
  };
}

} // namespace wingnose::io
