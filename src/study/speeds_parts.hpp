// Parts of a study of speeds: what is said.
#pragma once

#include "wingnose/study/speeds.hpp"

#include <string>
#include <vector>

namespace wingnose::study {

inline constexpr double km_h = 1.0 / 3.6; // m/s

[[nodiscard]] std::string in_km_h(double speed);
// Down to the tenth: a permissible speed is not rounded up.
[[nodiscard]] std::string floored_km_h(double speed);

[[nodiscard]] std::vector<std::string> warnings_of(const SpeedStudy& study);
[[nodiscard]] std::vector<std::string> notes_of(const SpeedStudy& study);

} // namespace wingnose::study
