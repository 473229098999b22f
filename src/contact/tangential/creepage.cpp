#include "wingnose/contact/tangential/creepage.hpp"

#include "wingnose/words/error.hpp"

#include <Eigen/Dense>

#include <cmath>
#include <numbers>

namespace wingnose::contact {
namespace {

using Eigen::Vector3d;

void check_angle(double angle) {
  if (!(std::abs(angle) < 0.5 * std::numbers::pi)) {
    throw InputError("contact angle", number(angle) + " rad", "between -pi/2 and pi/2",
                     "It is the slope of the common tangent plane across the track, as an angle.");
  }
}

void check(const WheelMotion& m) {
  if (!(m.speed > 0.0 && std::isfinite(m.speed))) {
    throw InputError("speed of the wheelset", number(m.speed) + " m/s", "above 0",
                     "Creepage is a slip per distance travelled; a wheel at rest has none.");
  }
  if (!(m.rolling_radius > 0.0 && std::isfinite(m.rolling_radius))) {
    throw InputError("rolling radius", number(m.rolling_radius) + " m", "above 0", "A wheel has about 0.46 m.");
  }
  check_angle(m.contact_angle);
  for (const double value :
       {m.angular_speed, m.offset_x, m.offset_y, m.yaw, m.lateral_speed, m.vertical_speed, m.yaw_rate, m.roll_rate}) {
    if (!std::isfinite(value)) {
      throw InputError("motion of the wheelset", number(value), "finite numbers",
                       "Check the rates and offsets of the contact.");
    }
  }
}

struct ContactFrame {
  Vector3d tx, ty, n;
};
ContactFrame contact_frame(double angle, double sense) {
  const Vector3d tx(sense, 0.0, 0.0);
  const Vector3d n(0.0, -std::sin(angle), std::cos(angle));
  return {tx, n.cross(tx), n};
}

} // namespace

Creepage creepage(const WheelMotion& m) {
  check(m);
  const double way = sense(m.direction);
  const Vector3d up(0.0, 0.0, 1.0);
  const Vector3d axle(-std::sin(m.yaw), std::cos(m.yaw), 0.0); // towards +y
  const Vector3d ahead = axle.cross(up);                       // towards +x, square to the axle
  const Vector3d arm = m.offset_x * ahead + m.offset_y * axle - m.rolling_radius * up;
  const Vector3d omega = way * m.angular_speed * axle + Vector3d(m.roll_rate, 0.0, m.yaw_rate);
  const Vector3d v = Vector3d(way * m.speed, m.lateral_speed, m.vertical_speed) + omega.cross(arm);
  const ContactFrame f = contact_frame(m.contact_angle, way);
  // Kalker (1990), rigid slip and spin over the speed of travel.
  return {v.dot(f.tx) / m.speed, v.dot(f.ty) / m.speed, omega.dot(f.n) / m.speed};
}

Creepage creepage_linearised(const WheelMotion& m, double nominal_radius) {
  check(m);
  if (!(nominal_radius > 0.0)) {
    throw InputError("nominal rolling radius", number(nominal_radius) + " m", "above 0", "A wheel has about 0.46 m.");
  }
  const double c = std::cos(m.contact_angle), s = std::sin(m.contact_angle), V = m.speed;
  return {1.0 - m.rolling_radius / nominal_radius - m.offset_y * m.yaw_rate / V,
          (m.lateral_speed / V - m.yaw + m.rolling_radius * m.roll_rate / V) * c +
              (m.vertical_speed + m.offset_y * m.roll_rate) / V * s,
          m.yaw_rate / V * c - s / nominal_radius};
}

std::array<double, 3> track_force(const CreepForce& force, double normal, double contact_angle, Direction direction) {
  check_angle(contact_angle);
  const ContactFrame f = contact_frame(contact_angle, sense(direction));
  const Vector3d total = force.longitudinal * f.tx + force.lateral * f.ty + normal * f.n;
  return {total.x(), total.y(), total.z()};
}

} // namespace wingnose::contact
