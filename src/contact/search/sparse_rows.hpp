// Rows along a line, searched only where a cubic does not foresee them: every eighth is searched, and the one in the
// middle of every eight. Where the cubic through the four about it meets the middle within a tolerance in every
// column, the rows between follow from a quartic through the five, which errs by a small part of that tolerance; all
// others are searched.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

namespace wingnose::contact {

template <class Row> struct Foreseen {
  double Row::*column;
  double within; // of the middle
};

namespace sparse {

inline constexpr std::size_t apart = 8;
// Weights of the rows -8, 0, 4, 8, 16 for the row i of 1 .. 7 (Lagrange).
using Weights = std::array<double, 5>;
[[nodiscard]] constexpr std::array<Weights, apart> weights() {
  constexpr std::array<double, 5> at{-8.0, 0.0, 4.0, 8.0, 16.0};
  std::array<Weights, apart> all{};
  for (std::size_t i = 0; i < apart; ++i) {
    for (std::size_t a = 0; a < at.size(); ++a) {
      all[i][a] = 1.0;
      for (std::size_t b = 0; b < at.size(); ++b) {
        all[i][a] *= a == b ? 1.0 : (static_cast<double>(i) - at[b]) / (at[a] - at[b]);
      }
    }
  }
  return all;
}

} // namespace sparse

// search(i): the row at i of `count`. even(i, j): whether the rows from i to j are equally spaced.
template <class Row, std::size_t columns, class Search, class Even>
[[nodiscard]] std::vector<Row> sparse_rows(std::size_t count, const std::array<Foreseen<Row>, columns>& foreseen,
                                           const Search& search, const Even& even) {
  static constexpr auto weights = sparse::weights();
  constexpr std::size_t apart = sparse::apart;
  std::vector<Row> rows(count);
  std::vector<char> known(count, 0);
  const auto at = [&](std::size_t i) -> const Row& {
    if (known[i] == 0) {
      rows[i] = search(i);
      known[i] = 1;
    }
    return rows[i];
  };
  const auto foreseeable = [&](std::size_t begin) {
    const std::array<const Row*, 5> five{&at(begin - apart), &at(begin), &at(begin + apart / 2), &at(begin + apart),
                                         &at(begin + 2 * apart)};
    for (const Foreseen<Row>& f : foreseen) {
      const double cubic =
          (9.0 * (five[1]->*f.column + five[3]->*f.column) - five[0]->*f.column - five[4]->*f.column) / 16.0;
      if (!(std::abs(cubic - five[2]->*f.column) <= f.within)) { // nor where there is none
        return false;
      }
    }
    for (std::size_t i = 1; i < apart; ++i) {
      if (i == apart / 2) {
        continue;
      }
      for (const Foreseen<Row>& f : foreseen) {
        double sum = 0.0;
        for (std::size_t k = 0; k < five.size(); ++k) {
          sum += weights[i][k] * (five[k]->*f.column);
        }
        rows[begin + i].*f.column = sum;
      }
    }
    return true;
  };
  for (std::size_t begin = 0; begin < count; begin += apart) {
    const bool inside = begin >= apart && begin + 2 * apart < count && even(begin - apart, begin + 2 * apart);
    if (!inside || !foreseeable(begin)) {
      for (std::size_t i = begin; i < std::min(begin + apart, count); ++i) {
        (void)at(i);
      }
    }
  }
  return rows;
}

} // namespace wingnose::contact
