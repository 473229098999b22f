// The face of a check rail in plan, and where the back of a wheel meets it.
//
// The face is a polyline: at stations x, its distance `width` from the gauge face of its stock rail, a vertical wall up
// to a height over the running surface. The back of a wheel is a plane disc; below the top of the face it reaches as
// far ahead and behind the axle as its chord there. Seen from above the disc is that chord, turned by the yaw, and it
// enters the face by the difference of two lines: deepest at an end of the chord or at a kink of the face, so that the
// first contact has a closed form.
//
// Frame: x as in words/frame.hpp; widths as in turnout.hpp, from the stock rail towards the track's middle.
#pragma once

#include "wingnose/layout/role.hpp"
#include "wingnose/layout/turnout/functional.hpp"
#include "wingnose/words/frame.hpp"

#include <optional>
#include <string>
#include <vector>

namespace wingnose::layout::turnout {

struct CheckFace {
  std::vector<double> x, width; // m, x ascending, two points at least
  double top;                   // m, over the running surface
  [[nodiscard]] double begin() const { return x.front(); }
  [[nodiscard]] double end() const { return x.back(); }
  [[nodiscard]] double at(double station) const; // m; none there (infinite) beyond its ends
};
// Parallel part with its flares, the face standing at `width` (m) along the parallel part.
[[nodiscard]] CheckFace check_face(const CheckRail& rail, double width);

// A check rail as what lies on the ground.
struct Guide {
  std::string name;
  Role role = Role::check;
  Side side = Side::opposite;
  CheckFace face;
};
[[nodiscard]] Guide check_rail(const Turnout& turnout, const Faces& faces);

// The back of a wheel below the top of a face.
struct BackDisc {
  double y;          // m, of its middle, as widths are
  double yaw;        // rad, + turns the end ahead towards the track's middle, away from the stock rail
  double half_chord; // m
};
// Half of the chord of a disc of radius `tip` (rolling radius and flange height) at a height over the running surface
// `rolling` (m) below its axle; 0 where it does not reach that far down.
[[nodiscard]] double half_chord(double rolling, double tip, double height);

struct Meeting {
  double axle;  // m, station of the axle
  double where; // m, station of the face
};
// How deep the disc is in the face with its axle at a station (m, negative: the distance left), and where. Nullopt
// where it is beside no part of the face.
struct Depth {
  double depth, where; // m
};
[[nodiscard]] std::optional<Depth> depth(const CheckFace& face, const BackDisc& disc, double axle);
// The first contact of a move in +x (facing) or -x with y and yaw as they are; nullopt: it passes clear. A disc that
// would run against the open end of the face meets it there.
[[nodiscard]] std::optional<Meeting> first_contact(const CheckFace& face, const BackDisc& disc,
                                                   Direction direction = Direction::facing);

} // namespace wingnose::layout::turnout
