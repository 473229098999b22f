// What a landing does to the steel, as studies of many passages name it: keys, units and labels are those of
// io::damage_numbers.
#pragma once

#include "wingnose/io/result_file.hpp"
#include "wingnose/study/steel_measures.hpp"

#include <vector>

namespace wingnose::io {

struct SteelMeasure : Measure {
  double study::SteelMeasures::*value = nullptr; // in SI
  double per_si = 1.0;                           // value in `unit` = value in SI times this
};
// In the order of study::SteelMeasures.
[[nodiscard]] std::vector<SteelMeasure> steel_measures();

} // namespace wingnose::io
