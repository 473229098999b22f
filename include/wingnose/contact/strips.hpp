// Non-elliptic normal contact by strips, an estimate for conformal, merging and split patches on one body.
//
// The undeformed shapes are laid into each other by a share of the approach (virtual penetration: Kik and Piotrowski
// 1996; Piotrowski and Kik 2008). The overlap is cut into strips along the rolling direction; every strip carries a
// half-ellipse of pressure over its length. Share and strip lengths are those that turn an elliptic gap into Hertz's
// ellipse (the correction of the strip's shape after Ayasse and Chollet 2005), found from the parabola that encloses
// the same overlap. One scale of pressure is left; it follows from the displacements: weighted by the load, the elastic
// displacement of the half-spaces along the strips' middles equals the approach less the gap. Kik and Piotrowski ask
// this of the deepest point alone, which jumps from one patch to another; the weighted condition does not, and patches
// side by side soften one another as they do in reality. Patches more than two centimetres apart are laid in by their
// own approach each; normals follow the surface (Piotrowski and Kik 2008). Below an approach of 10 um, where columns no
// longer show the width, the law goes on as Hertz's does.
//
// The force is good (see the deviations from the half-space solution in the tests), the pressure is a smooth estimate:
// it does not show the peaks where a radius changes inside the patch.
//
// Contract: force >= 0, 0 without overlap; grows with the approach; continuous while patches move, merge or split; an
// elliptic gap gives Hertz's approach within 1 %, peak pressure and semi-axes within 1.5 % (patches from eight columns
// to 25 mm wide). SI. Frame: wingnose/frame.hpp.
#pragma once

#include "wingnose/contact/hertz.hpp"
#include "wingnose/contact/patches.hpp"

#include <array>
#include <cstddef>
#include <span>

namespace wingnose::contact {

// What a normal law says about one body. Forces are those of one body on the wheel.
struct NormalContact {
  double force = 0.0;         // N, sum of the normal pressures
  double vertical = 0.0;      // N, its vertical part
  double approach = 0.0;      // m, normal to the surface at the deepest point
  double stiffness = 0.0;     // N/m, d force / d approach
  double peak_pressure = 0.0; // Pa
  double area = 0.0;          // m2
  double half_length = 0.0;   // m, along the track, of the longest strip
  double half_width = 0.0;    // m, half of the metal in contact across (all patches together)
  double y = 0.0;             // m, centre of the pressure
  double penetration = 0.0;   // m, virtual, to which the shapes were laid into each other
};

// Pressure over the width: a strip spans [y - width / 2, y + width / 2] and, along the track, dx +- half_length.
struct Strip {
  double y, width;    // m, along y
  double dx;          // m, middle of the strip ahead of the axle
  double half_length; // m
  double pressure;    // Pa, in its middle; p(x) = pressure sqrt(1 - (x / half_length)^2)
  double force;       // N
};
struct StripOutline {
  static constexpr std::size_t capacity = GapLine::capacity;
  int count = 0;
  std::array<Strip, capacity> strip;
  [[nodiscard]] std::span<const Strip> list() const { return {strip.data(), static_cast<std::size_t>(count)}; }
};

// depth: how far the wheel is below its first touch with this body (m, vertical); at or below 0 everything is zero.
// Nothing is allocated. outline, where given, receives the strips.
[[nodiscard]] NormalContact strips(const GapLine& line, double depth, const Elastic& material = {},
                                   StripOutline* outline = nullptr);

} // namespace wingnose::contact
