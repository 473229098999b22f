// Where a value may lie, ends included, written down beside the member it belongs to and read by everyone who needs it:
// checks of a room, case files, reference page, Python. In the member's own (SI) unit.
#pragma once

#include <limits>
#include <string_view>

namespace wingnose {

struct Range {
  double least = -std::numeric_limits<double>::infinity();
  double most = std::numeric_limits<double>::infinity();
  [[nodiscard]] friend constexpr bool operator==(const Range&, const Range&) = default;
};

// false also where there is no number.
[[nodiscard]] constexpr bool within(double value, const Range& range) {
  return value >= range.least && value <= range.most;
}

// Throws InputError where the value lies outside: what ("flangeway"), its value and the range in `unit` ("mm",
// `per_si` of them in one SI unit), advice.
void demand_within(std::string_view what, double value, const Range& range, std::string_view unit = "",
                   double per_si = 1.0, std::string_view advice = "");

} // namespace wingnose
