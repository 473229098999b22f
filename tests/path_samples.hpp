// Wheel paths over crossings, and readings of them, shared by tests.
#pragma once

#include "crossing_samples.hpp"

#include "wingnose/contact/path/kinematics.hpp"

#include <algorithm>
#include <limits>
#include <vector>

namespace samples {

using namespace wingnose::contact;

inline const BodyPath& named(const WheelPath& path, const char* name) {
  return *std::find_if(path.bodies.begin(), path.bodies.end(), [&](const BodyPath& b) { return b.name == name; });
}

inline double read(const WheelPath& path, const std::vector<double>& column, double x) {
  const auto next = std::upper_bound(path.station.begin() + 1, path.station.end() - 1, x);
  const auto i = static_cast<std::size_t>(next - path.station.begin());
  const double u = (x - path.station[i - 1]) / (path.station[i] - path.station[i - 1]);
  return column[i - 1] + u * (column[i] - column[i - 1]);
}

inline std::vector<double> combined(const WheelPath& path) {
  std::vector<double> top(path.station.size(), -std::numeric_limits<double>::infinity());
  for (const BodyPath& b : path.bodies) {
    for (std::size_t i = 0; i < top.size(); ++i) {
      top[i] = std::max(top[i], b.height[i]);
    }
  }
  return top;
}

inline PathOptions around_transfer() { return {.from = -1.4, .to = 1.9}; }

} // namespace samples
