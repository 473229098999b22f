// Forces between one wheelset and what lies under and beside its wheels, from where the axle is and how it moves.
//
// Each wheel is searched against every body of its side (search/look.hpp). Each region of overlap carries one ellipse
// after Hertz, told by means over the penetration. Creepages (Kalker 1990, as in tangential/creepage.hpp) come from the
// velocity of the wheel's material at the contact as a rigid body, less that of the rail; nothing is linearised, so
// that gravitational stiffness, spin and the creep of a flange are in them.
//
// The normal of a contact has the mean slope across; along it leans so that it passes through the axle, as the normal
// of a surface of revolution does: normal forces never turn a wheel about its axle.
//
// Frame: words/frame.hpp, wheel 0 at +y, wheel 1 at -y. The axle's attitude: yaw about z, then roll about the axis that
// yaw has turned. Moves are towards +x: facing, or trailing over bodies met backwards. Of second order in roll nothing
// is kept. SI.
#pragma once

#include "wingnose/contact/search/look.hpp"
#include "wingnose/contact/space/ellipse_table.hpp"
#include "wingnose/contact/tangential/saturation.hpp"
#include "wingnose/layout/surface.hpp"
#include "wingnose/words/range.hpp"

#include <Eigen/Core>

#include <array>
#include <cstddef>
#include <span>
#include <vector>

namespace wingnose::contact {

// How a body lies beyond what its surface says.
struct Lie {
  Range within = {};     // m, stations of a wheel at which it is looked at
  double outward = 0.0;  // m, by which it stands farther out: half of what the gauge differs from the standard one
  double friction = 1.0; // -, of its surface, over that of the law
};
// What meets, the same at every instant.
struct WheelsetOnBodies {
  std::array<WheelSurface, 2> wheel;
  std::vector<layout::Body> bodies;    // crossing side: met by wheel 0, opposite side: by wheel 1
  std::vector<Lie> lie = {};           // of every body; empty: everywhere, as drawn
  bool backwards = false;              // stations of wheels count against those of bodies and of Lie::within
  double half_spacing = taping_line_y; // m, track centre line to taping line
  CreepLaw law = Cubic{};              // checked by search()
  EllipseTable ellipse = EllipseTable{};
};

struct AxlePlace {
  double station = 0.0; // m
  double y = 0.0;       // m, of the axle's middle
  double z = 0.46;      // m, of the axle's middle over the running surface
  double roll = 0.0;    // rad, |roll| <= 0.1
  double yaw = 0.0;     // rad, |yaw| <= 0.1
};
// Against the track's frame at the axle's station.
struct AxleMotion {
  double forward = 0.0, lateral = 0.0, vertical = 0.0; // m/s, of the axle's middle
  double roll_rate = 0.0;                              // rad/s
  double yaw_rate = 0.0;                               // rad/s, with that of a curved track
  double spin = 0.0;                                   // rad/s, about the axle, positive when rolling towards +x
};
// Rail under one wheel: how far it has moved, and how fast.
struct RailPlace {
  double y = 0.0, z = 0.0; // m
};
struct RailMotion {
  double y = 0.0, z = 0.0; // m/s
};

// One region in which a wheel and a body overlap.
struct SpaceContact {
  int wheel = 0, body = 0;          // body: index among WheelsetOnBodies::bodies
  Eigen::Vector3d arm, n, t_x, t_y; // m, from the axle's middle; -, from the rail into the wheel, along, across
  double y = 0.0;                   // m, from the track centre line
  double dx = 0.0;                  // m, ahead of the wheel's lowest point
  double wheel_y = 0.0;             // m, on the wheel, from its taping line
  double angle = 0.0;               // rad, slope across counted outward: negative on the flange
  double radius = 0.0;              // m, rolling
  double approach = 0.0;            // m, along the normal, > 0
  HertzEllipse ellipse;
};
struct SpaceContacts {
  static constexpr std::size_t capacity = 12;
  std::size_t count = 0;
  bool complete = true; // false when more were found than fit
  std::array<SpaceContact, capacity> contact;
  [[nodiscard]] std::span<const SpaceContact> list() const& { return {contact.data(), count}; }
  void list() && = delete; // the span would outlive what it shows
};

// What the search of one wheelset keeps from place to place.
struct SpaceSearch {
  std::vector<double> ahead; // m, where each body was touched last
  GapLine gap;
  StripWorkspace strips;
};
// Throws InputError for a creep law or spacing out of range.
[[nodiscard]] SpaceSearch make_search(const WheelsetOnBodies& set);

// All contacts at a place. Throws InputError for angles beyond 0.1 rad and a place that is not finite. Nothing is
// allocated.
void find_contacts(const WheelsetOnBodies& set, const AxlePlace& place, const std::array<RailPlace, 2>& rails,
                   SpaceSearch& search, SpaceContacts& found);

// Axes of a wheelset: along the axle, and the ones about which it rolls and yaws.
struct AxleAxes {
  Eigen::Vector3d axle, roll, yaw;
};
[[nodiscard]] AxleAxes axes(const AxlePlace& place);

// m/s, of the wheel's material over the rail's.
[[nodiscard]] Eigen::Vector3d slip_velocity(const SpaceContact& contact, const AxleAxes& axes, const AxleMotion& motion,
                                            const RailMotion& rail);
// rad/s, of the wheelset about the contact's normal.
[[nodiscard]] double spin_velocity(const SpaceContact& contact, const AxleAxes& axes, const AxleMotion& motion);

// Force on the wheel at one contact.
struct ContactForce {
  double normal = 0.0; // N, >= 0
  Creepage creepage;
  CreepForce creep; // N, N m
  [[nodiscard]] Eigen::Vector3d on_wheel(const SpaceContact& at) const {
    return normal * at.n + creep.longitudinal * at.t_x + creep.lateral * at.t_y;
  }
  // W, what creepage turns into heat at a speed of travel (m/s), >= 0 but for the estimated moment.
  [[nodiscard]] double power(double speed) const {
    return -speed * (creep.longitudinal * creepage.longitudinal + creep.lateral * creepage.lateral +
                     creep.moment * creepage.spin);
  }
};
[[nodiscard]] inline double normal_force(const SpaceContact& contact) {
  return contact.ellipse.stiffness * contact.approach * std::sqrt(contact.approach);
}
// speed: m/s, of travel, > 0. normal: N, >= 0.
[[nodiscard]] ContactForce contact_force(const WheelsetOnBodies& set, const SpaceContact& contact, double normal,
                                         const AxleAxes& axes, const AxleMotion& motion, const RailMotion& rail,
                                         double speed, SpaceSearch& search);

// What a wheelset feels in its own coordinates.
struct AxleForce {
  Eigen::Vector3d force = Eigen::Vector3d::Zero(); // N, on the axle's middle
  double roll = 0.0, axle = 0.0, yaw = 0.0;        // N m, about these axes
  void add(const SpaceContact& at, const ContactForce& given, const AxleAxes& about);
};

} // namespace wingnose::contact
