// Vehicle in space: rigid bodies with six coordinates, wheelsets with five (the forward speed is prescribed), links
// that act in three directions, from a table of whole-vehicle values.
//
// Frame: x along the track, ahead, 0 at the leading wheelset, so that what follows it lies at x < 0; y across, z up
// with 0 at the top of the rails (words/frame.hpp). Turning is right-handed about these axes: roll about x lifts the +y
// side, pitch about y dips the front (the vertical vehicle counts it the other way), yaw about z turns from x towards
// y. Displacements are those of the centre of gravity, seen from a place that runs along the track at the vehicle's
// speed. Heights are those at rest under the vehicle's own weight. SI.
#pragma once

#include "wingnose/words/constants.hpp"
#include "wingnose/words/names.hpp"
#include "wingnose/words/range.hpp"

#include <array>
#include <string>
#include <vector>

namespace wingnose::vehicle::space {

enum class Motion { x, y, z, roll, pitch, yaw };
inline constexpr int motions = 6;
constexpr auto names(Motion) {
  return std::array{Name{Motion::x, "x"},       Name{Motion::y, "y"},         Name{Motion::z, "z"},
                    Name{Motion::roll, "roll"}, Name{Motion::pitch, "pitch"}, Name{Motion::yaw, "yaw"}};
}

// Which coordinates may move; the others are held in their place beside the track. A wheelset's x never moves; its
// pitch is the turning about its own axle, over and above rolling.
using Freedom = std::array<bool, motions>;
inline constexpr Freedom all_free{true, true, true, true, true, true};

struct RigidBody {
  std::string name;
  double mass = 0.0;                                                 // kg
  double roll_inertia = 0.0, pitch_inertia = 0.0, yaw_inertia = 0.0; // kg m2, about its own centre of gravity
  double x = 0.0, y = 0.0, z = 0.0;                                  // m, centre of gravity
  Freedom free = all_free;
  [[nodiscard]] friend bool operator==(const RigidBody&, const RigidBody&) = default;
};
constexpr auto ranges(const RigidBody*) {
  using B = RigidBody;
  return std::array{InRange{&B::mass, "mass", "kg", 1, 1e6},
                    InRange{&B::roll_inertia, "roll_inertia", "kg m2", 0.1, 1e7},
                    InRange{&B::pitch_inertia, "pitch_inertia", "kg m2", 0.1, 1e8},
                    InRange{&B::yaw_inertia, "yaw_inertia", "kg m2", 0.1, 1e8},
                    InRange{&B::x, "x", "m", -200, 50},
                    InRange{&B::y, "y", "m", -3, 3},
                    InRange{&B::z, "z", "m", -1, 6}};
}

struct WheelOfSet {
  double radius = 0.46;          // m, at the taping line
  std::string profile = "S1002"; // name of its profile; rooms that know profiles read it
  [[nodiscard]] friend bool operator==(const WheelOfSet&, const WheelOfSet&) = default;
};
constexpr auto ranges(const WheelOfSet*) {
  return std::array{InRange{&WheelOfSet::radius, "radius", "m", wheel_radius_range.least, wheel_radius_range.most}};
}

struct Wheelset {
  std::string name;
  double mass = 0.0;                                                // kg, with its axle boxes
  double roll_inertia = 0.0, spin_inertia = 0.0, yaw_inertia = 0.0; // kg m2; spin: what turns about the axle
  double x = 0.0;                                                   // m, <= 0, strictly decreasing
  double half_spacing = taping_line_y;                              // m, track centre line to where the wheels roll
  std::array<WheelOfSet, 2> wheel = {};                             // that at +y, that at -y
  Freedom free = all_free;
  [[nodiscard]] double height() const { return 0.5 * (wheel[0].radius + wheel[1].radius); } // m, of the axle
  [[nodiscard]] friend bool operator==(const Wheelset&, const Wheelset&) = default;
};
constexpr auto ranges(const Wheelset*) {
  using W = Wheelset;
  return std::array{InRange{&W::mass, "mass", "kg", 20, 40e3},
                    InRange{&W::roll_inertia, "roll_inertia", "kg m2", 1, 1e5},
                    InRange{&W::spin_inertia, "spin_inertia", "kg m2", 1, 1e5},
                    InRange{&W::yaw_inertia, "yaw_inertia", "kg m2", 1, 1e5},
                    InRange{&W::x, "x", "m", -200, 0},
                    InRange{&W::half_spacing, "half_spacing", "m", 0.2, 1.5}};
}

// What a link does in one direction: a spring; beside it a damper, which may have a spring in series and a speed from
// which it gives way; and a stop that is met after a clearance either way, counted from rest under the weight.
struct LinkDirection {
  double stiffness = 0.0;        // N/m, the tangent at rest
  double damping = 0.0;          // N s/m
  double series_stiffness = 0.0; // N/m, of the damper's ends; 0: they do not give
  double blow_off_force = 0.0;   // N, from which the damper gives way; 0: never
  double blow_off_damping = 0.0; // N s/m beyond that force
  double clearance = 0.0;        // m, to the stop
  double stop_stiffness = 0.0;   // N/m; 0: there is no stop
  [[nodiscard]] bool acts() const { return stiffness > 0.0 || damping > 0.0 || stop_stiffness > 0.0; }
  [[nodiscard]] friend bool operator==(const LinkDirection&, const LinkDirection&) = default;
};
constexpr auto ranges(const LinkDirection*) {
  using D = LinkDirection;
  return std::array{InRange{&D::stiffness, "stiffness", "N/m", 0, 1e10},
                    InRange{&D::damping, "damping", "N s/m", 0, 1e8},
                    InRange{&D::series_stiffness, "series_stiffness", "N/m", 0, 1e10},
                    InRange{&D::blow_off_force, "blow_off_force", "N", 0, 1e6},
                    InRange{&D::blow_off_damping, "blow_off_damping", "N s/m", 0, 1e8},
                    InRange{&D::clearance, "clearance", "m", 0, 1},
                    InRange{&D::stop_stiffness, "stop_stiffness", "N/m", 0, 1e10}};
}
struct LinkTurning {
  double stiffness = 0.0; // N m/rad
  double damping = 0.0;   // N m s/rad
  [[nodiscard]] friend bool operator==(const LinkTurning&, const LinkTurning&) = default;
};
constexpr auto ranges(const LinkTurning*) {
  using T = LinkTurning;
  return std::array{InRange{&T::stiffness, "stiffness", "N m/rad", 0, 1e10},
                    InRange{&T::damping, "damping", "N m s/rad", 0, 1e8}};
}

// Joins two bodies at one point: the middle of a spring, between whose ends a shear turns neither of them. Its axes are
// those of the track at rest and turn with its two ends, in the share `axes_with_upper` with the upper one. That
// matters under preload only: a spring sheared by d under N stands in balance with moments of N d, of which this share
// acts on the upper body. A spring that is the same seen from either end shares them equally.
struct Link {
  std::string upper, lower;                // names of bodies or wheelsets
  double x = 0.0, y = 0.0, z = 0.0;        // m
  std::array<LinkDirection, 3> along = {}; // x, y, z
  std::array<LinkTurning, 3> about = {};   // x, y, z
  double axes_with_upper = 0.5;            // -, 0 to 1
  [[nodiscard]] friend bool operator==(const Link&, const Link&) = default;
};
constexpr auto ranges(const Link*) {
  return std::array{InRange{&Link::x, "x", "m", -200, 50}, InRange{&Link::y, "y", "m", -3, 3},
                    InRange{&Link::z, "z", "m", -1, 6}, InRange{&Link::axes_with_upper, "axes_with_upper", "-", 0, 1}};
}

struct SpatialVehicle {
  std::string name;
  std::vector<RigidBody> bodies;
  std::vector<Wheelset> wheelsets; // leading first
  std::vector<Link> links;
  std::string source;
  [[nodiscard]] friend bool operator==(const SpatialVehicle&, const SpatialVehicle&) = default;
};

} // namespace wingnose::vehicle::space
