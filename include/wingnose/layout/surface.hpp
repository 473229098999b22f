// A crossing as a set of named bodies (wing rail, nose), each a running surface that changes along the route.
//
// A body is described along its own running edge: edge(x) is the lateral position of the edge that follows the
// flangeway (wing) or the gauge line (nose), and eta >= 0 is the distance from that edge across the body, away from it.
// Interpolating along eta instead of fixed y keeps slopes true on bodies that run out at 1:N. Frame and units:
// wingnose/words/frame.hpp.
#pragma once

#include "wingnose/layout/generated_nose.hpp"
#include "wingnose/layout/generated_wing.hpp"
#include "wingnose/layout/generator.hpp"
#include "wingnose/layout/lofted_body.hpp"
#include "wingnose/layout/plain_rail.hpp"
#include "wingnose/layout/role.hpp"
#include "wingnose/layout/sections.hpp"
#include "wingnose/layout/surface_point.hpp"

#include <string>
#include <variant>
#include <vector>

namespace wingnose::layout {

// Every body type offers (all const, no allocation):
//   double x_begin() const, x_end() const;          stations between which the body exists (m)
//   double edge(double x) const;                    y of the running edge (m)
//   double width(double x) const;                   usable extent in eta (m), > 0
//   double side() const;                            +1 when y grows with eta, -1 when it falls
//   double height(double x, double eta) const;      z (m)
//   SurfacePoint at(double x, double eta) const;
//   std::vector<double> kinks() const;              stations where slopes in x change within millimetres (m)
//   Slice slice(double x) const;                    the section at one station, prepared for many evaluations:
//                                                   edge, width, height(eta), at(eta)
// x is clamped to [x_begin, x_end], eta to [0, width].
using Surface = std::variant<GeneratedWing, GeneratedNose, LoftedBody, PlainRail>;

struct Body {
  std::string name; // as it is told: "wing", "nose"
  Role role;
  Side side;
  Surface surface;
};

// The running edge in plan, in steps of 10 mm between two stations (m) as far as the body lies there.
struct Edge {
  std::vector<double> x, y; // m
};
[[nodiscard]] Edge running_edge(const Body& body, double from, double to);

struct Crossing {
  std::string name;
  double rate;  // N of 1:N (right-angle method, cotangent of the crossing angle)
  double gauge; // m
  std::vector<Body> bodies;
  Findings findings = {}; // of how its surfaces were made from what was measured
  // Nose thickness between the two gauge lines at station x (m); 0 ahead of the theoretical point.
  [[nodiscard]] double nose_thickness(double x) const { return x > 0.0 ? x / rate : 0.0; }
};

[[nodiscard]] Crossing generate(const CrossingShape& shape); // throws InputError on impossible shapes
[[nodiscard]] Crossing from_sections(const SectionedShape& shape);
[[nodiscard]] Body plain_rail(const profile::RailHead& rail); // of the crossing's side, named as the head

} // namespace wingnose::layout
