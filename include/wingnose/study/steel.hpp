// What the passage of a case does to the steel of wing and nose, with the case's own steel, friction and law. Method,
// limits and units: assess/damage.hpp.
#pragma once

#include "wingnose/assess/damage.hpp"
#include "wingnose/study/run.hpp"

#include <string>
#include <vector>

namespace wingnose::study {

// The rolling contacts of the reported wheel around its landing. Geometry and history: of the same case. Throws
// ComputeError where there is no landing, InputError for options out of range.
[[nodiscard]] assess::ContactTrail contact_trail(const Case& c, const Geometry& geometry,
                                                 const passage::History& history);

// Damage of one passage over new steel. Throws as above.
[[nodiscard]] assess::Damage damage(const Case& c, const Geometry& geometry, const passage::History& history);

// Adds what one passage does to new steel, in the few numbers that studies of many passages compare: the same bits as
// of damage(), at less cost, as nothing is mapped. Where nothing is known of the steel a finding says why, and the
// forces count all the same. Throws InputError for options out of range.
void add_steel(assess::Assessment& assessment, const Case& c, const Geometry& geometry,
               const passage::History& history);
// The same of contacts found before.
void add_steel(assess::Assessment& assessment, const Case& c, const assess::ContactTrail& trail);

} // namespace wingnose::study
