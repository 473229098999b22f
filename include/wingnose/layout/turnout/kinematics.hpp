// What a speed asks of a route by its curvature and cant alone: unbalanced acceleration in the plane of the track, cant
// deficiency, its sudden changes; and how hard flares are met.
#pragma once

#include "wingnose/layout/turnout/route.hpp"
#include "wingnose/layout/turnout/standard.hpp"

namespace wingnose::layout::turnout {

// Between the tape lines of the two rails (m): the 1500 mm of EN 13803 for standard gauge.
inline constexpr double tape_lines = 1.5;
// Cant deficiency is 11.8 V^2/R - D in mm, km/h and m (EN 13803, standard gauge): per curvature and speed squared, SI.
inline constexpr double deficiency_factor = 11.8e-3 * 3.6 * 3.6; // m s2/m
// Length over which a sudden change of curvature is felt (m): distance of bogie centres of a coach, as German and
// British rules take it; from memory, medium.
inline constexpr double virtual_transition = 12.2;

// Signed as curvature, of a place.
[[nodiscard]] double cant_deficiency(const Route& route, double s, double speed);         // m
[[nodiscard]] double unbalanced_acceleration(const Route& route, double s, double speed); // m/s2

struct Kinematics {
  double acceleration;    // m/s2, largest of the route, without sign
  double cant_deficiency; // m, likewise
  double at;              // m, s where that is
  double abrupt_change;   // m, largest step of the cant deficiency; 0 where there is none
  double abrupt_at;       // m, s of that step
  double virtual_rate;    // m/s, that step over the virtual transition
  double rate;            // m/s, largest along a transition
};
[[nodiscard]] Kinematics kinematics(const Route& route, double speed);
// Speed at which the largest cant deficiency of the route has this value (m), where curvature makes it; infinite on a
// straight route.
[[nodiscard]] double speed_of_deficiency(const Route& route, double deficiency);

// Values of standards.
[[nodiscard]] Standard abrupt_change_limit(double speed); // EN 13803 / TSI, by speed
[[nodiscard]] Standard design_acceleration();             // 0.65 m/s2
[[nodiscard]] Standard design_deficiency();               // 100 mm
[[nodiscard]] Standard flare_speed();                     // 3 km/h across, check and wing rails
[[nodiscard]] Standard blade_speed();                     // sqrt(0.65) km/h across
// Largest angle at which a face may be met, V sin(angle) at the limit.
[[nodiscard]] double steepest(const Standard& across, double speed); // rad

} // namespace wingnose::layout::turnout
