// Where a wheel meets a body: the first touch, the gap across the track after the wheel's circle has been laid over the
// surface, and the patches in which it is closed. Frame: wingnose/words/frame.hpp. SI.
#pragma once

#include <array>
#include <cstddef>
#include <limits>
#include <span>

namespace wingnose::contact {

// A wheel at its place. Its taping circle touches the plane z = height at (station, lateral); roll and yaw turn the
// wheel about that point. Small angles: terms of second order in roll are dropped, those in yaw are kept. For a body of
// the opposite side lateral, roll and yaw are counted outward as its surface is (layout/role.hpp).
struct WheelPlace {
  double station = 0.0; // m, x of the axle
  double lateral = 0.0; // m, y of the taping line from the track centre line (taping_line_y + shift of the wheelset)
  double roll = 0.0;    // rad, positive lifts the field side of the wheel; |roll| <= 0.1
  double yaw = 0.0;     // rad, positive turns the wheel from x towards y; |yaw| <= 0.1
  double height = std::numeric_limits<double>::infinity(); // m, of the taping circle's bottom; infinite: above all
};

// Where a wheel that comes down on a body touches it first. Where it cannot touch, height is -infinity and all else
// NaN.
//
// Curvatures are what a Hertz contact needs. Along the track: the wheel's circle in the plane of the contact normal,
// less the upward bend of the body along its contact line. Across: the curvature of the parabola that encloses as much
// closed width as the true gap does at a closing depth of 55 um, not below 0.5 1/m; it equals the sum of the local
// curvatures inside one arc and stays continuous where the contact moves to another place.
struct Touch {
  double height = -std::numeric_limits<double>::infinity();     // m, of the taping circle's bottom over z = 0
  double contact_y = std::numeric_limits<double>::quiet_NaN();  // m, from the track centre line
  double contact_dx = std::numeric_limits<double>::quiet_NaN(); // m, ahead (+x) of the axle
  double wheel_y = std::numeric_limits<double>::quiet_NaN();    // m, on the wheel, from its taping line
  double angle = std::numeric_limits<double>::quiet_NaN();      // rad, slope of the common tangent in the cross-section
  double curvature_x = std::numeric_limits<double>::quiet_NaN();       // 1/m, relative, along, > 0
  double curvature_y = std::numeric_limits<double>::quiet_NaN();       // 1/m, relative, across, >= 0.5
  double local_curvature_y = std::numeric_limits<double>::quiet_NaN(); // 1/m, sum of the local ones, may be negative
};

// Gap between wheel and body over the lateral coordinate: at each place the smallest vertical distance over the length
// of the wheel's circle (the rolling envelope), with the taping circle's bottom at z = 0. Lifting the wheel by h adds h
// everywhere. Filled by look(); reuse one per thread, nothing is allocated.
struct GapLine {
  static constexpr std::size_t capacity = 1024;
  int count = 0;            // columns used; 0 where the wheel is not over the body
  double first_y = 0.0;     // m, y of the first column
  double spacing = 1.0;     // m, between columns, > 0
  double wheel_first = 0.0; // m, the wheel's own coordinate of the first column, from its taping line
  double level = -std::numeric_limits<double>::infinity(); // m, height of the taping circle's bottom at first touch
  int top = 0;                                             // column of first touch
  std::array<double, capacity> gap;                        // m, vertical
  std::array<double, capacity> dx;                         // m, touching point ahead of the axle
  std::array<double, capacity> slope;                      // -, dz/dy of the wheel's surface (common at contact)
  std::array<double, capacity> curvature_x; // 1/m, relative, along the track in the plane of the normal, > 0
  std::array<double, capacity> radius;      // m, of the wheel's circle there
  [[nodiscard]] double y(double column) const { return first_y + spacing * column; }
};

// One interval in which the undeformed shapes overlap, told by its deepest point.
struct ContactPatch {
  double y = 0.0;                 // m, deepest point, from the track centre line
  double dx = 0.0;                // m, deepest point ahead of the axle
  double wheel_y = 0.0;           // m, on the wheel, from its taping line
  double angle = 0.0;             // rad, contact angle: slope of the common tangent in the cross-section
  double approach = 0.0;          // m, normal to the surface, > 0
  double curvature_x = 0.0;       // 1/m, relative, at the deepest point
  double from = 0.0, to = 0.0;    // m, y between which the shapes overlap
  double change_of_angle = 0.0;   // rad, largest difference of the contact angle inside the overlap
  int first_column = 0, last = 0; // columns of the gap line
};

// Fixed capacity; a wheel over a crossing body shows one or two patches.
struct Patches {
  static constexpr std::size_t capacity = 8;
  int count = 0;
  bool complete = true; // false when more patches were found than fit; the deepest ones are kept
  std::array<ContactPatch, capacity> patch;
  [[nodiscard]] std::span<const ContactPatch> list() const& { return {patch.data(), static_cast<std::size_t>(count)}; }
  void list() && = delete; // the span would outlive what it shows
};

// Patches of a wheel whose taping circle's bottom lies at `height` (m), from one field of the overlap to the other.
[[nodiscard]] Patches find_patches(const GapLine& line, double height);

// A region of overlap told by means weighted with the penetration, which move smoothly where the deepest point jumps:
// the weighted slopes of wheel and body are the same number where a region is closed at both ends, so the mean normal
// passes through the axle and no torque about it appears. A piece of an interval ends at a saddle whose penetration is
// below half of the smaller peak beside it, or between peaks whose contact angles differ by more than 0.15 rad.
struct Region {
  double from = 0.0, to = 0.0; // m, y between which the shapes overlap
  double y = 0.0;              // m, mean place from the track centre line
  double wheel_y = 0.0;        // m, mean place on the wheel, from its taping line
  double dx = 0.0;             // m, mean place ahead of the axle (rolling angle times radius)
  double slope = 0.0;          // -, mean slope of the wheel's surface
  double radius = 0.0;         // m, mean rolling radius
  double penetration = 0.0;    // m, largest, vertical, > 0
  double area = 0.0;           // m2, integral of the penetration over y
  double half_width = 0.0;     // m, 3/4 area / penetration: exact for a parabola
  double A = 0.0;              // 1/m, cosine of the mean angle over twice the radius: half the curvature along
};
struct Regions {
  static constexpr std::size_t capacity = 8;
  int count = 0;
  bool complete = true; // false when more regions were found than fit; those of the largest area are kept
  std::array<Region, capacity> region;
  [[nodiscard]] std::span<const Region> list() const& { return {region.data(), static_cast<std::size_t>(count)}; }
  void list() && = delete; // the span would outlive what it shows
};
[[nodiscard]] Regions find_regions(const GapLine& line, double height);

} // namespace wingnose::contact
