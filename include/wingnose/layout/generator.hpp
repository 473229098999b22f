// Parametric common (acute) crossing: wing rail and nose from the few numbers a drawing states.
// Frame and units: wingnose/words/frame.hpp. Defaults are a plausible 1:15 crossing, cast, with a flat machined wing
// head.
#pragma once

#include "wingnose/layout/sections.hpp"
#include "wingnose/profile/curve.hpp"
#include "wingnose/words/range.hpp"

#include <string>
#include <vector>

namespace wingnose::layout {

// A smooth addition to a running surface (wear, plastic flow: depth > 0 removes; weld repair: depth < 0 adds), C2 in
// both directions.
struct Modifier {
  std::string body;   // "wing" or "nose"
  double station;     // m, centre
  double length;      // m, full length along x
  double depth;       // m, > 0 removes
  double eta = 0.0;   // m, centre across, from the running edge; with width = 0 the whole width
  double width = 0.0; // m, full width across, 0 = all
  [[nodiscard]] friend bool operator==(const Modifier&, const Modifier&) = default;
};
constexpr auto ranges(const Modifier*) {
  return std::array{InRange{&Modifier::station, "station", "m", -100, 100},
                    InRange{&Modifier::length, "length", "m", 0.010, 20}, // shorter ones would be steps
                    InRange{&Modifier::depth, "depth", "m", -0.020, 0.020}, InRange{&Modifier::eta, "eta", "m", 0, 0.3},
                    InRange{&Modifier::width, "width", "m", 0, 0.5}};
}

struct CrossingShape {
  std::string name = "common crossing";
  double rate = 15.0;                       // N of 1:N, right-angle method, 4 .. 60
  double gauge = 1.435;                     // m
  double flangeway = 0.044;                 // m
  double wing_knuckle_radius = 8.0;         // m, rounding of the knuckle in plan
  double wing_run = 0.0;                    // m, length of wing behind the knuckle; 0 = until the nose is 76 mm thick
  double wing_edge_radius = 0.010;          // m, rounding of the running edge
  double wing_cross_slope = 0.0;            // -, dz/dy of the wing head, negative falls to the field side
  std::string wing_head = "flat";           // "flat", or a rail head name ("60E1")
  double wing_inclination = 0.0;            // rad, only for a sectioned head
  double wing_lift = 0.0;                   // m
  double wing_lift_begin = 0.0;             // m, station where the lift starts
  double wing_lift_run = 0.5;               // m, length over which it is reached
  double nose_point_thickness = 0.010;      // m, thickness between gauge lines where the nose begins
  double nose_start_depth = 0.006;          // m, highest point of the nose below z = 0 at the start of the ramp
  double nose_ramp_end_thickness = 0.045;   // m, thickness where the ramp ends
  double nose_ramp_start_thickness = 0.010; // m
  double nose_ramp_rounding = 0.20; // m, length over which the ramp ends are rounded (at most the length of the ramp)
  double nose_setback = 0.003;      // m, faces behind the gauge lines
  double nose_shoulder_radius = 0.016; // m
  double nose_crown_radius = 0.200;    // m
  double nose_length = 6.0;            // m, modelled length behind the theoretical point
  std::vector<Modifier> modifiers;
  double wing_begin = -6.0; // m, station where the modelled run-in (plain rail in front of the knuckle) begins
  double wing_run_in_edge_radius = 0.016; // m, rounding of the edge on the run-in; fades into wing_edge_radius
  double nose_ramp_end_depth = 0.001;     // m, highest point below z = 0 at the end of the ramp
  double nose_full_thickness = 0.085;     // m, thickness where the rest of the height is reached
  double wing_crown_radius = 0.200;       // m, crown of the run-in head; 0 = flat from the start
  double wing_flat_offset = 0.040;        // m, run-out of the edge at which the crown has faded into the flat head
  double crown_place = 0.039; // m, highest line of run-in and full nose from the gauge line (S1002 touches near
                              // its taping line)
  double head_width = 0.072;  // m, head used for running, wing and nose behind its widening
  [[nodiscard]] friend bool operator==(const CrossingShape&, const CrossingShape&) = default;
};
constexpr auto ranges(const CrossingShape*) {
  using S = CrossingShape;
  return std::array{InRange{&S::rate, "rate", "-", 4, 60},
                    InRange{&S::gauge, "gauge", "m", 1.425, 1.470}, // the wheels are those of standard gauge
                    InRange{&S::flangeway, "flangeway", "m", 0.020, 0.120},
                    InRange{&S::wing_knuckle_radius, "wing_knuckle_radius", "m", 0.01, 200},
                    InRange{&S::wing_run, "wing_run", "m", 0, 20}, // 0, or at least 0.1
                    InRange{&S::wing_edge_radius, "wing_edge_radius", "m", 0.001, 0.030},
                    InRange{&S::wing_cross_slope, "wing_cross_slope", "-", -0.2, 0.2},
                    InRange{&S::wing_inclination, "wing_inclination", "rad", -0.1, 0.1},
                    InRange{&S::wing_lift, "wing_lift", "m", -0.020, 0.020},
                    InRange{&S::wing_lift_begin, "wing_lift_begin", "m", -5, 5},
                    InRange{&S::wing_lift_run, "wing_lift_run", "m", 0.02, 10},
                    InRange{&S::nose_point_thickness, "nose_point_thickness", "m", 0.001, 0.1},
                    InRange{&S::nose_start_depth, "nose_start_depth", "m", 0, 0.030},
                    InRange{&S::nose_ramp_end_thickness, "nose_ramp_end_thickness", "m", 0.005, 0.3},
                    InRange{&S::nose_ramp_start_thickness, "nose_ramp_start_thickness", "m", 0, 0.1},
                    InRange{&S::nose_ramp_rounding, "nose_ramp_rounding", "m", 0.001, 5},
                    InRange{&S::nose_setback, "nose_setback", "m", 0, 0.010},
                    InRange{&S::nose_shoulder_radius, "nose_shoulder_radius", "m", 0.002, 0.030},
                    InRange{&S::nose_crown_radius, "nose_crown_radius", "m", 0.050, 100},
                    InRange{&S::nose_length, "nose_length", "m", 0.1, 100},
                    InRange{&S::wing_begin, "wing_begin", "m", -50, -0.1},
                    InRange{&S::wing_run_in_edge_radius, "wing_run_in_edge_radius", "m", 0.001, 0.030},
                    InRange{&S::nose_ramp_end_depth, "nose_ramp_end_depth", "m", 0, 0.030},
                    InRange{&S::nose_full_thickness, "nose_full_thickness", "m", 0.005, 0.5},
                    InRange{&S::wing_crown_radius, "wing_crown_radius", "m", 0, 100}, // 0, or at least 0.05
                    InRange{&S::wing_flat_offset, "wing_flat_offset", "m", 0.005, 0.2},
                    InRange{&S::crown_place, "crown_place", "m", 0.005, 0.120},
                    InRange{&S::head_width, "head_width", "m", 0.030, 0.120}};
}
// Throws InputError: a value out of its range, a Contradiction between two, more than sixteen modifiers on a body.
void check(const CrossingShape& shape);

class GeneratedWing; // generated_wing.hpp; see surface.hpp for what every body offers
class GeneratedNose; // generated_nose.hpp

} // namespace wingnose::layout
