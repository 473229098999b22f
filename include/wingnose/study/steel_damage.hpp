// What the passage of a case does to the steel of wing and nose, with the case's own steel, friction and law. Method,
// limits and units: assess/damage.hpp.
#pragma once

#include "wingnose/assess/damage.hpp"
#include "wingnose/study/case.hpp"

namespace wingnose::study {

// The rolling contacts of the reported wheel around its landing. result: of the same case. Throws ComputeError where
// there is no landing, InputError for options out of range.
[[nodiscard]] assess::ContactTrail contact_trail(const Case& c, const Result& result);

// Damage of one passage over new steel. Throws as above.
[[nodiscard]] assess::Damage damage(const Case& c, const Result& result);

} // namespace wingnose::study
