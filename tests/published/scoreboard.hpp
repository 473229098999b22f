// The scoreboard of the published checks: what we compute beside what was published, with the digits that agree.
//
//   score("what, unit", computed, published, relative_tolerance, "source, trust");
//   score_abs("what, unit", computed, published, absolute_tolerance, "source, trust");
//
// Both CHECK the tolerance. When the program ends, one aligned table is printed, and, if the environment variable
// WINGNOSE_SCOREBOARD names a file, the rows are appended to it as CSV. Values are printed in the unit the caller uses.
#pragma once

#include "catch.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdio>
#include <cstdlib>
#include <source_location>
#include <string>
#include <vector>

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

namespace scoreboard {

struct Row {
  std::string what;
  double published;
  double computed;
  int digits; // matching digits, 0 to 15; -1 where the published value is zero and no relative error exists
  std::string tolerance;
  std::string source;
  bool passed;
};

inline int matching_digits(double computed, double published) {
  if (published == 0.0)
    return computed == 0.0 ? 15 : -1;
  const double error = std::abs((computed - published) / published);
  if (!std::isfinite(error))
    return 0;
  if (error == 0.0)
    return 15;
  return std::clamp(static_cast<int>(std::floor(-std::log10(error))), 0, 15);
}

inline std::string number(double value, const char* format = "%.10g") {
  char text[40];
  std::snprintf(text, sizeof text, format, value);
  return text;
}

inline std::string quoted(const std::string& field) {
  std::string out = "\"";
  for (const char c : field)
    out += c == '"' ? std::string("\"\"") : std::string(1, c);
  return out + "\"";
}

// Lives until the program ends; its destructor reports. One per executable because it is an inline function's static.
class Board {
public:
  Board() = default;
  Board(const Board&) = delete;
  Board& operator=(const Board&) = delete;
  ~Board() {
    if (rows_.empty())
      return;
    print();
    if (const char* path = std::getenv("WINGNOSE_SCOREBOARD"); path != nullptr && *path != '\0')
      append_to(path);
  }
  void add(Row row) { rows_.push_back(std::move(row)); }

private:
  [[nodiscard]] static std::string digits(const Row& row) {
    return row.digits < 0 ? std::string("-") : std::to_string(row.digits);
  }

  void print() const {
    std::size_t what = 8;
    std::size_t tolerance = 9;
    for (const Row& row : rows_) {
      what = std::max(what, row.what.size());
      tolerance = std::max(tolerance, row.tolerance.size());
    }
    std::printf("\n%-*s  %16s  %16s  %6s  %-*s  %-4s  %s\n", static_cast<int>(what), "quantity", "published",
                "computed", "digits", static_cast<int>(tolerance), "tolerance", "ok", "source");
    for (const Row& row : rows_)
      std::printf("%-*s  %16.9g  %16.9g  %6s  %-*s  %-4s  %s\n", static_cast<int>(what), row.what.c_str(),
                  row.published, row.computed, digits(row).c_str(), static_cast<int>(tolerance), row.tolerance.c_str(),
                  row.passed ? "yes" : "NO", row.source.c_str());
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
    if (locked && ::fstat(file, &info) == 0 && info.st_size == 0)
      text = "quantity,published,computed,matching_digits,tolerance,passed,source\n";
    for (const Row& row : rows_)
      text += quoted(row.what) + ',' + number(row.published, "%.17g") + ',' + number(row.computed, "%.17g") + ',' +
              digits(row) + ',' + quoted(row.tolerance) + ',' + (row.passed ? "yes" : "no") + ',' + quoted(row.source) +
              '\n';
    if (::write(file, text.data(), text.size()) != static_cast<ssize_t>(text.size()))
      std::fprintf(stderr, "scoreboard: could not write all rows to %s\n", path);
    ::close(file); // also releases the lock
  }

  std::vector<Row> rows_;
};

inline Board& board() {
  static Board the_board;
  return the_board;
}

inline void record(const std::string& what, double computed, double published, double allowed,
                   const std::string& tolerance, const std::string& source, const std::source_location& where) {
  const double error = std::abs(computed - published);
  const bool passed = error <= allowed; // false for NaN as well
  board().add({what, published, computed, matching_digits(computed, published), tolerance, source, passed});
  INFO(where.file_name() << ":" << where.line() << ": " << what << " is " << number(computed) << ", published "
                         << number(published) << ", tolerance " << tolerance << " (" << source << ")");
  CHECK(error <= allowed);
}

} // namespace scoreboard

// relative_tolerance > 0 and published != 0; use score_abs for a published zero.
inline void score(const std::string& what, double computed, double published, double relative_tolerance,
                  const std::string& source, const std::source_location& where = std::source_location::current()) {
  REQUIRE(published != 0.0);
  scoreboard::record(what, computed, published, relative_tolerance * std::abs(published),
                     scoreboard::number(relative_tolerance, "%.3g") + " rel", source, where);
}

inline void score_abs(const std::string& what, double computed, double published, double absolute_tolerance,
                      const std::string& source, const std::source_location& where = std::source_location::current()) {
  scoreboard::record(what, computed, published, absolute_tolerance,
                     scoreboard::number(absolute_tolerance, "%.3g") + " abs", source, where);
}
