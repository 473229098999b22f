// Ranges of what a model says.
#pragma once

#include "wingnose/track/chain/model.hpp"
#include "wingnose/words/error.hpp"

#include <cmath>
#include <string>
#include <string_view>

namespace wingnose::track::chain::detail {

inline void positive(double value, const std::string& what, std::string_view unit) {
  if (!(std::isfinite(value) && value > 0.0)) {
    throw InputError(what, number(value) + " " + std::string(unit), "above 0 and finite", "Correct the value.");
  }
}

inline void not_negative(double value, const std::string& what, std::string_view unit) {
  if (!(std::isfinite(value) && value >= 0.0)) {
    throw InputError(what, number(value) + " " + std::string(unit), "0 or above and finite", "Correct the value.");
  }
}

inline void within(int value, int least, int most, const std::string& what) {
  if (value < least || value > most) {
    throw InputError(what, std::to_string(value), std::to_string(least) + " to " + std::to_string(most),
                     "Correct the value.");
  }
}

// What concerns the lateral plane: everything is described or nothing.
void check_lateral(const Model& model);

} // namespace wingnose::track::chain::detail
