// What measured points of a wheel show before anything is fitted to them: another datum, more noise than stated,
// points that lie off their neighbours.
#pragma once

#include "wingnose/words/finding.hpp"

#include <span>
#include <string>

namespace wingnose::profile {

// y, height, noise, name: as of measured_wheel() (wheel.hpp), which has accepted them.
[[nodiscard]] Findings measured_findings(std::span<const double> y, std::span<const double> height, double noise,
                                         const std::string& name);

} // namespace wingnose::profile
