// Parts of a study of speeds: what is found.
#pragma once

#include "wingnose/study/speeds.hpp"

namespace wingnose::study {

[[nodiscard]] inline assess::SpeedInterval scanned(const SpeedStudy& s) {
  return {s.points.front().speed, s.points.back().speed};
}
[[nodiscard]] Findings findings_of(const SpeedStudy& study);

} // namespace wingnose::study
