// Where a wheel meets a body: the gap across the track after the wheel's circle has been laid over the surface, and the
// patches in which it is closed. Frame: wingnose/words/frame.hpp. SI.
#pragma once

#include <array>
#include <cstddef>
#include <limits>
#include <span>

namespace wingnose::contact {

// A wheel at its place. Its taping circle touches the plane z = height at (station, lateral); roll and yaw turn the
// wheel about that point. Small angles: terms of second order in roll are dropped, those in yaw are kept.
struct WheelPlace {
  double station = 0.0; // m, x of the axle
  double lateral = 0.0; // m, y of the taping line from the track centre line (taping_line_y + shift of the wheelset)
  double roll = 0.0;    // rad, positive lifts the field side of the wheel; |roll| <= 0.1
  double yaw = 0.0;     // rad, positive turns the wheel from x towards y; |yaw| <= 0.1
};

// Gap between wheel and body over the lateral coordinate: at each place the smallest vertical distance over the length
// of the wheel's circle (the rolling envelope), with the taping circle's bottom at z = 0. Lifting the wheel by h adds h
// everywhere. Filled by gap_line(); reuse one per thread, nothing is allocated.
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
  std::array<double, capacity> curvature_y; // 1/m, sum of the fitted local curvatures across, negative if hollow
  [[nodiscard]] double y(double column) const { return first_y + spacing * column; }
};

// One region in which the undeformed shapes overlap.
struct ContactPatch {
  double y = 0.0;                 // m, deepest point, from the track centre line
  double dx = 0.0;                // m, deepest point ahead of the axle
  double wheel_y = 0.0;           // m, on the wheel, from its taping line
  double angle = 0.0;             // rad, contact angle: slope of the common tangent in the cross-section
  double approach = 0.0;          // m, normal to the surface, > 0
  double curvature_x = 0.0;       // 1/m, relative, at the deepest point
  double curvature_y = 0.0;       // 1/m, sum of the fitted local curvatures there (may be negative in a conformal pair)
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
  [[nodiscard]] std::span<const ContactPatch> list() const { return {patch.data(), static_cast<std::size_t>(count)}; }
};

// Patches of a wheel whose taping circle's bottom lies at `height` (m), from one field of the overlap to the other.
[[nodiscard]] Patches find_patches(const GapLine& line, double height);

} // namespace wingnose::contact
