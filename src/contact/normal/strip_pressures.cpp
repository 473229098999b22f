#include "strip_pressures.hpp"

#include "wingnose/numeric/clones.hpp"

#include <boost/math/special_functions/ellint_rd.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>

namespace wingnose::contact {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double tiny = 1e-10; // m
constexpr int most = most_strips;
// A strip much shorter than its neighbours takes more from the gap through what they no longer carry than it adds by
// itself: then neither state is right for it, it would go to and fro, and its share of the force is nothing. It may try
// so often.
constexpr int most_turns = 2;
constexpr int lanes = 8; // rows are gone through in whole vectors; what lies before and behind is zero
static_assert(most % lanes == 0);

// Integral of sqrt((a^2 - x^2) / (x^2 + d^2)) over -a .. a: the displacement (times pi E*, per width and slope p0 / a)
// that a line of half-elliptic pressure makes abreast of its middle at a distance d. Substituting x = a cos(t) gives
// 2 sqrt(a^2 + d^2) (K(k) - E(k)), k^2 = a^2 / (a^2 + d^2); K - E = k^2 R_D(0, 1 - k^2, 1) / 3 (Carlson 1979).
double abreast_exact(double a, double d) {
  const double q = a * a + d * d;
  return 2.0 / 3.0 * a * a / std::sqrt(q) * boost::math::ellint_rd(0.0, d * d / q, 1.0);
}

// The same from a table over s = d / (a + d), divided by a^2 / (a + d): between 2 ln(4 / s) - 2 at s = 0, where it is
// used directly, and pi / 2 at s = 1. Straight lines between the entries err by less than 2e-3.
constexpr int cells = 2048;
constexpr double near = 4.0; // cells, from where on the table serves
struct AbreastTable {
  std::array<double, cells + 2> value{};
  AbreastTable() {
    for (int i = 1; i < cells; ++i) {
      const double s = static_cast<double>(i) / cells, a = 1.0 - s;
      value[static_cast<std::size_t>(i)] = abreast_exact(a, s) / (a * a);
    }
    value[cells] = value[cells + 1] = 0.5 * pi;
  }
};

const double* abreast() {
  static const AbreastTable table; // values of a formula, the same for every contact
  return table.value.data();
}

double abreast_near(double a, double d) { return 2.0 * a * (std::log(4.0 * a / d) - 1.0); }

// Displacements of all strips by one of half length a at place `at`, times `share`.
WINGNOSE_CLONES
void fill_column(const double* table, const double* middle, int n, double at, double a, double share, double* column) {
#pragma omp simd
  for (int i = 0; i < n; ++i) {
    const double d = std::abs(middle[i] - at), sum = a + d, u = d / sum * cells;
    const int cell = static_cast<int>(u);
    column[i] = share * (a * a / sum * (table[cell] + (u - cell) * (table[cell + 1] - table[cell])));
  }
}

// residual += slope * column
WINGNOSE_CLONES
void add_to(const double* column, double slope, int n, double* residual) {
#pragma omp simd
  for (int i = 0; i < n; ++i) {
    residual[i] += slope * column[i];
  }
}

// A x = b of n unknowns, A column by column, rows to the next whole vector zero; x is left in b. Rows are not
// exchanged: a strip moves its own middle most, so the largest number of a column is on the diagonal, and stays there.
WINGNOSE_CLONES
void eliminate(int n, double* A, double* b) {
  const int rows = (n + lanes - 1) / lanes * lanes;
  alignas(64) std::array<double, most> factor;
  for (int k = 0; k < n; ++k) {
    const double* pivot = A + k * most;
    const double inverse = 1.0 / pivot[k];
    const int first = (k + 1) / lanes * lanes;
    for (int i = first; i < rows; ++i) {
      factor[static_cast<std::size_t>(i)] = i > k ? pivot[i] * inverse : 0.0;
    }
    const double* l = factor.data();
    for (int j = k + 1; j <= n; ++j) {
      double* column = j < n ? A + j * most : b;
      const double u = column[k];
#pragma omp simd
      for (int i = first; i < rows; ++i) {
        column[i] -= l[i] * u;
      }
    }
  }
  for (int j = n - 1; j >= 0; --j) {
    const double* column = A + j * most;
    const double x = b[j] / column[j];
    b[j] = x;
#pragma omp simd
    for (int i = 0; i < j; ++i) {
      b[i] -= column[i] * x;
    }
  }
}

} // namespace

void StripPressures::add(double middle, double width, double closing, double half_length) {
  middle_[n_] = middle;
  width_[n_] = width;
  closing_[n_] = closing;
  length_[n_] = half_length;
  slope_[n_] = 0.0;
  left_[n_] = -closing;
  state_[n_] = State::none;
  left_carrying_[n_] = 0;
  ++n_;
}

void StripPressures::lengthen(int i, double half_length) {
  length_[i] = half_length;
  state_[i] = State::none; // until its column is made again
}

bool StripPressures::settle() {
  bool settled = true;
  for (int i = 0; i < n_; ++i) {
    if (state_[i] == State::carries && !(slope_[i] >= 0.0 && slope_[i] <= limit_)) {
      state_[i] = slope_[i] < 0.0 ? State::open : State::steepest;
      ++left_carrying_[i];
      settled = false;
    } else if (left_carrying_[i] < most_turns &&
               ((state_[i] == State::open && left_[i] < -tiny) || (state_[i] == State::steepest && left_[i] > tiny))) {
      state_[i] = State::carries;
      settled = false;
    }
  }
  return settled;
}

void StripPressures::make_column(int j) {
  const double* table = abreast();
  const double a = length_[j], share = width_[j] / (pi * modulus_);
  double* column = influence_.data() + j * most;
  fill_column(table, middle_.data(), n_, middle_[j], a, share, column);
  // Within the strip itself: the mean logarithmic distance of two of its points.
  column[j] = share * abreast_near(a, width_[j] / (2.0 * std::numbers::e));
  for (const int way : {-1, 1}) {
    for (int i = j + way; i >= 0 && i < n_; i += way) {
      const double d = std::abs(middle_[i] - middle_[j]);
      if (d / (a + d) * cells >= near) {
        break;
      }
      column[i] = share * abreast_near(a, d);
    }
  }
}

void StripPressures::solve() {
  for (int i = 0; i < n_; ++i) {
    if (length_[i] > 0.0 && state_[i] == State::none) {
      make_column(i);
      state_[i] = State::carries;
    }
  }
  do {
    solve_carrying();
  } while (!settle());
}

void StripPressures::look_at_gaps() {
  for (int i = 0; i < n_; ++i) {
    left_[i] = -closing_[i];
  }
  for (int j = 0; j < n_; ++j) {
    if (slope_[j] != 0.0) {
      add_to(influence_.data() + j * most, slope_[j], n_, left_.data());
    }
  }
}

// Slopes of the carrying strips beside those that are at the limit.
void StripPressures::solve_carrying() {
  std::array<int, most> index;
  int m = 0;
  for (int i = 0; i < n_; ++i) {
    slope_[i] = state_[i] == State::steepest ? limit_ : 0.0;
    if (state_[i] == State::carries) {
      index[m++] = i;
    }
  }
  look_at_gaps();
  const int rows = (m + lanes - 1) / lanes * lanes;
  alignas(64) std::array<double, most * most> A;
  alignas(64) std::array<double, most> b;
  for (int j = 0; j < m; ++j) {
    const double* column = influence_.data() + index[j] * most;
    double* of = A.data() + j * most;
    for (int i = 0; i < m; ++i) {
      of[i] = column[index[i]];
    }
    std::fill(of + m, of + rows, 0.0);
    b[j] = -left_[index[j]];
  }
  std::fill(b.begin() + m, b.begin() + rows, 0.0);
  eliminate(m, A.data(), b.data());
  for (int j = 0; j < m; ++j) {
    slope_[index[j]] = b[j];
  }
  look_at_gaps();
}

} // namespace wingnose::contact
