// The search for contact: one wheel, placed by station, lateral position, height, roll and yaw, against one body of the
// track, gives where it touches first, the gap across, and the patches in which it is closed.
//
// Where the wheel touches first is found by its rolling envelope over the body's own surface (exact sections, nothing
// tabulated between). The gap across is read about that place: at every column of the wheel three sections, 5 mm apart,
// give the parabola along the track over which the wheel's circle lies. So a path of the wheel (contact/path), the laws
// and patches along it, and contact searched at every step of a passage all rest on the same search.
//
// Yaw turns the circle: the touching point of an inclined contact moves ahead by R yaw tan(angle). Of second order in
// roll nothing is kept. Frame: wingnose/words/frame.hpp; SI.
#pragma once

#include "wingnose/contact/search/patches.hpp"
#include "wingnose/layout/surface.hpp"
#include "wingnose/profile/wheel.hpp"

#include <vector>

namespace wingnose::contact {

inline constexpr double column_spacing = 0.00025; // m, a patch on a 5 mm edge is six columns wide

// A wheel as a surface of revolution, its profile on columns of equal spacing.
class WheelSurface {
public:
  // Throws InputError for a radius (m) out of range and for a spacing (m) out of range or too fine for a gap line.
  WheelSurface(const profile::WheelProfile& wheel, double radius, double spacing = column_spacing);

  [[nodiscard]] const profile::WheelProfile& profile() const { return profile_; }
  [[nodiscard]] double radius() const { return radius_; }   // m, at the taping line
  [[nodiscard]] double front() const { return front_; }     // m, first column from the taping line
  [[nodiscard]] double spacing() const { return spacing_; } // m
  [[nodiscard]] int columns() const { return static_cast<int>(height_.size()); }
  [[nodiscard]] const std::vector<double>& height() const { return height_; }
  [[nodiscard]] const std::vector<double>& slope() const { return slope_; }   // -, d height / dy
  [[nodiscard]] const std::vector<double>& second() const { return second_; } // 1/m, second derivative of height

private:
  profile::WheelProfile profile_;
  double radius_, front_, spacing_;
  std::vector<double> height_, slope_, second_;
};

// What the search finds. Reuse one per thread.
struct Look {
  GapLine gap;
  Patches patches; // in which the wheel at its height closes the gap, the deepest point of each
  Regions regions; // the same as regions with means over the penetration
};

// A body is met within the wheel's reach of the axle only; where it ends there it is met at its end. No columns where
// the wheel does not meet it. Throws InputError on a place that is not finite or an angle beyond 0.1 rad.
void look(const WheelSurface& wheel, const layout::Body& body, const WheelPlace& place, Look& found);
void look(const WheelSurface& wheel, const layout::Body& body, const WheelPlace& place, GapLine& gap);

// The same where the last look at a neighbouring place says how far ahead of the axle the wheel touches (m): only what
// lies about there along the track is looked at, all of it across, and the level of first touch is that of the columns,
// within 0.15 um. Some ninety times quicker, for steps in time; nothing is allocated. Where the place has a height,
// only columns about those closed there are read.
void look_near(const WheelSurface& wheel, const layout::Body& body, const WheelPlace& place, double ahead,
               GapLine& gap);

} // namespace wingnose::contact
