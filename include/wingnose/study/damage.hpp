// What the landing of a case does to the steel of wing and nose: of the case's own wheel, and of the traffic of a
// tonnage. Method, limits and units: assess/damage.hpp.
#pragma once

#include "wingnose/quantity/tree.hpp"
#include "wingnose/study/steel.hpp"
#include "wingnose/study/traffic.hpp"

#include <optional>
#include <span>
#include <string_view>

namespace wingnose::study {

struct DamageStudy {
  assess::ContactTrail trail; // of the case's own wheel
  assess::Damage damage;
  assess::Assessment assessment; // with the numbers of the steel
  std::optional<layout::Crossing> crossing;
  std::optional<Traffic> traffic;
  Findings findings; // of all of these
};

// traffic: how much of it rolls, not null to have it added up. wheels: which; null: wheels like the case's own. nullopt
// when cancelled. Throws as `traffic` and `damage` do.
[[nodiscard]] std::optional<DamageStudy> study_damage(const cases::Document& document,
                                                      const TrafficOptions* traffic = nullptr,
                                                      const cases::Population* wheels = nullptr);

// text, inputs: of the file of wheels, where there is one.
[[nodiscard]] quantity::Tree tell(const Case& c, const DamageStudy& study, std::string_view text = {},
                                  std::span<const cases::InputFile> inputs = {});

} // namespace wingnose::study
