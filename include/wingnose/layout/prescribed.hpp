// Excitations that are prescribed instead of rolled: a dipped joint, a given path. SI; frame.hpp.
#pragma once

#include "wingnose/words/names.hpp"
#include "wingnose/words/range.hpp"

#include <array>
#include <vector>

namespace wingnose::layout {

struct DippedJoint {
  enum class Shape { kink, quadratic, sine };
  double dip_angle;          // rad, total (sum of both ramps), > 0
  double half_length = 10.0; // m, ramp length each side; for kink it may exceed the window ("endless kink")
  Shape shape = Shape::kink;
  double at = 0.0; // m, station of the joint
  [[nodiscard]] friend bool operator==(const DippedJoint&, const DippedJoint&) = default;
};
constexpr auto ranges(const DippedJoint*) {
  return std::array{InRange{&DippedJoint::dip_angle, "dip_angle", "rad", 1e-5, 0.1},
                    InRange{&DippedJoint::half_length, "half_length", "m", 0.01, 100},
                    InRange{&DippedJoint::at, "at", "m", -10, 10}};
}
constexpr auto names(DippedJoint::Shape) {
  return std::array{Name{DippedJoint::Shape::kink, "kink", "two straight ramps"},
                    Name{DippedJoint::Shape::quadratic, "quadratic", "two parabolas that steepen towards the joint"},
                    Name{DippedJoint::Shape::sine, "sine", "quarters of a sine, steep over more of their length"}};
}

struct GivenPath {
  std::vector<double> station, height; // m; joined by straight lines; landing = largest slope change
  [[nodiscard]] friend bool operator==(const GivenPath&, const GivenPath&) = default;
};

} // namespace wingnose::layout
