// What a number that stands in a standard or on a drawing is worth, and where it stands.
#pragma once

#include "wingnose/words/names.hpp"

#include <array>
#include <string_view>

namespace wingnose::layout::turnout {

enum class Worth { seen, well_remembered, remembered, hardly_remembered, common_practice };
constexpr auto names(Worth) {
  return std::array{Name{Worth::seen, "seen in print"}, Name{Worth::well_remembered, "from memory, high"},
                    Name{Worth::remembered, "from memory, medium"}, Name{Worth::hardly_remembered, "from memory, low"},
                    Name{Worth::common_practice, "common practice, no source"}};
}

enum class Demand { at_least, at_most };
constexpr auto names(Demand) { return std::array{Name{Demand::at_least, "min"}, Name{Demand::at_most, "max"}}; }

struct Standard {
  double value; // SI
  Demand kind;
  Worth trust;
  std::string_view source;
  // How much is left to the standard's value, negative beyond it.
  [[nodiscard]] constexpr double margin(double is) const { return kind == Demand::at_least ? is - value : value - is; }
};

} // namespace wingnose::layout::turnout
