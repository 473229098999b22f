#include "wingnose/assess/space_measures.hpp"

namespace wingnose::assess {

std::optional<Measures> measure(const passage::space::SpaceHistory& ride, const passage::space::Rolling& rolling,
                                const passage::space::Ground& ground, int wheelset, int wheel, double landing_station,
                                const MeasureOptions& options) {
  if (!ride.rails_bend) {
    return std::nullopt;
  }
  return measure(passage::space::of_wheel(ride, rolling, ground, wheelset, wheel), landing_station, options);
}

} // namespace wingnose::assess
