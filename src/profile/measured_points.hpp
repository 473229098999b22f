// What a measured wheel profile must be before it may be fitted; each refusal has its own sentence (profile/wheel.hpp).
#pragma once

#include <span>
#include <string>
#include <vector>

namespace wingnose::profile {

struct MeasuredPoints { // y strictly increasing, m
  std::vector<double> y, height;
};

// Checks the points, brings them into the order of increasing y and merges points measured twice, and thins them.
// Throws InputError.
[[nodiscard]] MeasuredPoints checked_points(std::span<const double> y, std::span<const double> height, double noise,
                                            const std::string& name);

} // namespace wingnose::profile
