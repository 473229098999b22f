// What a turnout's numbers mean, and what they leave out.
#pragma once

#include "wingnose/study/turnout.hpp"

namespace wingnose::study {

[[nodiscard]] Findings findings_of(const cases::Case& c, const TurnoutStudy& study);

// "6.5 mm", to a tenth.
[[nodiscard]] std::string in_mm(double value);

} // namespace wingnose::study
