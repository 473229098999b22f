#include "kernels.hpp"

#include "wingnose/numeric/clones.hpp"

#include "wingnose/track/modal.hpp"

#include <cstddef>

namespace wingnose::passage::kernels {

WINGNOSE_CLONES
double advance(const Modes& modes, double* __restrict y_re, double* __restrict y_im, double* __restrict theta_re,
               double* __restrict theta_im, double force, const Place& place) {
  const std::ptrdiff_t n = modes.n;
  const double* __restrict er = modes.decay_re;
  const double* __restrict ei = modes.decay_im;
  const double* __restrict shape_re = place.shape_re;
  const double* __restrict shape_im = place.shape_im;
  const double s = place.s;
  double sum = 0.0;
#pragma omp simd reduction(+ : sum)
  for (std::ptrdiff_t k = 0; k < n; ++k) {
    const double a = er[k] * y_re[k] - ei[k] * y_im[k] + theta_re[k] * force;
    const double b = er[k] * y_im[k] + ei[k] * y_re[k] + theta_im[k] * force;
    const double p = track::shape_at(shape_re, n, k, s);
    const double q = track::shape_at(shape_im, n, k, s);
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
  const double* __restrict shape_re = place.shape_re;
  const double* __restrict shape_im = place.shape_im;
  const double s = place.s;
  double sum = 0.0;
#pragma omp simd reduction(+ : sum)
  for (std::ptrdiff_t k = 0; k < n; ++k) {
    const double p = track::shape_at(shape_re, n, k, s);
    const double q = track::shape_at(shape_im, n, k, s);
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
  const double* __restrict shape_re = place.shape_re;
  const double* __restrict shape_im = place.shape_im;
  const double s = place.s;
  // Two accumulators of eight: a chain of dependent additions would be the slowest part.
  double even[8] = {}, odd[8] = {};
  // Mode shapes for eight modes at a time, so that their evaluation is vectorised too; n is a multiple of eight.
  for (std::ptrdiff_t block = 0; block < n; block += 8) {
    double p[8], q[8], last_re[8], last_im[8];
#pragma omp simd
    for (int m = 0; m < 8; ++m) {
      const std::ptrdiff_t k = block + m;
      p[m] = track::shape_at(shape_re, n, k, s);
      q[m] = track::shape_at(shape_im, n, k, s);
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

} // namespace wingnose::passage::kernels
