#include "wingnose/io/case_file.hpp"

#include "checksum.hpp"

#include "wingnose/words/text.hpp"

namespace wingnose::io {
namespace {

namespace fs = std::filesystem;

std::string name_from(const fs::path& file, const fs::path& folder) {
  const fs::path relative = file.lexically_relative(folder.empty() ? "." : folder);
  return (relative.empty() ? file : relative).generic_string();
}

// A semicolon file is what spreadsheets write where the comma is the decimal sign: say so instead of "column missing".
void refuse_semicolons(const std::string& where, std::string_view header) {
  if (header.find(';') != std::string_view::npos && header.find(',') == std::string_view::npos) {
    throw InputError(where + ": columns are separated by semicolons; write commas between columns and a point as "
                             "decimal sign");
  }
}

cases::Case to_case(const SheetFile& file, const fs::path& folder, const std::string& name) {
  DiskFiles files(folder);
  files.inputs = file.inputs;
  cases::Case c = cases::case_of(file.sheet, name, files);
  c.inputs = files.inputs;
  c.source_text = file.text;
  return c;
}

} // namespace

cases::Rows parse_rows(std::string_view text, const std::string& name) {
  constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
  if (text.substr(0, byte_order_mark.size()) == byte_order_mark) {
    text.remove_prefix(byte_order_mark.size());
  }
  cases::Rows rows;
  rows.name = name;
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
    const std::string where = name + ":" + std::to_string(line_number);
    if (rows.header.empty()) {
      refuse_semicolons(where, line);
      rows.header = std::move(cells);
      rows.header_line = line_number;
    } else if (cells.size() != rows.header.size()) {
      throw InputError(where + ": " + std::to_string(cells.size()) + " values where the header has " +
                       std::to_string(rows.header.size()) + " columns; separate them by commas");
    } else {
      rows.cells.push_back(std::move(cells));
      rows.line.push_back(line_number);
    }
  }
  if (rows.header.empty()) {
    throw InputError(name + ": the file is empty; it needs a header line with the names of its columns");
  }
  return rows;
}

cases::Rows DiskFiles::rows(const fs::path& file, const std::string& where, const std::string& role) {
  const std::string text = read_text(file, where);
  inputs.push_back({role, name_from(file, folder_), sha256(text)});
  return parse_rows(text, file.generic_string());
}

cases::Sheet DiskFiles::sheet(const fs::path& file, const std::string& where, const std::string& role) {
  (void)read_text(file, where); // that it is there is told with the key that names it
  SheetFile read = read_sheet(file, role);
  for (cases::InputFile& input : read.inputs) {
    input.path = name_from(file.parent_path() / input.path, folder_);
    input.role = role;
    inputs.push_back(std::move(input));
  }
  return std::move(read.sheet);
}

cases::Case DiskFiles::read_case(const fs::path& file) { return io::read_case(file); }

cases::Case read_case(const fs::path& file) {
  return to_case(read_sheet(file, "case"), file.parent_path(), file.stem().string());
}

cases::Case parse_case(std::string_view toml_text, std::string name, const fs::path& folder) {
  const std::string stem = fs::path(name).stem().string();
  return to_case(parse_sheet(toml_text, std::move(name), folder, "case"), folder, stem);
}

} // namespace wingnose::io
