// One measured section made smooth and resampled along its arc from the running edge.
#pragma once

#include "wingnose/layout/lofted_body.hpp"
#include "wingnose/layout/sections.hpp"
#include "wingnose/numeric/smoothing_spline.hpp"

#include <span>
#include <string>

namespace wingnose::layout {

// A section as a smooth curve over arc length, from the running edge (where the face turns into the head) across.
class SmoothSection {
public:
  // where: names the section in messages. Points may run either way across; y grows from the edge for both bodies.
  // Throws InputError when points repeat or double back.
  SmoothSection(const Section& section, double noise, const std::string& where);

  [[nodiscard]] double length() const { return to_ - from_; } // m, arc length of the running surface
  [[nodiscard]] double edge() const;                          // m, y of the running edge

  // Resampled at arc s(t) = matched t from the edge for t <= 0.6, stretched beyond to end at the section's own length.
  // With matched = length this is the fraction of the arc; with one `matched` for all stations the points near the
  // edge lie at equal distances from it, however far across each section was measured.
  [[nodiscard]] LoftedBody::Curve resampled(double matched) const;
  // Resampled between marks (m of arc from the edge, from 0 to length): nodes[k] points evenly spread from mark k to
  // mark k + 1, both included, so that a mark between two stretches is there twice, with the derivative of each. The
  // nodes add up to LoftedBody::points.
  [[nodiscard]] LoftedBody::Curve resampled(std::span<const double> marks, std::span<const std::size_t> nodes) const;

  [[nodiscard]] double height(double arc) const; // m, at m of arc from the edge
  [[nodiscard]] double pitch() const;            // m, mean distance of the points it is made of
  [[nodiscard]] double angle(double arc) const;  // rad, of the tangent above the horizontal

private:
  // Point j of a curve at s, with s_t = ds/dt; start: y of the edge.
  void put(LoftedBody::Curve& c, std::size_t j, double s, double s_t, double start) const;
  [[nodiscard]] double steepness(double s) const; // rad, angle of the tangent above the horizontal
  numeric::SmoothingSpline y_, z_;
  double from_ = 0.0, to_ = 0.0;
};

} // namespace wingnose::layout
