// Numbers that more than one room relies on, each with where it comes from. Gauge, gravity and the place of the wheels
// stand with the frame (frame.hpp). A number that only one file needs stands there. SI.
#pragma once

#include "wingnose/words/frame.hpp"
#include "wingnose/words/range.hpp"

namespace wingnose {

// Where the gauge of a track is measured, below the top of the rail (m): EN 13848-1.
inline constexpr double gauge_depth = 0.014;

// How far ahead of and behind its axle a wheel may touch (m): chosen; a wheel of 0.46 m radius has risen 3.5 mm there,
// which a slope of 1:8 would take. Tables of bodies and stretches of track reach as far beyond the axle's stations.
inline constexpr double wheel_reach = 0.057;

// Rolling radius of a wheel that can be meant (m): common practice, no source; a tram of small wheels to a locomotive.
inline constexpr Range wheel_radius_range{0.15, 1.0};

// Where the flange begins on the wheel, from its taping line (m): EN 13715, S1002, whose 13 mm flange root (zone D)
// ends there.
inline constexpr double flange_begin = -0.035;

// Depth to which undeformed shapes are laid into each other to read the width of a contact (m): 0.55 of a 100 um
// approach, the share Kik and Piotrowski (1996) found to reproduce the width of Hertz contacts; 100 um is the approach
// of about 100 kN on a rail head.
inline constexpr double closing_depth = 55e-6;

// A contact flatter across than this (1/m) has no Hertz ellipse of use: chosen, a radius of 2 m.
inline constexpr double least_lateral_curvature = 0.5;
// Along the track, of the wheel's own curvature, where a hollow body nearly wraps it: chosen.
inline constexpr double least_longitudinal_share = 0.2;

// Change of the contact angle inside a patch (rad) above which one half-space no longer stands for both bodies: our own
// comparison of strips and half-space solutions where a rail's corner is touched; pressures are estimates beyond.
inline constexpr double stretched_angle = 0.15;

} // namespace wingnose
