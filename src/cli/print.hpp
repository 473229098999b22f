// Aligned plain-text tables: a label, a number with sensible digits, its unit.
#pragma once

#include "wingnose/io/result_file.hpp"

#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

namespace wingnose::cli {

// A number with a fixed count of decimals, "none" when there is no value.
[[nodiscard]] std::string fixed(std::optional<double> value, int decimals);
// Six significant digits at most.
[[nodiscard]] std::string brief(double value);

struct Row {
  std::string label, value, unit;
  bool is_text = false; // aligned to the left, and without a say in the width of the numbers
};
void print_rows(std::ostream& out, const std::string& title, const std::vector<Row>& rows);

// Columns of text under headings; the first is left-aligned, the others right-aligned.
void print_columns(std::ostream& out, const std::string& title, const std::vector<std::string>& headings,
                   const std::vector<std::vector<std::string>>& lines);

// Bulleted texts, wrapped; nothing when there are none.
void print_notes(std::ostream& out, const std::string& title, const std::vector<std::string>& notes);

void print_caution(std::ostream& out);

} // namespace wingnose::cli
