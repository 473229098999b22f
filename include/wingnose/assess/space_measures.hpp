// What the wheels of a ride in space do to a crossing: first and second peak, largest force, transfer, under the
// definitions and filters of the vertical passage (measures.hpp). Only rails that bend tell them; masses that run along
// under the wheels do not. SI.
#pragma once

#include "wingnose/assess/measures.hpp"
#include "wingnose/passage/space/history.hpp"

#include <optional>

namespace wingnose::assess {

// Of one wheel (0 at +y, 1 at -y). landing_station: m, see measure(). Nullopt where rails run along as masses. Throws
// as measure() does.
[[nodiscard]] std::optional<Measures> measure(const passage::space::SpaceHistory& ride,
                                              const passage::space::Rolling& rolling,
                                              const passage::space::Ground& ground, int wheelset, int wheel,
                                              double landing_station, const MeasureOptions& options = {});

} // namespace wingnose::assess
