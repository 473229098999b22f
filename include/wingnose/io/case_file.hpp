// Case files: TOML with unit-bearing keys in, a validated study::Case in SI out. All unit conversion of cases lives
// here. Errors are InputError with file, key (and line), value, allowed range and advice; unknown keys get a
// suggestion.
#pragma once

#include "wingnose/study/case.hpp"

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace wingnose::io {

// Relative paths inside the file are taken from the file's own folder.
[[nodiscard]] study::Case read_case(const std::filesystem::path& file);
// The same from text; `name` stands for the file in messages, `folder` anchors relative paths.
[[nodiscard]] study::Case parse_case(std::string_view toml_text, std::string name, const std::filesystem::path& folder);

// Reference page of every key (Markdown table): key, unit, default, range, meaning; made from the schema the reader
// checks against.
[[nodiscard]] std::string case_reference();
[[nodiscard]] std::string case_reference_json(); // the same as one JSON object

// Every key value a case rests on, given or default, as "passage.speed_km_h = 108" (units of the case file). Values
// that live in other files (profiles, sections) are named by the case's `inputs` instead.
[[nodiscard]] std::vector<std::string> case_keys(const study::Case& c);

} // namespace wingnose::io
