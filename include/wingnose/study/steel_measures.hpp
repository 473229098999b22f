// What one passage does to the steel, in the few numbers that studies of many passages compare: the largest values and
// sums of assess::Damage, without its maps and places. Method and limits: assess/damage.hpp. SI.
#pragma once

#include "wingnose/assess/damage.hpp"
#include "wingnose/study/case.hpp"
#include "wingnose/words/constants.hpp"

#include <string>
#include <vector>

namespace wingnose::study {

// Over wing and nose, of one wheel over new steel.
struct SteelMeasures {
  double peak_pressure = 0.0;   // Pa, largest elastic Hertz pressure
  double shakedown = 0.0;       // -, largest load factor over its elastic shakedown limit; above 1 is plastic
  double fatigue_index = 0.0;   // -, largest surface fatigue index; above 0 the surface yields
  double t_gamma = 0.0;         // N (J/m), largest
  double crack_damage = 0.0;    // -, per wheel, largest value of the crack function
  double friction_energy = 0.0; // J, of the whole stretch
  double wear_volume = 0.0;     // m3, of the whole stretch
  double change_of_angle = 0.0; // rad, largest change of the contact angle inside a patch
  [[nodiscard]] friend bool operator==(const SteelMeasures&, const SteelMeasures&) = default;
};
[[nodiscard]] SteelMeasures steel_measures(const assess::Damage& damage);

// Of a passage with its history and path: the same bits as of study::damage (steel_damage.hpp), at less cost, as
// nothing is mapped. Throws as study::damage does.
[[nodiscard]] SteelMeasures steel_measures(const Case& c, const Result& result);

// Change of the contact angle inside a patch (rad) above which the half-space is stretched; assess/damage.hpp.
inline constexpr double stretched_angle = wingnose::stretched_angle;

// What all such numbers rest on, in sentences.
[[nodiscard]] std::vector<std::string> steel_assumptions();

} // namespace wingnose::study
