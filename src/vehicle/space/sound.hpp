// What a vehicle in space must satisfy before matrices are made of it.
#pragma once

#include "wingnose/vehicle/space/vehicle.hpp"

#include <string>
#include <vector>

namespace wingnose::vehicle::space {

[[nodiscard]] std::vector<std::string> part_names(const SpatialVehicle& vehicle); // wheelsets first, then bodies
// Index among these. Throws InputError, telling the names and the nearest one; where: "link[3].upper".
[[nodiscard]] int part_called(const SpatialVehicle& vehicle, const std::string& name, const std::string& where);

void check(const SpatialVehicle& vehicle); // throws InputError with the first mistake found

} // namespace wingnose::vehicle::space
