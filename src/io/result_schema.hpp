// The one list of arrays a result file holds; writer, reader check and reference page are made from it.
#pragma once

#include "wingnose/io/result_file.hpp"

#include <functional>
#include <string>
#include <vector>

namespace wingnose::io {

// A numeric array. "{body}" in the path stands for each body's name.
struct Column {
  std::string path, unit, description;
  std::function<std::vector<double>(const study::Result&, std::size_t body)> values; // in `unit`
  bool optional = false; // may be absent (nothing was recorded)
};
[[nodiscard]] std::vector<Column> result_columns();

// A list of text.
struct TextColumn {
  std::string path, description;
  std::function<std::vector<std::string>(const study::Case&, const study::Result&)> values;
};
[[nodiscard]] std::vector<TextColumn> result_texts();

// "history/force_{body}_N" -> "history/force_nose_N".
[[nodiscard]] std::string with_body(std::string path, const std::string& body);

} // namespace wingnose::io
