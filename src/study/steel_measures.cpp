#include "wingnose/study/steel_measures.hpp"

#include "wingnose/study/steel_damage.hpp"

namespace wingnose::study {

SteelMeasures steel_measures(const assess::Damage& d) {
  return {.peak_pressure = d.peak_pressure.value,
          .shakedown = d.shakedown.value,
          .fatigue_index = d.fatigue_index.value,
          .t_gamma = d.t_gamma.value,
          .crack_damage = d.crack_damage.value,
          .friction_energy = d.friction_energy,
          .wear_volume = d.wear_volume,
          .change_of_angle = d.change_of_angle.value};
}

SteelMeasures steel_measures(const Case& c, const Result& result) {
  const assess::ContactTrail trail = contact_trail(c, result);
  assess::DamageOptions options = c.damage;
  // The widest spacings allowed: peaks and sums do not depend on the maps, only the time to fill them does.
  options.spacing_x = 0.1;
  options.spacing_y = 0.05;
  return steel_measures(assess::damage(trail, c.grade, options));
}

std::vector<std::string> steel_assumptions() {
  std::vector<std::string> list;
  list.emplace_back(
      "the wheelset runs straight without lateral motion, held in the yaw of its case: lateral creepage is "
      "that angle of attack (0 without wheel.yaw_mrad) and spin comes from the contact angle; curving and "
      "wheels out of line do more to the steel than is told here");
  list.emplace_back("friction is that of the case all along the way; creep forces are those of steady rolling at each "
                    "instant");
  list.emplace_back(
      "pressures are elastic, by the case's law of contact on a half-space, and the shape does not change: beyond "
      "shakedown the steel flows until real pressures are lower");
  list.emplace_back("wear is read at the run-in pressure, not above the shakedown limit times the yield in shear, "
                    "unless the case says otherwise; that is an assumption of this program. Wear volumes are known to "
                    "a factor of about two in severe and five in mild wear; their ratios between crossings are better "
                    "known than they are");
  list.emplace_back("the crack function is that published for R260 rail in curves; other steels crack at other values");
  return list;
}

} // namespace wingnose::study
