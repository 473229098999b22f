// Products of small real matrices, by columns, with numbers that lie side by side in memory, summed in registers.
#pragma once

#include "wingnose/numeric/clones.hpp"
#include "wingnose/track/chain/chain.hpp"

#include <algorithm>
#include <array>

namespace wingnose::track::chain::detail {

// Numbers are template arguments where they are known beforehand, 0 where not.
constexpr int places(int known, int most) { return known > 0 ? known : most; }

// Numbers side by side, held in registers as wide as the machine has.
template <int n> struct Wide { using type [[gnu::vector_size(8 * n)]] = double; };

template <int rows> class Sum {
public:
  // += A x; A by columns, [rows x columns]. Returns the end of A.
  WINGNOSE_INTO_CLONES const double* add(const double* A, const double* x, int columns) {
    for (int c = 0; c < columns; ++c, A += rows) {
      for (int p = 0; p < pieces; ++p) {
        V column;
        __builtin_memcpy(&column, A + p * width, sizeof column);
        sum_[p] += column * x[c];
      }
    }
    return A;
  }
  WINGNOSE_INTO_CLONES void add(const Sum& other) {
    for (int p = 0; p < pieces; ++p) {
      sum_[p] += other.sum_[p];
    }
  }
  WINGNOSE_INTO_CLONES void put(double* y) const { __builtin_memcpy(y, sum_, sizeof sum_); }
  WINGNOSE_INTO_CLONES void add_to(double* y) const {
    for (int p = 0; p < pieces; ++p) {
      V old;
      __builtin_memcpy(&old, y + p * width, sizeof old);
      old += sum_[p];
      __builtin_memcpy(y + p * width, &old, sizeof old);
    }
  }
  WINGNOSE_INTO_CLONES void add_halves_to(double* y, double* y_end) const {
    using Half = typename Wide<rows / 2>::type;
    std::array<double, rows> mine;
    put(mine.data());
    Half sum, old;
    for (int half = 0; half < 2; ++half) {
      double* to = half == 0 ? y : y_end;
      __builtin_memcpy(&sum, mine.data() + half * (rows / 2), sizeof sum);
      __builtin_memcpy(&old, to, sizeof old);
      old += sum;
      __builtin_memcpy(to, &old, sizeof old);
    }
  }

private:
  static constexpr int width = std::min(rows, 8), pieces = rows / width;
  static_assert(pieces * width == rows);
  using V = typename Wide<width>::type;
  V sum_[pieces]{};
};
// As many rows as are told when it runs.
template <> class Sum<0> {
public:
  explicit Sum(int rows) : rows_(rows) { std::fill_n(sum_.begin(), rows, 0.0); }
  WINGNOSE_INTO_CLONES const double* add(const double* A, const double* x, int columns) {
    for (int c = 0; c < columns; ++c, A += rows_) {
      for (int r = 0; r < rows_; ++r) {
        sum_[r] += A[r] * x[c];
      }
    }
    return A;
  }
  WINGNOSE_INTO_CLONES void add(const Sum& other) {
    for (int r = 0; r < rows_; ++r) {
      sum_[r] += other.sum_[r];
    }
  }
  WINGNOSE_INTO_CLONES void put(double* y) const { std::copy_n(sum_.begin(), rows_, y); }
  WINGNOSE_INTO_CLONES void add_to(double* y) const {
    for (int r = 0; r < rows_; ++r) {
      y[r] += sum_[r];
    }
  }

private:
  int rows_;
  std::array<double, std::max(2 * most_coordinates, 4 * most_lines)> sum_;
};
template <int known> WINGNOSE_INTO_CLONES Sum<known> nothing([[maybe_unused]] int rows) {
  if constexpr (known > 0) {
    return {};
  } else {
    return Sum<0>(rows);
  }
}

} // namespace wingnose::track::chain::detail
