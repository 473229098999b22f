// Case files: TOML with unit-bearing keys in, a validated study::Case in SI out. All unit conversion of cases lives
// here. Errors are InputError with file, key (and line), value, allowed range and advice; unknown keys get a
// suggestion.
#pragma once

#include "wingnose/study/case.hpp"

#include <filesystem>
#include <string>
#include <string_view>

namespace wingnose::io {

// Relative paths inside the file are taken from the file's own folder.
[[nodiscard]] study::Case read_case(const std::filesystem::path& file);
// The same from text; `name` stands for the file in messages, `folder` anchors relative paths.
[[nodiscard]] study::Case parse_case(std::string_view toml_text, std::string name, const std::filesystem::path& folder);

// Reference page of every key (Markdown table): key, unit, default, range, meaning; made from the schema the reader
// checks against.
[[nodiscard]] std::string case_reference();

} // namespace wingnose::io
