// One cross-section of a body under a wheel: where the wheel touches it, and the gap over all of it.
//
// The touching point is the maximum over y of z_body(y) + wheel.height(y), found globally from samples and then to
// rounding by safeguarded Newton steps. Everything the room knows of a wheel against a section stands here.
#pragma once

#include "wingnose/contact/search/look.hpp"
#include "wingnose/layout/surface_point.hpp"
#include "wingnose/profile/wheel.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <vector>

namespace wingnose::contact {

// Touching point of a section. level: height of the taping-circle bottom that makes the wheel touch here (m).
struct LateralContact {
  double level = -std::numeric_limits<double>::infinity();
  double y = std::numeric_limits<double>::quiet_NaN();
  [[nodiscard]] bool found() const { return std::isfinite(level); }
};

// A wheel at its lateral place. Rolled about its taping point to first order: height(s) = h(s - roll h(s)) - roll s.
class PlacedWheel {
public:
  // The surface has to outlive it.
  PlacedWheel(const WheelSurface& wheel, double tape, double roll = 0.0);

  [[nodiscard]] const WheelSurface& surface() const { return *wheel_; }
  [[nodiscard]] double radius() const { return wheel_->radius(); } // m, at the taping line
  [[nodiscard]] double low() const { return low_; }
  [[nodiscard]] double high() const { return high_; }
  [[nodiscard]] double tape() const { return tape_; }
  [[nodiscard]] double roll() const { return roll_; }
  [[nodiscard]] double height(double y) const;
  [[nodiscard]] profile::CurvePoint at(double y) const;
  // Of the profile itself at the place of the wheel that lies at y: adds to the radius (m).
  [[nodiscard]] double profile_height(double y) const;

private:
  const WheelSurface* wheel_;
  double tape_, roll_, low_, high_;
};

// The same, sampled for the coarse part of global searches.
class SampledWheel : public PlacedWheel {
public:
  static constexpr double sample_spacing = 0.0010; // m
  explicit SampledWheel(const PlacedWheel& wheel);
  [[nodiscard]] std::size_t samples() const { return y_.size(); }
  [[nodiscard]] double sample(std::size_t i) const { return y_[i]; }
  [[nodiscard]] double sample_height(std::size_t i) const { return height_[i]; }
  // Heights at `between` equal steps from each sample to the next, the last of which is the next.
  static constexpr int between = 10;
  [[nodiscard]] double fine_height(std::size_t i, int step) const {
    return fine_[static_cast<std::size_t>(between) * i + static_cast<std::size_t>(step)];
  }

private:
  std::vector<double> y_, height_, fine_;
};

// The section of a yawed wheel that a track section `ahead` of the axle meets: shifted by yaw * ahead, and lower by
// what the circle, turned with the wheel, falls there beyond its fall at `ahead` itself. Without yaw the wheel itself.
template <class Wheel> class YawedSection {
public:
  YawedSection(const Wheel& wheel, double yaw, double ahead)
      : wheel_(&wheel), shift_(yaw * ahead), yaw_(yaw), ahead_(ahead),
        bend_(1.0 / std::sqrt(wheel.radius() * wheel.radius() - ahead * ahead)) {}

  [[nodiscard]] double low() const { return wheel_->low() + shift_; }
  [[nodiscard]] double high() const { return wheel_->high() + shift_; }
  [[nodiscard]] std::size_t samples() const { return wheel_->samples(); }
  [[nodiscard]] double sample(std::size_t i) const { return wheel_->sample(i) + shift_; }
  [[nodiscard]] double sample_height(std::size_t i) const { return wheel_->sample_height(i) - fall(sample(i)); }
  [[nodiscard]] double height(double y) const { return wheel_->height(y - shift_) - fall(y); }
  [[nodiscard]] profile::CurvePoint at(double y) const {
    profile::CurvePoint p = wheel_->at(y - shift_);
    p.value -= fall(y);
    // The bend of the fall, yaw^2 / R below 0.002 1/m, is left out of the curvature: it steers Newton's steps only.
    p.slope -= yaw_ * (ahead_ + yaw_ * (y - wheel_->tape())) * bend_;
    return p;
  }
  [[nodiscard]] double profile_height(double y) const { return wheel_->profile_height(y - shift_); }
  [[nodiscard]] double wheel_y(double y) const { return y - shift_ - wheel_->tape(); } // m, from the taping line

private:
  // Of sqrt(R^2 - a^2) at a = ahead + yaw s, from a = ahead.
  [[nodiscard]] double fall(double y) const {
    const double s = y - wheel_->tape();
    return yaw_ * s * (ahead_ + 0.5 * yaw_ * s) * bend_;
  }
  const Wheel* wheel_;
  double shift_, yaw_, ahead_, bend_;
};

// Level that the axle's station sees of a section touched at `level` on a circle of `radius`, `ahead` of it.
[[nodiscard]] inline double seen_from_axle(double level, double radius, double ahead) {
  return level + std::sqrt(radius * radius - ahead * ahead) - radius;
}

// Maximum near y inside [low, high]: the sign change of the slope of z + height, by Newton steps kept inside the
// bracket.
template <class Slice, class Wheel>
[[nodiscard]] LateralContact refine_lateral(const Slice& slice, const Wheel& wheel, double low, double y, double high) {
  double level = 0.0, best = y;
  for (int k = 0; k < 60; ++k) {
    const layout::SurfacePoint s = slice.at(y - slice.edge);
    const profile::CurvePoint w = wheel.at(y);
    level = s.z + w.value;
    best = y;
    const double first = s.slope_y + w.slope;
    (first > 0.0 ? low : high) = y;
    if (high - low < 1e-11) {
      break;
    }
    const double gs = 1.0 + s.slope_y * s.slope_y, gw = 1.0 + w.slope * w.slope;
    const double second = s.curvature_y * gs * std::sqrt(gs) + w.curvature * gw * std::sqrt(gw);
    double next = second < 0.0 ? y - first / second : 0.5 * (low + high);
    if (std::abs(next - y) < 1e-11) {
      break; // the slope left is below 1e-9 even on a 5 mm edge
    }
    if (!(next > low && next < high)) {
      // Usually one step too far on a strongly curved edge; a maximum at the end of the range is found the same way.
      next = 0.5 * (low + high);
    }
    y = next;
  }
  return {level, best};
}

// Global search. Sections are smooth between samples of 1 mm except for rounded edges of a few millimetres, where a
// sample may miss its maximum by some 0.1 mm of height: every local maximum within that is refined.
template <class Slice, class Wheel>
[[nodiscard]] LateralContact search_lateral(const Slice& slice, const Wheel& wheel) {
  constexpr double missed = 0.0002; // m
  const double from = std::max(slice.edge, wheel.low()), to = std::min(slice.edge + slice.width, wheel.high());
  if (!(from < to)) {
    return {};
  }
  constexpr std::size_t most = 512;
  std::array<double, most> y, f;
  std::size_t n = 0;
  const auto add = [&](double at, double height) {
    y[n] = at;
    f[n++] = slice.height(at - slice.edge) + height;
  };
  const double spacing = wheel.sample(1) - wheel.sample(0);
  const auto first = static_cast<std::size_t>(std::ceil((from - wheel.low()) / spacing + 1e-9));
  const auto last = std::min(wheel.samples() - 1,
                             static_cast<std::size_t>(std::max(0.0, std::floor((to - wheel.low()) / spacing - 1e-9))));
  add(from, wheel.height(from));
  if (to - from < 12.0 * spacing) { // a narrow strip of metal: samples of its own
    for (int i = 1; i < 24; ++i) {
      const double at = from + (to - from) * i / 24.0;
      add(at, wheel.height(at));
    }
  } else {
    for (std::size_t i = first; i <= last && n + 1 < most; ++i) {
      add(wheel.sample(i), wheel.sample_height(i));
    }
  }
  add(to, wheel.height(to));
  const double top = *std::max_element(f.begin(), f.begin() + static_cast<std::ptrdiff_t>(n));
  LateralContact best;
  for (std::size_t i = 0; i < n; ++i) {
    const bool peak = f[i] >= top - missed && (i == 0 || f[i] >= f[i - 1]) && (i + 1 == n || f[i] > f[i + 1]);
    if (peak) {
      const LateralContact c = refine_lateral(slice, wheel, y[i == 0 ? 0 : i - 1], y[i], y[i + 1 == n ? n - 1 : i + 1]);
      if (c.level > best.level) {
        best = c;
      }
    }
  }
  return best;
}

} // namespace wingnose::contact
