// Instants of a passage that are looked at closer: station of the axle and the force of every body are those of the
// passage, not those of a wheel that stands. SI; frame.hpp.
//
//   transfer  where the body landed on takes over half of the wheel force: both forces are equal. A wheel that flies
//             from one body to the other has no such instant.
//   landing   the first peak of the force (P1) where the measures tell one; otherwise the largest force on the body
//             landed on within `first_peak_window` of its first touch.
//   peak      the largest force on the body landed on, from its first touch to `window` after it.
//
// Landing and window: measures.hpp. On a joint or a given path there is one body, and no transfer.
#pragma once

#include "wingnose/assess/measures.hpp"
#include "wingnose/contact/normal/loaded_wheel.hpp"
#include "wingnose/passage/history.hpp"
#include "wingnose/words/names.hpp"

#include <array>
#include <vector>

namespace wingnose::assess {

enum class Moment { transfer, landing, peak };
constexpr auto names(Moment) {
  return std::array{Name{Moment::transfer, "transfer", "both bodies carry the same"},
                    Name{Moment::landing, "landing", "first peak of the force"},
                    Name{Moment::peak, "peak", "largest force on the body landed on"}};
}

struct Instant {
  Moment moment = Moment::peak;
  double time = 0.0, station = 0.0;     // s, m, of the reported wheel's axle
  std::vector<contact::BodyLoad> loads; // as the passage has them, by body
};

// measures: of the same history. transfer lies between two samples, forces are read linearly there; the others are
// samples. Throws ComputeError where the passage has no such instant.
[[nodiscard]] Instant instant(const passage::History& history, const Measures& measures, const MeasureOptions& options,
                              Moment moment);

} // namespace wingnose::assess
