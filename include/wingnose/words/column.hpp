// How the numbers and texts of a struct are called where they are told: one row per column, written down once beside
// the struct, as its ranges are (range.hpp), and read by everyone who tells it:
//
//   struct Strip {
//     double y; // m
//     ...
//   };
//   inline constexpr auto strip_columns = std::to_array<Column<Strip>>({
//       {"y_mm", "y", "middle of the strip from the track centre line", &Strip::y, 2}, ...});
//
// Values in SI, NaN where there is none. The unit a number is told in is the last part of its key.
#pragma once

#include "wingnose/words/unit.hpp"

#include <array>
#include <string>
#include <string_view>
#include <vector>

namespace wingnose {

// Value: a number, a text, or the list of numbers of all rows.
template <class T, class Value = double> struct Column {
  std::string_view key, label, meaning;
  Value T::*member = nullptr; // either of these
  Value (*get)(const T&) = nullptr;
  int decimals; // in print
  Unit unit;

  constexpr Column(std::string_view its_key, std::string_view its_label, std::string_view its_meaning, Value T::*of,
                   int shown = 0)
      : key(its_key), label(its_label), meaning(its_meaning), member(of), decimals(shown), unit(unit_of(its_key)) {}
  constexpr Column(std::string_view its_key, std::string_view its_label, std::string_view its_meaning,
                   Value (*of)(const T&), int shown = 0)
      : key(its_key), label(its_label), meaning(its_meaning), get(of), decimals(shown), unit(unit_of(its_key)) {}
  [[nodiscard]] Value operator()(const T& from) const { return member != nullptr ? from.*member : get(from); }
};
template <class T> using ListColumn = Column<T, std::vector<double>>;
template <class T> using TextColumn = Column<T, std::string>;

} // namespace wingnose
