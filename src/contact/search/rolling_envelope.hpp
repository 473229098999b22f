// Rolling envelope of one wheel, held in one attitude, over one body: lateral contact tabulated along the body, then
// the wheel's circle is laid over that table around each axle station. Where on the body the wheel touches first is
// found here and nowhere else.
//
// The wheel circle at lateral place y has radius R = R0 + wheel.height(y). Taking it at the lateral contact of the
// section touched, instead of maximising over both coordinates at once, errs by (slope * xi^2 / 2 R^2)^2 * (lateral
// radius) / 2, below 1e-9 m for running contacts (shown by a test against a two-dimensional search).
//
// Yaw turns the circle with the wheel: a section `xi` ahead of the axle is met by the wheel's section shifted by yaw xi
// and lowered by the turned circle (YawedSection). The table is that of the wheel without yaw, corrected to first
// order (`tilt_`); it only says where to look, the height comes from the section touched.
#pragma once

#include "section.hpp"

#include "wingnose/contact/search/held_wheel.hpp"
#include "wingnose/layout/surface.hpp"

#include <cstddef>
#include <vector>

namespace wingnose::contact {

class RollingEnvelope {
public:
  // Tabulates the stations of the stretch, and as far beyond as a wheel reaches, where the body exists. Surface and
  // wheel have to outlive the envelope.
  RollingEnvelope(const layout::Surface& surface, const SampledWheel& wheel, double yaw, const Stretch& stretch);

  // Nothing is allocated.
  [[nodiscard]] Touch touch(double x) const;
  [[nodiscard]] const layout::Surface& surface() const { return *surface_; }
  [[nodiscard]] const SampledWheel& wheel() const { return *wheel_; }
  [[nodiscard]] double yaw() const { return yaw_; }

private:
  template <class Body> void tabulate(const Body& body);
  template <class Body> void tabulate_curvature(const Body& body);
  [[nodiscard]] double tabled(std::size_t k, double xi) const; // level the axle's station sees of a table station
  [[nodiscard]] bool continuous(std::size_t k) const;
  [[nodiscard]] double refine_offset(std::size_t k, double x) const;
  [[nodiscard]] double search_offset(double low, double high, double x) const;
  [[nodiscard]] double level_exact(double at, double xi) const;
  [[nodiscard]] double lateral_curvature(double at) const;
  void consider(std::size_t k, double x, Touch& touch) const; // the touch near a table station, if it is higher

  const layout::Surface* surface_;
  const SampledWheel* wheel_;
  double yaw_, begin_ = 0.0, step_ = 1.0;
  std::vector<double> level_, y_, local_radius_;
  std::size_t first_ = 0, last_ = 0; // rows between which the wheel finds the body
  std::vector<double> tilt_;         // -, what yaw takes from the level per metre ahead of the axle
  std::vector<double> curvature_; // 1/m, effective lateral, at every `curvature_stride`-th table station and the last
};

} // namespace wingnose::contact
