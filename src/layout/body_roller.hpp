// Rolling envelope of one wheel on one body: lateral contact tabulated along the body, then the wheel's circle is laid
// over that table around each axle station.
//
// The wheel circle at lateral place y has radius R = R0 + wheel.height(y). Taking it at the lateral contact of the
// section touched, instead of maximising over both coordinates at once, errs by (slope * xi^2 / 2 R^2)^2 * (lateral
// radius) / 2, below 1e-9 m for running contacts (shown by a test against a two-dimensional search).
//
// Yaw turns the circle with the wheel: a section `xi` ahead of the axle is met by the wheel's section shifted by yaw xi
// and lowered by the turned circle (YawedSection). The table is that of the wheel without yaw, corrected to first
// order (`tilt_`); it only says where to look, the height comes from the section touched.
#pragma once

#include "lateral_search.hpp"
#include "wingnose/layout/path.hpp"

#include <vector>

namespace wingnose::layout {

// The row of a BodyPath at one station.
struct Touch {
  double height = -std::numeric_limits<double>::infinity();
  double contact_y = std::numeric_limits<double>::quiet_NaN();
  double contact_dx = contact_y, wheel_y = contact_y, angle = contact_y, curvature_x = contact_y,
         curvature_y = contact_y;
};

// How far ahead of and behind the axle a contact is looked for (m): the wheel has risen 3.5 mm there.
inline constexpr double reach = 0.057;

class BodyRoller {
public:
  // Tabulates stations [options.from - reach, options.to + reach] where the body exists, about options.pitch apart.
  BodyRoller(const Surface& surface, const PlacedWheel& wheel, const PathOptions& options);

  [[nodiscard]] Touch touch(double x) const;

private:
  [[nodiscard]] double circle(double level, double radius, double xi) const; // level the axle's station sees
  [[nodiscard]] double tabled(std::size_t k, double xi) const;               // the same of a table station
  [[nodiscard]] bool continuous(std::size_t k) const;
  [[nodiscard]] double refine_offset(std::size_t k, double x) const;
  [[nodiscard]] double search_offset(double low, double high, double x) const;
  [[nodiscard]] double level_exact(double at, double xi) const;
  [[nodiscard]] double lateral_curvature(double at) const;

  const Surface* surface_;
  const PlacedWheel* wheel_;
  double radius_, yaw_, begin_ = 0.0, step_ = 1.0;
  std::vector<double> level_, y_, local_radius_;
  std::vector<double> tilt_;      // -, what yaw takes from the level per metre ahead of the axle
  std::vector<double> curvature_; // 1/m, effective lateral, at every `curvature_stride`-th table station and the last
};

} // namespace wingnose::layout
