// What lies between the ends of long steps, on the samples of a history.
#pragma once

#include "wingnose/passage/step_plan.hpp"

#include <span>
#include <vector>

namespace wingnose::passage {

// Fills the samples that long steps passed over by cubics through the four nearest ends of steps of the same stretch.
void fill_between(std::vector<double>& values, std::span<const Stretch> stretches);
// The same for a contact force, which no cubic turns into a pull or a touch.
void fill_force_between(std::vector<double>& force, std::span<const Stretch> stretches);

// Second derivative of a deflection known at the ends of steps, sampled every h seconds: the records are smooth.
[[nodiscard]] std::vector<double> acceleration(const std::vector<double>& w, double h,
                                               std::span<const Stretch> stretches);

} // namespace wingnose::passage
