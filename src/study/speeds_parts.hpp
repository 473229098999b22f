// Parts of a study of speeds: what is found.
#pragma once

#include "wingnose/study/speeds.hpp"

namespace wingnose::study {

[[nodiscard]] Findings findings_of(const SpeedStudy& study);

} // namespace wingnose::study
