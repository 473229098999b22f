// Numbers mixed into a hash, for parts that are found by what they are made of.
#pragma once

#include "wingnose/words/range.hpp"

#include <cstddef>
#include <functional>

namespace wingnose::numeric {

[[nodiscard]] inline std::size_t mixed(std::size_t hash, double value) {
  return hash * 0x9E3779B97F4A7C15ULL + std::hash<double>{}(value);
}
// All numbers of a part that have a range beside them.
template <class T> [[nodiscard]] std::size_t mixed_all(std::size_t hash, const T& value) {
  for (const auto& member : ranges(static_cast<const T*>(nullptr))) {
    hash = mixed(hash, member.of(value));
  }
  return hash;
}

} // namespace wingnose::numeric
