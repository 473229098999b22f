// Modal form of a track for time stepping: complex (state-space) modes below a cut-off plus static residual compliance.
//
// Pads and ballast damp the track far from proportionally; in state space the modes still decouple exactly:
//   dz_k/dt = lambda_k z_k + theta_k(x) f,   deflection w(x) = Re sum_k theta_k(x) z_k + residual(x) f,
// f downward force on the rail (N), w downward (m). Conjugate pairs are folded into one (theta scaled by sqrt 2); real
// eigenvalues have Im lambda = 0 (their theta may be imaginary, theta squared is real). Built once per track and
// shared, immutable, by every case and thread. SI.
//
// The damped problem is solved in the undamped modes below the cut-off, found from the modes of bays held at their
// seats, plus one residual static shape per pad damper; then the damped modes that oscillate below the cut-off are kept
// (all, should the residual turn negative otherwise). Measured on 60E1, 8 elements per bay, against all modes: cut-off
// 5 kHz moves P1 by 0.1 %, 4 kHz by 0.3 %, 3 kHz by 0.6 %; P2 does not move (by less than 0.01 %).
#pragma once

#include "wingnose/track/assembly.hpp"
#include "wingnose/words/column.hpp"

#include <complex>
#include <cstddef>
#include <memory>
#include <vector>

namespace wingnose::track {

// A station by the element that holds it and the local coordinate there.
struct OnElement {
  int element;
  double s; // 0 .. 1
};

// A cubic along an element at s: coefficient c of mode k stands at coefficient[c * stride + k]. The one place where
// mode shapes are evaluated; loops over modes take it in.
[[nodiscard]] [[gnu::always_inline]] inline double shape_at(const double* coefficient, std::ptrdiff_t stride,
                                                            std::ptrdiff_t k, double s) {
  const double* c = coefficient + k;
  return ((c[3 * stride] * s + c[2 * stride]) * s + c[stride]) * s + c[0];
}

struct ModalTrack {
  Assembly assembly;
  int modes = 0;                            // number of retained complex modes
  int padded = 0;                           // modes rounded up to a multiple of 8; padding has lambda = -1, theta = 0
  std::vector<double> lambda_re, lambda_im; // [padded] rad/s
  // theta on element e as a cubic in s in [0,1] (s = local coordinate): coefficient c (0..3), mode k:
  // theta_re[(e * 4 + c) * padded + k]
  std::vector<double> theta_re, theta_im;
  // mode shapes at the bearers: bearer_re[j * padded + k] for seat j
  std::vector<double> bearer_re, bearer_im;
  // residual compliance on a regular grid per element, residual_points per element (ends included), to be interpolated:
  // exactly by residual_at, within 1e-4 of the total compliance by straight lines; never negative
  int residual_points = 0;
  std::vector<double> residual;   // m/N, [elements * residual_points]
  double highest_frequency = 0.0; // Hz, highest retained |lambda| / 2 pi
  // Largest relative error, over all rail nodes and before truncation, of initial deflection, initial velocity and
  // static compliance of the complex modes against the real ones (-); 1e-6 is allowed.
  double bilinearity_error = 0.0;

  [[nodiscard]] double begin() const { return assembly.node.front(); }
  [[nodiscard]] double end() const { return assembly.node.back(); }
  [[nodiscard]] int elements() const { return static_cast<int>(assembly.node.size()) - 1; }
  // Element that holds station x, and residual compliance there (m/N); x must lie in [begin, end], else InputError.
  [[nodiscard]] int element_at(double x) const;
  [[nodiscard]] OnElement place(double x) const;
  [[nodiscard]] double residual_at(double x) const;
  // First of the coefficients of an element, for shape_at with the stride `padded`.
  [[nodiscard]] const double* element_re(int e) const { return theta_re.data() + std::ptrdiff_t{4} * e * padded; }
  [[nodiscard]] const double* element_im(int e) const { return theta_im.data() + std::ptrdiff_t{4} * e * padded; }
  // theta of one mode; of all modes [padded].
  [[nodiscard]] std::complex<double> shape(const OnElement& at, int mode) const {
    return {shape_at(element_re(at.element), padded, mode, at.s), shape_at(element_im(at.element), padded, mode, at.s)};
  }
  [[nodiscard]] std::vector<std::complex<double>> shapes(double x) const;
};

inline constexpr auto modal_columns = std::to_array<Column<ModalTrack>>(
    {{"modelled_length_m", "modelled length", "length of the model",
      [](const ModalTrack& m) { return m.end() - m.begin(); }, 1},
     {"bearers", "bearers", "under the model",
      [](const ModalTrack& m) { return static_cast<double>(m.assembly.seat_station.size()); }, 0},
     {"modes", "modes kept", "modes of the track model",
      [](const ModalTrack& m) { return static_cast<double>(m.modes); }, 0},
     {"highest_mode_hz", "highest mode", "frequency of the highest mode kept", &ModalTrack::highest_frequency, 0}});

[[nodiscard]] std::shared_ptr<const ModalTrack> modal_track(const Track& track); // throws InputError, ComputeError

// Receptance from the modes (viscous damping only), for checks: m/N.
[[nodiscard]] std::complex<double> modal_receptance(const ModalTrack&, double x, double frequency);

} // namespace wingnose::track
