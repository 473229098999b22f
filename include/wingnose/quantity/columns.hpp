// Structs told by the columns that stand beside them (wingnose/words/column.hpp).
#pragma once

#include "wingnose/quantity/tree.hpp"
#include "wingnose/words/column.hpp"

#include <array>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace wingnose::quantity {

template <class T, class Value> [[nodiscard]] Named named_by(const Column<T, Value>& c, Detail detail) {
  return {std::string(c.key), std::string(c.label), std::string(c.meaning), c.decimals, detail};
}

// One value of each column; of: nullptr where there are none.
template <class T, std::size_t n>
void add_values(Filler filler, const T* of, const std::array<Column<T>, n>& columns, Detail detail = Detail::printed) {
  for (const Column<T>& c : columns) {
    filler.number(named_by(c, detail), of != nullptr ? std::optional(c(*of)) : std::nullopt);
  }
}

// The lists of one struct, side by side over a dimension.
template <class T, std::size_t n>
void add_lists(Filler filler, const std::string& dim, const T& of, const std::array<ListColumn<T>, n>& columns,
               Detail detail = Detail::stored) {
  for (const ListColumn<T>& c : columns) {
    filler.list(named_by(c, detail), dim, c(of));
  }
}

// The columns of all items; part: what of an item they are of.
template <class Items, class T, std::size_t n, class Part = std::identity>
void add_columns(Filler filler, const std::string& dim, const Items& items, const std::array<Column<T>, n>& columns,
                 Detail detail = Detail::printed, Part part = {}) {
  for (const Column<T>& c : columns) {
    std::vector<double> values;
    values.reserve(items.size());
    for (const auto& item : items) {
      values.push_back(c(std::invoke(part, item)));
    }
    filler.list(named_by(c, detail), dim, std::move(values));
  }
}

} // namespace wingnose::quantity
