// A turnout with a straight through route, from the numbers its drawing states: radius, rate, gauge and widening, check
// rails, flares, wear. The switch is a step of curvature (or the beginning of a transition), without blades.
//
// Widths across the track are taken at the gauge points, 14 mm below the running surface, from the gauge face of the
// stock rail opposite the crossing: check-rail face at the check flangeway, nose at the gauge, face of the wing rail
// one crossing flangeway before the nose. Stations of check and wing rail are those of the crossing frame
// (words/frame.hpp): 0 at the theoretical intersection, growing in the facing sense.
#pragma once

#include "wingnose/layout/turnout/standard.hpp"
#include "wingnose/words/range.hpp"

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace wingnose::layout::turnout {

enum class Hand { left, right };
constexpr auto names(Hand) {
  return std::array{Name{Hand::left, "left", "the diverging route turns left of a facing move"},
                    Name{Hand::right, "right", "the diverging route turns right"}};
}
enum class Way { through, diverging };
constexpr auto names(Way) { return std::array{Name{Way::through, "through"}, Name{Way::diverging, "diverging"}}; }

// Both ends of a check rail alike: a gentle flare, then a steeper end. Angles between faces and running rail.
struct CheckRail {
  std::optional<double> nose_protection; // m, check-rail face to nose; absent: 1394 mm, or what the flangeway leaves
  std::optional<double> flangeway;       // m, either of the two
  double height = 0.020;                 // m, top over the running surface
  double begin = -1.5;                   // m, station where the part parallel to the rail begins
  double length = 3.0;                   // m, of that part
  double flare_length = 1.0;             // m
  double flare = 0.015;                  // rad
  double end_flare_length = 0.15;        // m
  double end_flare = 0.100;              // rad
  double wear = 0.0;                     // m, of the face
  [[nodiscard]] friend bool operator==(const CheckRail&, const CheckRail&) = default;
};
inline constexpr Range check_flangeway_range{0.025, 0.120}; // m
inline constexpr Range nose_protection_range{1.350, 1.410}; // m
constexpr auto ranges(const CheckRail*) {
  using C = CheckRail;
  return std::array{InRange{&C::height, "check_height", "m", -0.010, 0.100},
                    InRange{&C::begin, "check_begin", "m", -30, 30},
                    InRange{&C::length, "check_length", "m", 0.1, 60},
                    InRange{&C::flare_length, "check_flare_length", "m", 0, 10},
                    InRange{&C::flare, "check_flare", "rad", 0, 0.2},
                    InRange{&C::end_flare_length, "check_end_flare_length", "m", 0, 2},
                    InRange{&C::end_flare, "check_end_flare", "rad", 0, 0.6},
                    InRange{&C::wear, "check_wear", "m", 0, 0.025}};
}

struct Crossing {
  double flangeway = 0.044;       // m, nose to wing rail, on the through route
  double flangeway_depth = 0.045; // m
  double wing_flare_length = 0.6; // m, at the end of the wing rail
  double wing_flare = 0.020;      // rad
  double wing_wear = 0.0;         // m, of the face that guides the back of a wheel
  double nose_wear = 0.0;         // m, of the nose's face, at the gauge point
  [[nodiscard]] friend bool operator==(const Crossing&, const Crossing&) = default;
};
inline constexpr Range crossing_flangeway_range{0.020, 0.120}; // m
constexpr auto ranges(const Crossing*) {
  using C = Crossing;
  return std::array{InRange{&C::flangeway_depth, "flangeway_depth", "m", 0.020, 0.100},
                    InRange{&C::wing_flare_length, "wing_flare_length", "m", 0, 10},
                    InRange{&C::wing_flare, "wing_flare", "rad", 0, 0.6},
                    InRange{&C::wing_wear, "wing_wear", "m", 0, 0.025},
                    InRange{&C::nose_wear, "nose_wear", "m", 0, 0.025}};
}

// What was measured on site counts instead of the drawing; it has all wear in it.
struct Readings {
  std::optional<double> gauge, nose_protection, check_flangeway, crossing_flangeway; // m
  [[nodiscard]] friend bool operator==(const Readings&, const Readings&) = default;
};

// Curvature of the diverging route at a station from the start of the turnout, linear between; twice the same station:
// a step.
struct CurvaturePoint {
  double station, curvature, cant; // m, 1/m, m
  [[nodiscard]] friend bool operator==(const CurvaturePoint&, const CurvaturePoint&) = default;
};

struct Turnout {
  std::string name = "turnout";
  Hand hand = Hand::left;
  double radius = 300.0;                 // m, of the centre line of the diverging route
  double rate = 9.0;                     // N of 1:N, right-angle method, at the end of the curve
  double transition = 0.0;               // m, length over which the curvature begins
  std::optional<double> end_length;      // m, meeting of the tangents to the end; absent: as long as the curve's own
  std::vector<CurvaturePoint> curvature; // instead of radius, rate and transition
  double gauge = 1.435;                  // m
  double widening = 0.0;                 // m, of the diverging route, at its inner rail
  double cant = 0.0; // m, of both routes, positive where it helps the diverging one; not where points are given
  CheckRail check_rail;
  Crossing crossing;
  Readings readings;
  [[nodiscard]] friend bool operator==(const Turnout&, const Turnout&) = default;
};
inline constexpr Range gauge_range{1.425, 1.470}; // m, the wheels are those of standard gauge
constexpr auto ranges(const Turnout*) {
  using T = Turnout;
  return std::array{InRange{&T::radius, "curve_radius", "m", 100, 20000},
                    InRange{&T::rate, "curve_rate", "-", 4, 60},
                    InRange{&T::transition, "transition", "m", 0, 200},
                    InRange{&T::gauge, "gauge", "m", gauge_range.least, gauge_range.most},
                    InRange{&T::widening, "widening", "m", 0, 0.030},
                    InRange{&T::cant, "cant", "m", -0.180, 0.180}};
}
inline constexpr Range end_length_range{1, 200};     // m
inline constexpr Range curvature_range{-0.01, 0.01}; // 1/m
// Throws InputError or Contradiction: a value out of range, a turnout that cannot be built.
void check(const Turnout& turnout);

// Whether the crossing of a way is on the left of a facing move: that of the diverging route is on the other side than
// it turns to.
[[nodiscard]] inline bool crossing_at_left(const Turnout& turnout, Way way) {
  return (turnout.hand == Hand::left) == (way == Way::through);
}

// Of a way: the diverging one is wider where the turnout is widened.
[[nodiscard]] double gauge_of(const Turnout& turnout, Way way);
[[nodiscard]] double check_flangeway_of(const Turnout& turnout, Way way); // as drawn
[[nodiscard]] double crossing_flangeway_of(const Turnout& turnout, Way way);

// A turnout of the trade, with what its numbers are worth.
struct Preset {
  std::string_view name;                           // "R300-1:9"
  double radius, rate;                             // m, -
  double widening = 0.0;                           // m
  std::optional<double> end_length = std::nullopt; // m
  double diverging_speed;                          // m/s
  Worth speed_trust;
  std::string_view note = {};
};
[[nodiscard]] std::span<const Preset> presets();
[[nodiscard]] Turnout preset(std::string_view name); // throws InputError

} // namespace wingnose::layout::turnout
