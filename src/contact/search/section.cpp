#include "section.hpp"

namespace wingnose::contact {

PlacedWheel::PlacedWheel(const WheelSurface& wheel, double tape, double roll)
    : wheel_(&wheel), tape_(tape), roll_(roll), low_(tape + wheel.profile().y_min()),
      high_(tape + (wheel.profile().y_min() + (wheel.profile().y_max() - wheel.profile().y_min()))) {}

double PlacedWheel::profile_height(double y) const {
  const double s = y - tape_;
  const profile::Curve& curve = wheel_->profile().curve;
  return roll_ == 0.0 ? curve.value(s) : curve.value(s - roll_ * curve.value(s));
}

double PlacedWheel::height(double y) const { return profile_height(y) - roll_ * (y - tape_); }

profile::CurvePoint PlacedWheel::at(double y) const {
  const double s = y - tape_;
  const profile::Curve& curve = wheel_->profile().curve;
  const profile::CurvePoint here = curve.at(s);
  if (roll_ == 0.0) {
    return here;
  }
  profile::CurvePoint p = curve.at(s - roll_ * here.value);
  p.value -= roll_ * s;
  p.slope = p.slope * (1.0 - roll_ * here.slope) - roll_; // a turn leaves the curvature as it is
  return p;
}

SampledWheel::SampledWheel(const PlacedWheel& wheel) : PlacedWheel(wheel) {
  const double front = surface().profile().y_min(), back = surface().profile().y_max();
  const auto n = static_cast<std::size_t>(std::ceil((back - front) / sample_spacing));
  y_.reserve(n + 1);
  height_.reserve(n + 1);
  for (std::size_t i = 0; i <= n; ++i) {
    const double y = front + (back - front) * static_cast<double>(i) / static_cast<double>(n);
    y_.push_back(tape() + y);
    height_.push_back(height(tape() + y));
  }
  fine_.reserve(n * between + 1);
  for (std::size_t i = 0; i < n; ++i) {
    for (int k = 0; k < between; ++k) {
      fine_.push_back(k == 0 ? height_[i] : height(y_[i] + (y_[i + 1] - y_[i]) / between * k));
    }
  }
  fine_.push_back(height_.back());
}

} // namespace wingnose::contact
