// The scoreboard: what we compute beside a value from elsewhere, the digits that agree, and what that value is worth.
//
//   score("what, unit", computed, reference, relative_tolerance, {Trust::printed, "author, year, table or clause"});
//   score_abs("what, unit", computed, reference, absolute_tolerance, {Trust::worked, "how it was worked"});
//
// What counts is the number itself: a published formula or a recalled table that we evaluated gives a worked value. A
// source says so ("an input of ours") where the code under test reads the same number.
// Both CHECK the tolerance. When the program ends, one aligned table is printed, and, if the environment variable
// WINGNOSE_SCOREBOARD names a file, the rows are appended to it as CSV. Values are printed in the unit the caller uses.
#pragma once

#include "catch.hpp"
#include "wingnose/words/names.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

namespace scoreboard {

// What a reference value is. print_scoreboard.py knows the same names.
enum class Trust { printed, from_memory, common_practice, worked };
constexpr auto names(Trust) {
  using wingnose::Name;
  return std::array{Name{Trust::printed, "printed", "seen in a publication: author, year, table or clause"},
                    Name{Trust::from_memory, "from memory", "stands in a publication, quoted from memory"},
                    Name{Trust::common_practice, "common practice", "a fact of the trade, no source"},
                    Name{Trust::worked, "worked",
                         "worked out by us apart from the code under test: a published "
                         "formula evaluated, another method, closed mathematics"}};
}

struct Source {
  Trust trust;
  std::string text;
};

struct Row {
  std::string what;
  double reference;
  double computed;
  int digits; // matching digits, 0 to 15; -1 where the reference value is zero and no relative error exists
  std::string tolerance;
  Source source;
  bool passed;
};

inline int matching_digits(double computed, double reference) {
  if (reference == 0.0) {
    return computed == 0.0 ? 15 : -1;
  }
  const double error = std::abs((computed - reference) / reference);
  if (!std::isfinite(error)) {
    return 0;
  }
  if (error == 0.0) {
    return 15;
  }
  return std::clamp(static_cast<int>(std::floor(-std::log10(error))), 0, 15);
}

inline std::string number(double value, const char* format = "%.10g") {
  char text[40];
  std::snprintf(text, sizeof text, format, value);
  return text;
}

inline std::string quoted(const std::string& field) {
  std::string out = "\"";
  for (const char c : field) {
    out += c == '"' ? std::string("\"\"") : std::string(1, c);
  }
  return out + "\"";
}

// Lives until the program ends; its destructor reports. One per executable because it is an inline function's static.
class Board {
public:
  Board() = default;
  Board(const Board&) = delete;
  Board& operator=(const Board&) = delete;
  ~Board() {
    if (rows_.empty()) {
      return;
    }
    print();
    if (const char* path = std::getenv("WINGNOSE_SCOREBOARD"); path != nullptr && *path != '\0') {
      append_to(path);
    }
  }
  void add(Row row) { rows_.push_back(std::move(row)); }

private:
  [[nodiscard]] static std::string digits(const Row& row) {
    return row.digits < 0 ? std::string("-") : std::to_string(row.digits);
  }

  // Rows of one source stand together under a heading, the sources of one trust one after the other.
  void print() const {
    std::vector<Row> rows = rows_;
    const auto key = [](const Row& row) { return std::tie(row.source.trust, row.source.text); };
    std::stable_sort(rows.begin(), rows.end(), [&](const Row& a, const Row& b) { return key(a) < key(b); });
    std::size_t what = 8;
    for (const Row& row : rows) {
      what = std::max(what, row.what.size());
    }
    const int width = static_cast<int>(what);
    std::printf("\n%-*s  %12s  %12s  %6s  %-10s  %s\n", width, "quantity", "reference", "computed", "digits",
                "tolerance", "ok");
    const Row* before = nullptr;
    for (const Row& row : rows) {
      if (before == nullptr || key(*before) != key(row)) {
        std::printf("%s: %s\n", std::string(wingnose::name(row.source.trust)).c_str(), row.source.text.c_str());
      }
      before = &row;
      std::printf("%-*s  %12.7g  %12.7g  %6s  %-10s  %s\n", width, row.what.c_str(), row.reference, row.computed,
                  digits(row).c_str(), row.tolerance.c_str(), row.passed ? "yes" : "NO");
    }
    std::fflush(stdout);
  }

  // Many test programs may write the same file at once: a lock decides who writes the heading, and each program
  // hands over all of its rows in one write.
  void append_to(const char* path) const {
    const int file = ::open(path, O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0644);
    if (file < 0) {
      std::fprintf(stderr, "scoreboard: cannot open %s for appending; the rows were printed only\n", path);
      return;
    }
    const bool locked = ::flock(file, LOCK_EX) == 0;
    struct stat info {};
    std::string text;
    if (locked && ::fstat(file, &info) == 0 && info.st_size == 0) {
      text = "quantity,reference,computed,matching_digits,tolerance,passed,trust,source\n";
    }
    for (const Row& row : rows_) {
      text += quoted(row.what) + ',' + number(row.reference, "%.17g") + ',' + number(row.computed, "%.17g") + ',' +
              digits(row) + ',' + quoted(row.tolerance) + ',' + (row.passed ? "yes" : "no") + ',' +
              std::string(wingnose::name(row.source.trust)) + ',' + quoted(row.source.text) + '\n';
    }
    if (::write(file, text.data(), text.size()) != static_cast<ssize_t>(text.size())) {
      std::fprintf(stderr, "scoreboard: could not write all rows to %s\n", path);
    }
    ::close(file); // also releases the lock
  }

  std::vector<Row> rows_;
};

inline Board& board() {
  static Board the_board;
  return the_board;
}

inline void record(const std::string& what, double computed, double reference, double allowed,
                   const std::string& tolerance, const Source& source, const char* file, int line) {
  REQUIRE_FALSE(source.text.empty());
  const double error = std::abs(computed - reference);
  const bool passed = error <= allowed; // false for NaN as well
  board().add({what, reference, computed, matching_digits(computed, reference), tolerance, source, passed});
  INFO(file << ":" << line << ": " << what << " is " << number(computed) << ", reference " << number(reference)
            << ", tolerance " << tolerance << " (" << wingnose::name(source.trust) << ": " << source.text << ")");
  CHECK(error <= allowed);
}

} // namespace scoreboard

using scoreboard::Source;
using scoreboard::Trust;

// relative_tolerance > 0 and reference != 0; use score_abs for a reference of zero.
inline void score(const std::string& what, double computed, double reference, double relative_tolerance,
                  const Source& source, const char* file = __builtin_FILE(), int line = __builtin_LINE()) {
  REQUIRE(reference != 0.0);
  scoreboard::record(what, computed, reference, relative_tolerance * std::abs(reference),
                     scoreboard::number(relative_tolerance, "%.3g") + " rel", source, file, line);
}

inline void score_abs(const std::string& what, double computed, double reference, double absolute_tolerance,
                      const Source& source, const char* file = __builtin_FILE(), int line = __builtin_LINE()) {
  scoreboard::record(what, computed, reference, absolute_tolerance,
                     scoreboard::number(absolute_tolerance, "%.3g") + " abs", source, file, line);
}
