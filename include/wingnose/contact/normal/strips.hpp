// Non-elliptic normal contact by strips, an estimate for conformal, merging and split patches on one body.
//
// The undeformed shapes are laid into each other by a share of the approach (virtual penetration: Kik and Piotrowski
// 1996; Piotrowski and Kik 2008, doi:10.1080/00423110701586444). The overlap is cut into strips along the rolling
// direction; every strip carries a half-ellipse of pressure over its length. Share and strip lengths are those that
// turn an elliptic gap into Hertz's ellipse (the correction of the strip's shape after Ayasse and Chollet 2005,
// doi:10.1080/00423110412331327193), found from the parabola that encloses the same overlap.
//
// The height of each half-ellipse is left. One scale for all strips, as those publications have it (described from
// memory), reads the peak pressure up to a third too low where a radius changes inside the patch. Here the strips are
// solved together: the elastic displacement of the half-spaces (closed form, exact for half-ellipses) closes the gap in
// the middle of every strip that carries, and no strip pulls. Where the bodies would still overlap beside the strips,
// strips are added and all are solved once more. Patches more than two centimetres apart are laid in by their own
// approach each; normals follow the surface (Piotrowski and Kik 2008). Below an approach of 10 um, where columns no
// longer show the width, the law goes on as Hertz's does.
//
// Against the half-space solution for S1002 on 60E1 at 1:40 under 90 kN, shifts of -6 to 5 mm: approach within 1 %,
// peak pressure within 2 % up to 4.5 mm (5 % at 5 mm); the area is mostly 2 %, at worst 8 % off. Along wing and nose
// the approach stays within 2 %; a peak as narrow as a strip is read up to 17 % low. Where the normal turns by more
// than 0.15 rad inside the patch all are estimates.
//
// Contract: force >= 0, 0 without overlap; grows with the approach; continuous while patches move, merge or split, but
// for steps of up to 0.3 % of the force where another column begins to count; an elliptic gap gives Hertz's approach
// within 1 %, peak pressure and half length within 1.5 %, half width within that or a quarter of a column (patches from
// eight columns to 25 mm wide). SI. Frame: wingnose/words/frame.hpp.
#pragma once

#include "wingnose/contact/normal/hertz.hpp"
#include "wingnose/contact/search/patches.hpp"
#include "wingnose/words/column.hpp"

#include <array>
#include <cstddef>
#include <span>

namespace wingnose::contact {

// What a normal law says about one body. Forces are those of one body on the wheel.
struct NormalContact {
  double force = 0.0;         // N, sum of the normal pressures
  double vertical = 0.0;      // N, its vertical part
  double approach = 0.0;      // m, normal to the surface at the deepest point
  double stiffness = 0.0;     // N/m, d force / d approach; by normal_contact(), strips() itself leaves it 0
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
inline constexpr auto strip_columns = std::to_array<Column<Strip>>(
    {{"y_mm", "y", "middle of the strip from the track centre line", &Strip::y, 2},
     {"width_mm", "width", "width across the track", &Strip::width, 3},
     {"ahead_of_axle_mm", "ahead", "middle of the strip ahead of the axle", &Strip::dx, 2},
     {"half_length_mm", "half length", "half length along the track", &Strip::half_length, 2},
     {"pressure_MPa", "pressure", "largest pressure of the strip", &Strip::pressure, 0},
     {"normal_force_N", "normal force", "normal force of the strip", &Strip::force, 0}});

struct StripOutline {
  static constexpr std::size_t capacity = GapLine::capacity;
  int count = 0;
  std::array<Strip, capacity> strip;
  [[nodiscard]] std::span<const Strip> list() const& { return {strip.data(), static_cast<std::size_t>(count)}; }
  void list() && = delete; // the span would outlive what it shows
};

// depth: how far the wheel is below its first touch with this body (m, vertical); at or below 0 everything is zero.
// Nothing is allocated. outline, where given, receives the strips.
[[nodiscard]] NormalContact strips(const GapLine& line, double depth, const Elastic& material = {},
                                   StripOutline* outline = nullptr);

} // namespace wingnose::contact
