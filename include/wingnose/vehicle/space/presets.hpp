// Vehicles in space ready for use, and the vertical half of any.
#pragma once

#include "wingnose/vehicle/space/vehicle.hpp"
#include "wingnose/vehicle/vehicle.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace wingnose::vehicle::space {

// "coach_1998" (Iwnicki 1998), "bogie" (one of its bogies under half of its body, which heaves only), "wheelset" (one
// of its wheelsets under its springs and an axle's share of the weight above, which heaves only).
// SpatialVehicle::source says what each value rests on.
[[nodiscard]] SpatialVehicle preset(std::string_view name); // throws InputError listing the names
[[nodiscard]] std::vector<std::string> preset_names();

// The same vehicle in the vertical plane, one side of it: half of masses and inertias, half of what the links of both
// sides do upwards. Springs in series, stops, and what acts across or along the track are left out. A body whose pitch
// is held has no pitch inertia. Throws InputError where a body is held in its heave, or where a wheelset's links lie
// beyond its wheels.
[[nodiscard]] vehicle::Vehicle vertical_half(const SpatialVehicle& vehicle);

} // namespace wingnose::vehicle::space
