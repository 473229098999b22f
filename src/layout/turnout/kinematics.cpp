#include "wingnose/layout/turnout/kinematics.hpp"

#include "drawn_units.hpp"
#include "wingnose/words/constants.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace wingnose::layout::turnout {
namespace {

using enum Worth;
using enum Demand;

double deficiency(double curvature, double cant, double speed) {
  return deficiency_factor * speed * speed * curvature - cant;
}
double acceleration(double curvature, double cant, double speed) {
  return speed * speed * curvature - gravity * cant / tape_lines;
}

} // namespace

double cant_deficiency(const Route& route, double s, double speed) {
  return deficiency(route.curvature(s), route.cant(s), speed);
}
double unbalanced_acceleration(const Route& route, double s, double speed) {
  return acceleration(route.curvature(s), route.cant(s), speed);
}

// Linear along a stretch, so that the largest values stand at its ends.
Kinematics kinematics(const Route& route, double speed) {
  Kinematics k{};
  double before = 0.0; // straight and level ahead of the turnout: of the deficiency by curvature
  const auto look = [&](double s, double curvature, double cant) {
    const double here = deficiency(curvature, cant, speed);
    if (std::abs(here) > k.cant_deficiency) {
      k.cant_deficiency = std::abs(here);
      k.at = s;
    }
    k.acceleration = std::max(k.acceleration, std::abs(acceleration(curvature, cant, speed)));
  };
  const auto step = [&](double s, double curvature) {
    const double change = std::abs(deficiency(curvature - before, 0.0, speed));
    if (change > k.abrupt_change) {
      k.abrupt_change = change;
      k.abrupt_at = s;
    }
  };
  for (std::size_t i = 0; i < route.stretches().size(); ++i) {
    const Stretch& stretch = route.stretches()[i];
    step(route.begin_of(i), stretch.curvature);
    look(route.begin_of(i), stretch.curvature, stretch.cant);
    look(route.begin_of(i + 1), stretch.curvature_end, stretch.cant_end);
    const double change = deficiency(stretch.curvature_end - stretch.curvature, stretch.cant_end - stretch.cant, speed);
    k.rate = std::max(k.rate, std::abs(change) * speed / stretch.length);
    before = stretch.curvature_end;
  }
  step(route.end(), 0.0);
  k.virtual_rate = k.abrupt_change * speed / virtual_transition;
  return k;
}

double speed_of_deficiency(const Route& route, double wanted) {
  double least = std::numeric_limits<double>::infinity();
  for (const Stretch& stretch : route.stretches()) {
    for (const auto& [curvature, cant] :
         {std::pair{stretch.curvature, stretch.cant}, std::pair{stretch.curvature_end, stretch.cant_end}}) {
      if (curvature != 0.0) {
        const double towards = curvature > 0.0 ? cant : -cant;
        const double square = (wanted + towards) / (deficiency_factor * std::abs(curvature));
        least = std::min(least, std::sqrt(std::max(0.0, square)));
      }
    }
  }
  return least;
}

Standard abrupt_change_limit(double speed) {
  const double v = speed / km_h;
  const double most = v <= 60.0 + 1e-9 ? 130 : v <= 200.0 + 1e-9 ? 125 : v <= 230.0 + 1e-9 ? 85 : 25;
  return {most * mm, at_most, remembered, "EN 13803; TSI Infrastructure 4.2.4.4"};
}
Standard design_acceleration() { return {0.65, at_most, well_remembered, "German and Chinese design practice"}; }
Standard design_deficiency() { return {100 * mm, at_most, well_remembered, "German and Chinese design practice"}; }
Standard flare_speed() { return {3.0 * km_h, at_most, remembered, "Chinese design rule, 9 (km/h)2"}; }
Standard blade_speed() { return {std::sqrt(0.65) * km_h, at_most, remembered, "Chinese design rule, 0.65 (km/h)2"}; }

double steepest(const Standard& across, double speed) { return std::asin(std::min(1.0, across.value / speed)); }

} // namespace wingnose::layout::turnout
