// Parts that many answers have in common.
#pragma once

#include "wingnose/quantity/columns.hpp"
#include "wingnose/study/run.hpp"

#include <functional>
#include <limits>
#include <span>
#include <string>
#include <vector>

namespace wingnose::study {

using quantity::add_columns;
using quantity::add_lists;
using quantity::add_values;
using quantity::Columns;
using quantity::Detail;
using quantity::Filler;
using quantity::Layout;
using quantity::Named;
using quantity::Tree;
inline constexpr Detail told = Detail::told, stored = Detail::stored;
using Dims = Filler::Dims;
inline constexpr double none = std::numeric_limits<double>::quiet_NaN();

// of(item), in order.
template <class Items, class Of> auto each(const Items& items, Of of) {
  std::vector<std::decay_t<decltype(std::invoke(of, *items.begin()))>> values;
  values.reserve(items.size());
  for (const auto& item : items) {
    values.push_back(std::invoke(of, item));
  }
  return values;
}
// of(row, column) of two dimensions, row by row.
template <class Of> auto grid(const Dims& dims, Of of) {
  std::vector<decltype(of(std::size_t{0}, std::size_t{0}))> values;
  for (std::size_t row = 0; row < dims[0].second; ++row) {
    for (std::size_t column = 0; column < dims[1].second; ++column) {
      values.push_back(of(row, column));
    }
  }
  return values;
}

// What the case is about, for people: over what, with what, how. move: "facing at 108.0 km/h".
void add_heading(Tree& tree, const Case& c, const std::string& move);
[[nodiscard]] std::string move_of(const Case& c);
[[nodiscard]] std::string track_words(const cases::Track& track); // of a chain
// Title of the rows of the wheel path.
[[nodiscard]] std::string path_title(const Geometry& geometry);
// Closed forms beside the passage, and what they rest on.
void add_estimates(Tree& tree, std::span<const assess::Estimate> estimates);
void add_assumptions(Tree& tree, std::span<const assess::Estimate> estimates);
void add_assumptions(Tree& tree, const std::string& title, const std::string& group,
                     std::vector<std::string> sentences);
// The text of the case, all its keys, and the files it came from.
void add_case(Tree& tree, const Case& c, std::span<const cases::InputFile> further = {});
void add_inputs(Tree& tree, std::span<const cases::InputFile> inputs);
// What every answer ends with: findings, and the case.
void add_end(Tree& tree, const Findings& findings, const Case& c, std::span<const cases::InputFile> further = {});

} // namespace wingnose::study
