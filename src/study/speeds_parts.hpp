// Parts of a study of speeds: what is found.
#pragma once

#include "wingnose/study/speeds.hpp"

namespace wingnose::study {

[[nodiscard]] Findings findings_of(const SpeedStudy& study);
// The closed form knows the wheel path by its dip angle alone: whether it permits noticeably more than the passages do.
[[nodiscard]] bool allows_more(const SpeedStudy& study, const LimitAnswer& answer, const ClosedFormSpeed& estimate);

} // namespace wingnose::study
