#include "lateral_search.hpp"

namespace wingnose::layout {

PlacedWheel::PlacedWheel(const profile::WheelProfile& wheel, double tape, double roll)
    : curve_(wheel.curve), tape_(tape), roll_(roll) {
  const double low = wheel.y_min(), high = wheel.y_max();
  const auto n = static_cast<std::size_t>(std::ceil((high - low) / sample_spacing));
  y_.reserve(n + 1);
  height_.reserve(n + 1);
  for (std::size_t i = 0; i <= n; ++i) {
    const double y = low + (high - low) * static_cast<double>(i) / static_cast<double>(n);
    y_.push_back(tape + y);
    height_.push_back(height(tape + y));
  }
}

double PlacedWheel::profile_height(double y) const {
  const double s = y - tape_;
  return roll_ == 0.0 ? curve_.value(s) : curve_.value(s - roll_ * curve_.value(s));
}

double PlacedWheel::height(double y) const { return profile_height(y) - roll_ * (y - tape_); }

profile::CurvePoint PlacedWheel::at(double y) const {
  const double s = y - tape_;
  const profile::CurvePoint here = curve_.at(s);
  if (roll_ == 0.0) {
    return here;
  }
  profile::CurvePoint p = curve_.at(s - roll_ * here.value);
  p.value -= roll_ * s;
  p.slope = p.slope * (1.0 - roll_ * here.slope) - roll_; // a turn leaves the curvature as it is
  return p;
}

} // namespace wingnose::layout
