// Random numbers whose sequence is the same on every machine: the engine is fixed by the language, the distributions of
// the standard library are not.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <random>

namespace wingnose {

class Dice {
public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}
  // Between 0 and 1, both excluded.
  double fraction() { return (static_cast<double>(engine_() >> 11) + 0.5) * 0x1p-53; }
  // 0 .. n - 1, n > 0.
  std::size_t below(std::size_t n) {
    return std::min(n - 1, static_cast<std::size_t>(fraction() * static_cast<double>(n)));
  }

private:
  std::mt19937_64 engine_;
};

} // namespace wingnose
