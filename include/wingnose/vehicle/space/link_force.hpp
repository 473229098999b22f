// What one direction of a link does beyond small motion: stops that are met, dampers that give way. Tension positive;
// stretch is counted from rest.
#pragma once

#include "wingnose/vehicle/space/vehicle.hpp"

namespace wingnose::vehicle::space {

// N at a stretch (m): the spring, and the stop beyond its clearance either way.
[[nodiscard]] double spring_force(const LinkDirection& direction, double stretch);
// N at a speed of the damper's own ends (m/s).
[[nodiscard]] double damper_force(const LinkDirection& direction, double speed);
// m/s at which a damper pulls with a force (N): what its series spring asks. Needs damping above 0, and, beyond a
// blow-off force, blow_off_damping above 0; assemble() sees to that where there is a spring in series.
[[nodiscard]] double damper_speed(const LinkDirection& direction, double force);

} // namespace wingnose::vehicle::space
