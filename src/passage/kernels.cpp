#include "kernels.hpp"

#include "wingnose/numeric/clones.hpp"

#include "wingnose/track/modal.hpp"

#include <cstddef>

namespace wingnose::passage::kernels {

namespace {

// One mode of one case: y to the end of the step, and what it adds to the deflection at the new place. The same
// expressions for one case and for eight, so that a compiler rounds them alike.
[[gnu::always_inline]] inline void advance_mode(double decay_re, double decay_im, double last_re, double last_im,
                                                double p, double q, double force, double& y_re, double& y_im,
                                                double& sum) {
  const double re = decay_re * y_re - decay_im * y_im + last_re * force;
  const double im = decay_re * y_im + decay_im * y_re + last_im * force;
  y_re = re;
  y_im = im;
  sum += p * re;
  sum -= q * im;
}

// y: [n][lanes]. Sums go by the mode's place in its block of eight, whatever the lanes: a case alone, whose modes lie
// side by side in a vector, has the bits of a case among eight.
template <int lanes>
[[gnu::always_inline]] inline void advance_lanes(const Modes& modes, double* __restrict y_re, double* __restrict y_im,
                                                 double* __restrict theta_re, double* __restrict theta_im,
                                                 const double* __restrict force, const Place& place,
                                                 double* __restrict deflection) {
  const std::ptrdiff_t n = modes.n;
  const double* __restrict shape_re = place.shape_re;
  const double* __restrict shape_im = place.shape_im;
  const double s = place.s;
  double sum[8][lanes] = {}, f[lanes];
  for (int j = 0; j < lanes; ++j) {
    f[j] = force[j];
  }
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
    const double* __restrict er = modes.decay_re + block;
    const double* __restrict ei = modes.decay_im + block;
    double* __restrict a = y_re + lanes * block;
    double* __restrict b = y_im + lanes * block;
    if constexpr (lanes == 1) {
#pragma omp simd
      for (int m = 0; m < 8; ++m) {
        advance_mode(er[m], ei[m], last_re[m], last_im[m], p[m], q[m], f[0], a[m], b[m], sum[m][0]);
      }
    } else {
#pragma GCC unroll 8
      for (int m = 0; m < 8; ++m) {
#pragma omp simd
        for (int j = 0; j < lanes; ++j) {
          const int at = lanes * m + j;
          advance_mode(er[m], ei[m], last_re[m], last_im[m], p[m], q[m], f[j], a[at], b[at], sum[m][j]);
        }
      }
    }
  }
  for (int j = 0; j < lanes; ++j) {
    deflection[j] =
        ((sum[0][j] + sum[1][j]) + (sum[2][j] + sum[3][j])) + ((sum[4][j] + sum[5][j]) + (sum[6][j] + sum[7][j]));
  }
}

} // namespace

WINGNOSE_CLONES
double advance(const Modes& modes, double* __restrict y_re, double* __restrict y_im, double* __restrict theta_re,
               double* __restrict theta_im, double force, const Place& place) {
  double deflection = 0.0;
  advance_lanes<1>(modes, y_re, y_im, theta_re, theta_im, &force, place, &deflection);
  return deflection;
}

WINGNOSE_CLONES
void advance8(const Modes& modes, double* __restrict y_re, double* __restrict y_im, double* __restrict theta_re,
              double* __restrict theta_im, const double* __restrict force, const Place& place,
              double* __restrict deflection) {
  advance_lanes<8>(modes, y_re, y_im, theta_re, theta_im, force, place, deflection);
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

} // namespace wingnose::passage::kernels
