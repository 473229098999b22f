// Tables of numbers from comma-separated text: one header line of unit-bearing column names, then numbers.
// Lines that are empty or start with '#' are skipped. Every error names the file and the line.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace wingnose::io {

// The whole file; throws InputError (with `where`: the key that named it) when it cannot be read.
[[nodiscard]] std::string read_text(const std::filesystem::path& file, const std::string& where);

struct Csv {
  std::string name;                         // for messages
  std::vector<std::vector<double>> columns; // in the order asked for
  std::vector<int> line;                    // line number of each row
  [[nodiscard]] std::size_t rows() const { return line.size(); }
};

// Columns `wanted` must be present (more are allowed and ignored, order free). Throws InputError.
[[nodiscard]] Csv parse_csv(std::string_view text, const std::string& name, const std::vector<std::string>& wanted);

} // namespace wingnose::io
