// Population files: which wheels roll, as in a comparison file (comparison_file.hpp) without its crossings. TOML:
//
//   [population]   count, seed, sampling             wheels drawn from [[class]] and [[population.vary]]
//   [population]   csv                               or listed: columns weight, and optionally name, class, keys
//   [[wheel]]      weight, name, class, keys         or listed here: wheel.lateral_offset_mm = 2
//   [[class]]      name, share, wheel = { ... }      profile as in [wheel] of a case; [[class.vary]]
#pragma once

#include "wingnose/study/population.hpp"

#include <filesystem>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace wingnose::io {

struct PopulationFile {
  std::variant<study::PopulationRecipe, study::Population> wheels;
  std::string text;                     // as read
  std::vector<study::InputFile> inputs; // the file, a list of wheels it names, and files of the classes' wheels
};

// Throw InputError as read_comparison does, and where the file is one of a comparison.
[[nodiscard]] PopulationFile read_population(const std::filesystem::path& file);
[[nodiscard]] PopulationFile parse_population(std::string_view toml_text, const std::string& name,
                                              const std::filesystem::path& folder);

} // namespace wingnose::io
