#include "lateral_search.hpp"

namespace wingnose::crossing {

PlacedWheel::PlacedWheel(const profile::WheelProfile& wheel, double tape) : curve_(wheel.curve), tape_(tape) {
  const double low = wheel.y_min(), high = wheel.y_max();
  const auto n = static_cast<std::size_t>(std::ceil((high - low) / sample_spacing));
  y_.reserve(n + 1);
  height_.reserve(n + 1);
  for (std::size_t i = 0; i <= n; ++i) {
    const double y = low + (high - low) * static_cast<double>(i) / static_cast<double>(n);
    y_.push_back(tape + y);
    height_.push_back(wheel.height(y));
  }
}

} // namespace wingnose::crossing
