// One passage, start to end: a Plan and a Run go in, a History comes out. Thread safe: a plan is const, each call owns
// its state.
#pragma once

#include "wingnose/passage/history.hpp"
#include "wingnose/passage/plan.hpp"

#include <functional>
#include <memory>
#include <span>
#include <vector>

namespace wingnose::passage {

// Throws ComputeError when the motion does not stay finite.
[[nodiscard]] History simulate(const Passage& passage);
// Throws InputError as make_passage does.
[[nodiscard]] History simulate(std::shared_ptr<const Plan> plan, const Run& run);

// Several passages that share track, step, speed, direction and window, one wheel each: the mode shapes are evaluated
// once for all. Same results as one by one, to rounding. Throws InputError when they do not share these, and for
// contact searched at every step.
[[nodiscard]] std::vector<History> simulate_batch(std::span<const Passage> passages);

// Response of the track alone to a given downward force that moves along it: deflection under the load (m, downward)
// per step.
[[nodiscard]] std::vector<double> moving_load(const StepTable& steps, const std::function<double(double time)>& force,
                                              double from, double speed, int step_count);

} // namespace wingnose::passage
