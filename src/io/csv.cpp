#include "csv.hpp"

#include "wingnose/words/text.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <fstream>
#include <sstream>

namespace wingnose::io {

namespace {

std::string at(const std::string& name, int line) { return name + ":" + std::to_string(line); }

// A semicolon file is what spreadsheets write where the comma is the decimal sign: say so instead of "column missing".
void refuse_semicolons(const std::string& where, std::string_view header) {
  if (header.find(';') != std::string_view::npos && header.find(',') == std::string_view::npos) {
    throw InputError(where + ": columns are separated by semicolons; write commas between columns and a point as "
                             "decimal sign");
  }
}

std::vector<std::size_t> find_columns(const std::vector<std::string>& header, const std::vector<std::string>& wanted,
                                      const std::string& where) {
  std::vector<std::size_t> index;
  for (const auto& column : wanted) {
    const auto found = std::find(header.begin(), header.end(), column);
    if (found == header.end()) {
      throw InputError(where + ": column \"" + column + "\" is missing; the header has " + one_of(header) +
                       ". Needed: " + one_of(wanted) + "; units are part of the name.");
    }
    index.push_back(static_cast<std::size_t>(found - header.begin()));
  }
  return index;
}

double number(const std::string& cell, const std::string& column, const std::string& where) {
  double value = 0.0;
  const char* end = cell.data() + cell.size();
  const auto [stop, error] = std::from_chars(cell.data(), end, value);
  if (error != std::errc{} || stop != end || !std::isfinite(value)) {
    throw InputError(where, "\"" + cell + "\" in column \"" + column + "\"", "a finite decimal number such as 12.5",
                     "Correct or remove this line.");
  }
  return value;
}

} // namespace

std::string read_text(const std::filesystem::path& file, const std::string& where) {
  const std::string prefix = where.empty() ? "" : where + ": ";
  std::error_code ignored;
  if (!std::filesystem::exists(file, ignored)) {
    throw InputError(prefix + "file \"" + file.generic_string() +
                     "\" does not exist; check the spelling and the folder (relative names are taken from the folder "
                     "of the file that names them)");
  }
  if (std::filesystem::is_directory(file, ignored)) {
    throw InputError(prefix + "\"" + file.generic_string() + "\" is a folder; name a file");
  }
  std::ifstream stream(file, std::ios::binary);
  std::ostringstream text;
  text << stream.rdbuf();
  if (!stream) {
    throw InputError(prefix + "file \"" + file.generic_string() +
                     "\" cannot be read or is empty; check its content and its permissions");
  }
  return text.str();
}

Csv parse_csv(std::string_view text, const std::string& name, const std::vector<std::string>& wanted) {
  constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
  if (text.substr(0, byte_order_mark.size()) == byte_order_mark) {
    text.remove_prefix(byte_order_mark.size());
  }
  Csv csv{name, std::vector<std::vector<double>>(wanted.size()), {}};
  std::vector<std::string> header;
  std::vector<std::size_t> index;
  int line_number = 0;
  for (const auto& raw : split(text, '\n')) {
    ++line_number;
    const std::string_view line = trim(raw);
    if (line.empty() || line.front() == '#') {
      continue;
    }
    auto cells = split(line, ',');
    for (auto& cell : cells) {
      cell = std::string(trim(cell));
    }
    const std::string where = at(name, line_number);
    if (header.empty()) {
      refuse_semicolons(where, line);
      header = cells;
      index = find_columns(header, wanted, where);
      continue;
    }
    if (cells.size() != header.size()) {
      throw InputError(where + ": " + std::to_string(cells.size()) + " values where the header has " +
                       std::to_string(header.size()) + " columns; correct this line");
    }
    for (std::size_t c = 0; c < wanted.size(); ++c) {
      csv.columns[c].push_back(number(cells[index[c]], wanted[c], where));
    }
    csv.line.push_back(line_number);
  }
  if (header.empty()) {
    throw InputError(name + ": the file is empty; it needs a header line with the columns " + one_of(wanted));
  }
  if (csv.rows() == 0) {
    throw InputError(name + ": there is a header but no line of numbers below it");
  }
  return csv;
}

} // namespace wingnose::io
