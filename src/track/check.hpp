// What a track description must satisfy before anything is computed from it; each breach has its own sentence.
#pragma once

#include "wingnose/track/track.hpp"

namespace wingnose::track::detail {

void check_track(const Track& track); // throws InputError
void check_zone_hit(const RailZone& zone, bool hit, double begin, double end);
void check_override_distance(double station, double nearest, double spacing);
[[noreturn]] void refuse_second_override(double seat_station);
void check_station(double x, double begin, double end);
[[noreturn]] void refuse_loose_track(); // throws ComputeError

} // namespace wingnose::track::detail
