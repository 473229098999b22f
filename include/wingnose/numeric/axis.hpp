// Columns that stand over places of their own, brought onto one axis.
#pragma once

#include <algorithm>
#include <cstddef>
#include <limits>
#include <span>
#include <vector>

namespace wingnose {

// All places of several columns, each once, rising.
[[nodiscard]] inline std::vector<double> common_axis(const std::vector<std::vector<double>>& places) {
  std::vector<double> axis;
  for (const auto& some : places) {
    axis.insert(axis.end(), some.begin(), some.end());
  }
  std::sort(axis.begin(), axis.end());
  axis.erase(std::unique(axis.begin(), axis.end()), axis.end());
  return axis;
}

// values: one per place; NaN where the axis has a place that they have not.
[[nodiscard]] inline std::vector<double> on_axis(std::span<const double> axis, std::span<const double> places,
                                                 std::span<const double> values) {
  std::vector<double> column;
  for (const double at : axis) {
    const auto found = std::find(places.begin(), places.end(), at);
    column.push_back(found == places.end() ? std::numeric_limits<double>::quiet_NaN()
                                           : values[static_cast<std::size_t>(found - places.begin())]);
  }
  return column;
}

} // namespace wingnose
