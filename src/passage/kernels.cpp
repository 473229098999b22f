#include "kernels.hpp"

#include <cmath>
#include <cstddef>

// One clone per instruction set, chosen at load time. Sanitizers and other compilers use the portable version.
#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__) && !defined(__SANITIZE_ADDRESS__)
#define WINGNOSE_CLONES __attribute__((target_clones("arch=x86-64-v4", "arch=x86-64-v3", "default")))
#else
#define WINGNOSE_CLONES
#endif

namespace wingnose::passage::kernels {

WINGNOSE_CLONES
double advance(const Modes& modes, double* __restrict y_re, double* __restrict y_im, double* __restrict theta_re,
               double* __restrict theta_im, double force, const Place& place) {
  const std::ptrdiff_t n = modes.n;
  const double* __restrict er = modes.decay_re;
  const double* __restrict ei = modes.decay_im;
  const double* __restrict c0 = place.shape_re;
  const double* __restrict c1 = c0 + n;
  const double* __restrict c2 = c1 + n;
  const double* __restrict c3 = c2 + n;
  const double* __restrict d0 = place.shape_im;
  const double* __restrict d1 = d0 + n;
  const double* __restrict d2 = d1 + n;
  const double* __restrict d3 = d2 + n;
  const double s = place.s;
  double sum = 0.0;
#pragma omp simd reduction(+ : sum)
  for (std::ptrdiff_t k = 0; k < n; ++k) {
    const double a = er[k] * y_re[k] - ei[k] * y_im[k] + theta_re[k] * force;
    const double b = er[k] * y_im[k] + ei[k] * y_re[k] + theta_im[k] * force;
    const double p = ((c3[k] * s + c2[k]) * s + c1[k]) * s + c0[k];
    const double q = ((d3[k] * s + d2[k]) * s + d1[k]) * s + d0[k];
    y_re[k] = a;
    y_im[k] = b;
    theta_re[k] = p;
    theta_im[k] = q;
    sum += p * a - q * b;
  }
  return sum;
}

WINGNOSE_CLONES
void decay(const Modes& modes, double* __restrict y_re, double* __restrict y_im) {
  const double* __restrict er = modes.decay_re;
  const double* __restrict ei = modes.decay_im;
#pragma omp simd
  for (std::ptrdiff_t k = 0; k < modes.n; ++k) {
    const double a = er[k] * y_re[k] - ei[k] * y_im[k];
    const double b = er[k] * y_im[k] + ei[k] * y_re[k];
    y_re[k] = a;
    y_im[k] = b;
  }
}

WINGNOSE_CLONES
void add_force(int n, double* __restrict y_re, double* __restrict y_im, const double* __restrict theta_re,
               const double* __restrict theta_im, double force) {
#pragma omp simd
  for (std::ptrdiff_t k = 0; k < n; ++k) {
    y_re[k] += theta_re[k] * force;
    y_im[k] += theta_im[k] * force;
  }
}

WINGNOSE_CLONES
double shape_and_deflection(int n, const double* __restrict y_re, const double* __restrict y_im,
                            double* __restrict theta_re, double* __restrict theta_im, const Place& place) {
  const double* __restrict c0 = place.shape_re;
  const double* __restrict c1 = c0 + n;
  const double* __restrict c2 = c1 + n;
  const double* __restrict c3 = c2 + n;
  const double* __restrict d0 = place.shape_im;
  const double* __restrict d1 = d0 + n;
  const double* __restrict d2 = d1 + n;
  const double* __restrict d3 = d2 + n;
  const double s = place.s;
  double sum = 0.0;
#pragma omp simd reduction(+ : sum)
  for (std::ptrdiff_t k = 0; k < n; ++k) {
    const double p = ((c3[k] * s + c2[k]) * s + c1[k]) * s + c0[k];
    const double q = ((d3[k] * s + d2[k]) * s + d1[k]) * s + d0[k];
    theta_re[k] = p;
    theta_im[k] = q;
    sum += p * y_re[k] - q * y_im[k];
  }
  return sum;
}

WINGNOSE_CLONES
double dot(int n, const double* __restrict a_re, const double* __restrict a_im, const double* __restrict b_re,
           const double* __restrict b_im) {
  double sum = 0.0;
#pragma omp simd reduction(+ : sum)
  for (std::ptrdiff_t k = 0; k < n; ++k) {
    sum += a_re[k] * b_re[k] - a_im[k] * b_im[k];
  }
  return sum;
}

WINGNOSE_CLONES
std::array<double, 2> probe_pair(int n, const double* __restrict y_re, const double* __restrict y_im,
                                 const double* __restrict p_re, const double* __restrict p_im,
                                 const double* __restrict q_re, const double* __restrict q_im) {
  double p = 0.0, q = 0.0;
#pragma omp simd reduction(+ : p, q)
  for (std::ptrdiff_t k = 0; k < n; ++k) {
    p += p_re[k] * y_re[k] - p_im[k] * y_im[k];
    q += q_re[k] * y_re[k] - q_im[k] * y_im[k];
  }
  return {p, q};
}

WINGNOSE_CLONES
void advance8(const Modes& modes, double* __restrict y_re, double* __restrict y_im, double* __restrict theta_re,
              double* __restrict theta_im, const double* __restrict force, const Place& place,
              double* __restrict deflection) {
  const std::ptrdiff_t n = modes.n;
  const double* __restrict c0 = place.shape_re;
  const double* __restrict c1 = c0 + n;
  const double* __restrict c2 = c1 + n;
  const double* __restrict c3 = c2 + n;
  const double* __restrict d0 = place.shape_im;
  const double* __restrict d1 = d0 + n;
  const double* __restrict d2 = d1 + n;
  const double* __restrict d3 = d2 + n;
  const double s = place.s;
  // Two accumulators of eight: a chain of dependent additions would be the slowest part.
  double even[8] = {}, odd[8] = {};
  // Mode shapes for eight modes at a time, so that their evaluation is vectorised too; n is a multiple of eight.
  for (std::ptrdiff_t block = 0; block < n; block += 8) {
    double p[8], q[8], last_re[8], last_im[8];
#pragma omp simd
    for (int m = 0; m < 8; ++m) {
      const std::ptrdiff_t k = block + m;
      p[m] = ((c3[k] * s + c2[k]) * s + c1[k]) * s + c0[k];
      q[m] = ((d3[k] * s + d2[k]) * s + d1[k]) * s + d0[k];
      last_re[m] = theta_re[k];
      last_im[m] = theta_im[k];
      theta_re[k] = p[m];
      theta_im[k] = q[m];
    }
    for (int m = 0; m < 8; ++m) {
      const std::ptrdiff_t k = block + m;
      const double er = modes.decay_re[k], ei = modes.decay_im[k];
      double* __restrict a = y_re + 8 * k;
      double* __restrict b = y_im + 8 * k;
#pragma omp simd
      for (int j = 0; j < 8; ++j) {
        const double re = er * a[j] - ei * b[j] + last_re[m] * force[j];
        const double im = er * b[j] + ei * a[j] + last_im[m] * force[j];
        a[j] = re;
        b[j] = im;
        even[j] += p[m] * re;
        odd[j] += q[m] * im;
      }
    }
  }
  for (int j = 0; j < 8; ++j) {
    deflection[j] = even[j] - odd[j];
  }
}

WINGNOSE_CLONES
void solve_contact8(ContactLanes& lanes) {
  double ceiling[8], resting[8];
#pragma omp simd
  for (int j = 0; j < 8; ++j) {
    const double deepest = lanes.approach[0][j] > lanes.approach[1][j] ? lanes.approach[0][j] : lanes.approach[1][j];
    const double top = deepest / lanes.compliance[j];
    ceiling[j] = top > 0.0 ? top : 0.0;
    const double guess = lanes.force[j] < ceiling[j] ? lanes.force[j] : ceiling[j];
    lanes.force[j] = guess > 0.0 ? guess : 0.0;
    lanes.body_force[0][j] = lanes.body_force[1][j] = 0.0;
    resting[j] = 0.0;
  }
  for (int iteration = 0; iteration < 60; ++iteration) {
    double at_rest = 0.0;
#pragma omp simd reduction(+ : at_rest)
    for (int j = 0; j < 8; ++j) {
      const double F = lanes.force[j], S = lanes.compliance[j];
      const double d0 = lanes.approach[0][j] - S * F, d1 = lanes.approach[1][j] - S * F;
      const double a0 = d0 > 0.0 ? d0 : 0.0, a1 = d1 > 0.0 ? d1 : 0.0;
      // ForceLaw::at() of both bodies.
      const double reach = lanes.reach[j];
      const double e0 = a0 < reach ? a0 : reach, e1 = a1 < reach ? a1 : reach;
      const double r0 = std::sqrt(e0), r1 = std::sqrt(e1);
      const double k0 = r0 * (1.5 * lanes.c0[0][j] + r0 * (2.0 * lanes.c1[0][j] + r0 * 2.5 * lanes.c2[0][j]));
      const double k1 = r1 * (1.5 * lanes.c0[1][j] + r1 * (2.0 * lanes.c1[1][j] + r1 * 2.5 * lanes.c2[1][j]));
      const double f0 = e0 * r0 * (lanes.c0[0][j] + r0 * (lanes.c1[0][j] + r0 * lanes.c2[0][j])) + k0 * (a0 - e0);
      const double f1 = e1 * r1 * (lanes.c0[1][j] + r1 * (lanes.c1[1][j] + r1 * lanes.c2[1][j])) + k1 * (a1 - e1);
      const double step = F + (f0 + f1 - F) / (1.0 + S * (k0 + k1));
      const double low = step > 0.0 ? step : 0.0;
      const double next = low < ceiling[j] ? low : ceiling[j];
      const double change = next > F ? next - F : F - next;
      const bool moves = resting[j] == 0.0;
      lanes.force[j] = moves ? next : F;
      lanes.body_force[0][j] = moves ? f0 : lanes.body_force[0][j];
      lanes.body_force[1][j] = moves ? f1 : lanes.body_force[1][j];
      resting[j] = !moves || change <= 1e-6 * next + 1e-6 ? 1.0 : 0.0;
      at_rest += resting[j];
    }
    if (at_rest == 8.0) {
      break;
    }
  }
#pragma omp simd
  for (int j = 0; j < 8; ++j) { // shares add up to the total, as in solve_contact()
    const double sum = lanes.body_force[0][j] + lanes.body_force[1][j];
    const double share = sum > 0.0 ? lanes.force[j] / sum : 0.0;
    lanes.body_force[0][j] *= share;
    lanes.body_force[1][j] *= share;
  }
}

} // namespace wingnose::passage::kernels
