// Comparison files: which crossings are compared under which wheels. TOML:
//
//   [[crossing]]   name, case                        at least two; the first is the reference
//   [population]   count, seed, sampling             wheels drawn from [[class]] and [[population.vary]]
//   [population]   csv                               or listed: columns weight, and optionally name, class, keys
//   [[wheel]]      weight, name, class, keys         or listed here: wheel.lateral_offset_mm = 2
//   [[class]]      name, share, wheel = { ... }      profile as in [wheel] of a case; [[class.vary]]
//   [compare]      thin_nose_mm, resamples, ...      steel = true: what the landings do to the steel, too
//
// A vary table has a key and a distribution: "normal" (mean, standard_deviation, from, to), "uniform" (from, to),
// "choice" (values, weights). Values are in the unit of the key. Relative paths are taken from the file's folder.
#pragma once

#include "wingnose/study/compare.hpp"

#include <filesystem>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace wingnose::io {

struct ComparisonFile {
  std::vector<study::ComparedCrossing> crossings;
  std::variant<study::PopulationRecipe, study::Population> wheels;
  study::CompareOptions options;
  std::string text; // as read
};

// Throw InputError: unknown key (with a suggestion), a value of the wrong kind or out of range, neither or both a
// drawn and a listed population, fewer than two crossings, and what reading the cases finds.
[[nodiscard]] ComparisonFile read_comparison(const std::filesystem::path& file);
[[nodiscard]] ComparisonFile parse_comparison(std::string_view toml_text, const std::string& name,
                                              const std::filesystem::path& folder);

} // namespace wingnose::io
