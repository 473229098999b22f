// Station lists: regular spacing with finer stretches around given places.
#pragma once

#include "wingnose/contact/path/wheel_path.hpp"

#include <span>
#include <vector>

namespace wingnose::contact {

void check(const PathOptions& options); // throws InputError

// from, from + pitch, ..., to (last spacing adjusted so that both ends are met exactly).
[[nodiscard]] std::vector<double> regular_stations(const Stretch& stretch);

// Adds the places themselves and stations every pitch / 5 within `around` of each; sorted, no two closer than 1 um.
[[nodiscard]] std::vector<double> finer_stations(std::vector<double> stations, std::span<const double> places,
                                                 double around, const Stretch& stretch);

} // namespace wingnose::contact
