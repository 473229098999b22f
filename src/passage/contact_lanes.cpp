// Newton's method for eight contacts side by side, or for one. Compiled without contraction of products and sums
// (src/CMakeLists.txt): only then a law of one term gives the same bits with and without the terms that are zero.
#include "kernels.hpp"
#include "wingnose/numeric/clones.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace wingnose::passage::kernels {
namespace {

struct Reaction {
  double force, stiffness; // N, N/m
};

// ForceLaw::at() of one body in one lane; without further terms Hertz's law alone.
template <bool further_terms>
[[gnu::always_inline]] inline Reaction reaction(const ContactLanes& lanes, int body, int j, double F) {
  const double d = lanes.approach[body][j] - lanes.compliance[j] * F;
  const double a = d > 0.0 ? d : 0.0;
  const double c0 = lanes.c0[body][j];
  if constexpr (further_terms) {
    const double c1 = lanes.c1[body][j], c2 = lanes.c2[body][j], reach = lanes.reach[j];
    const double e = a < reach ? a : reach, r = std::sqrt(e);
    const double k = r * (1.5 * c0 + r * (2.0 * c1 + r * 2.5 * c2));
    return {e * r * (c0 + r * (c1 + r * c2)) + k * (a - e), k};
  } else {
    const double r = std::sqrt(a);
    return {a * r * c0, r * (1.5 * c0)};
  }
}

template <int count, bool further_terms> [[gnu::always_inline]] inline void solve(ContactLanes& lanes) {
  double ceiling[count], resting[count], force[count], first[count], second[count];
#pragma omp simd
  for (int j = 0; j < count; ++j) {
    const double deepest = lanes.approach[0][j] > lanes.approach[1][j] ? lanes.approach[0][j] : lanes.approach[1][j];
    const double top = deepest / lanes.compliance[j];
    ceiling[j] = top > 0.0 ? top : 0.0;
    const double guess = lanes.force[j] < ceiling[j] ? lanes.force[j] : ceiling[j];
    force[j] = guess > 0.0 ? guess : 0.0;
    first[j] = second[j] = resting[j] = 0.0;
  }
  for (int iteration = 0; iteration < 60; ++iteration) {
    double at_rest = 0.0;
#pragma omp simd reduction(+ : at_rest)
    for (int j = 0; j < count; ++j) {
      const double F = force[j];
      const Reaction one = reaction<further_terms>(lanes, 0, j, F);
      const Reaction two = reaction<further_terms>(lanes, 1, j, F);
      const double step =
          F + (one.force + two.force - F) / (1.0 + lanes.compliance[j] * (one.stiffness + two.stiffness));
      const double low = step > 0.0 ? step : 0.0;
      const double next = low < ceiling[j] ? low : ceiling[j];
      const double change = next > F ? next - F : F - next;
      const bool moves = resting[j] == 0.0;
      force[j] = moves ? next : F;
      first[j] = moves ? one.force : first[j];
      second[j] = moves ? two.force : second[j];
      resting[j] = !moves || change <= 1e-6 * next + 1e-6 ? 1.0 : 0.0;
      at_rest += resting[j];
    }
    if (at_rest == count) {
      break;
    }
  }
#pragma omp simd
  for (int j = 0; j < count; ++j) { // shares add up to the total, as in solve_contact()
    const double sum = first[j] + second[j];
    const double share = sum > 0.0 ? force[j] / sum : 0.0;
    lanes.force[j] = force[j];
    lanes.body_force[0][j] = first[j] * share;
    lanes.body_force[1][j] = second[j] * share;
  }
}

} // namespace

void spoil(ContactLanes& lanes) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  for (auto* values : {lanes.approach, lanes.c0, lanes.c1, lanes.c2, lanes.body_force}) {
    std::fill_n(&values[0][0], 2 * 8, nan);
  }
  for (double* values : {lanes.reach, lanes.compliance, lanes.force}) {
    std::fill_n(values, 8, nan);
  }
}

WINGNOSE_CLONES
void solve_contact8(ContactLanes& lanes, bool further_terms) {
  if (further_terms) {
    solve<8, true>(lanes);
  } else {
    solve<8, false>(lanes);
  }
}

void solve_contact1(ContactLanes& lanes, bool further_terms) {
  if (further_terms) {
    solve<1, true>(lanes);
  } else {
    solve<1, false>(lanes);
  }
}

} // namespace wingnose::passage::kernels
