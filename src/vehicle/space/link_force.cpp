#include "wingnose/vehicle/space/link_force.hpp"

#include <cmath>

namespace wingnose::vehicle::space {

double spring_force(const LinkDirection& direction, double stretch) {
  const double beyond = direction.stop_stiffness > 0.0 ? std::abs(stretch) - direction.clearance : 0.0;
  const double stop = beyond > 0.0 ? std::copysign(direction.stop_stiffness * beyond, stretch) : 0.0;
  return direction.stiffness * stretch + stop;
}

double damper_force(const LinkDirection& direction, double speed) {
  const double force = direction.damping * std::abs(speed), most = direction.blow_off_force;
  if (most == 0.0 || force <= most) {
    return direction.damping * speed;
  }
  const double beyond = std::abs(speed) - most / direction.damping;
  return std::copysign(most + direction.blow_off_damping * beyond, speed);
}

double damper_speed(const LinkDirection& direction, double force) {
  const double most = direction.blow_off_force;
  if (most == 0.0 || std::abs(force) <= most) {
    return force / direction.damping;
  }
  return std::copysign(most / direction.damping + (std::abs(force) - most) / direction.blow_off_damping, force);
}

} // namespace wingnose::vehicle::space
