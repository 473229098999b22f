#include "print.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <ostream>
#include <sstream>

namespace wingnose::cli {

namespace {

constexpr std::size_t line_width = 100;

// Columns a text takes on the screen: bytes that continue a UTF-8 character take none.
std::size_t width(const std::string& text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

std::string padded(const std::string& text, std::size_t to, bool left) {
  const std::size_t have = width(text);
  const std::string blanks(to > have ? to - have : 0, ' ');
  return left ? text + blanks : blanks + text;
}

std::string format(const char* pattern, int decimals, double value) {
  std::array<char, 64> buffer{};
  std::snprintf(buffer.data(), buffer.size(), pattern, decimals, value);
  return buffer.data();
}

} // namespace

std::string fixed(std::optional<double> value, int decimals) {
  if (!value || !std::isfinite(*value)) {
    return "none";
  }
  const std::string text = format("%.*f", decimals, *value);
  const bool zero = text.find_first_of("123456789") == std::string::npos;
  return zero && text.front() == '-' ? text.substr(1) : text;
}

std::string brief(double value) { return format("%.*g", 6, value); }

void print_rows(std::ostream& out, const std::string& title, const std::vector<Row>& rows) {
  std::size_t label = 0, value = 0;
  for (const auto& row : rows) {
    label = std::max(label, width(row.label));
    value = std::max(value, row.is_text ? 0 : width(row.value));
  }
  out << title << '\n';
  for (const auto& row : rows) {
    const std::string aligned = row.is_text ? row.value : padded(row.value, value, false);
    out << "  " << padded(row.label, label, true) << "  " << aligned;
    out << (row.unit.empty() || row.unit == "-" || row.value == "none" ? "" : " " + row.unit) << '\n';
  }
  out << '\n';
}

void print_columns(std::ostream& out, const std::string& title, const std::vector<std::string>& headings,
                   const std::vector<std::vector<std::string>>& lines) {
  std::vector<std::size_t> widths;
  for (std::size_t c = 0; c < headings.size(); ++c) {
    widths.push_back(width(headings[c]));
    for (const auto& line : lines) {
      widths[c] = std::max(widths[c], width(line[c]));
    }
  }
  const auto print = [&](const std::vector<std::string>& line) {
    out << ' ';
    for (std::size_t c = 0; c < line.size(); ++c) {
      out << (c == 0 ? " " : "  ") << padded(line[c], widths[c], c == 0);
    }
    out << '\n';
  };
  out << title << '\n';
  print(headings);
  for (const auto& line : lines) {
    print(line);
  }
  out << '\n';
}

void print_notes(std::ostream& out, const std::string& title, const std::vector<std::string>& notes) {
  if (notes.empty()) {
    return;
  }
  out << title << '\n';
  for (const auto& note : notes) {
    std::istringstream words(note);
    std::string word, line = "  -";
    while (words >> word) {
      if (width(line) + 1 + width(word) > line_width) {
        out << line << '\n';
        line = "   ";
      }
      line += ' ' + word;
    }
    out << line << '\n';
  }
  out << '\n';
}

void print_caution(std::ostream& out) { out << io::caution << '\n'; }

} // namespace wingnose::cli
