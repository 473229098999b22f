// What a vehicle table must satisfy before matrices are made of it.
#pragma once

#include "wingnose/vehicle/vehicle.hpp"

#include <string>
#include <vector>

namespace wingnose::vehicle {

// The one of `known` that `name` was probably meant to be, or "" if none comes near.
[[nodiscard]] std::string nearest_name(const std::string& name, const std::vector<std::string>& known);

void check(const Vehicle& vehicle); // throws InputError with the first mistake found

} // namespace wingnose::vehicle
