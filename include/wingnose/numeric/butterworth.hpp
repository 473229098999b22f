// Butterworth filters as second-order sections, by the bilinear transform with the cut-off pre-warped (Oppenheim and
// Schafer 1989, ch. 7): causal when run once, without phase when run forward and back.
#pragma once

#include <complex>
#include <span>
#include <vector>

namespace wingnose::numeric {

// y_n = b0 x_n + b1 x_n-1 + b2 x_n-2 - a1 y_n-1 - a2 y_n-2; first order: b2 = a2 = 0.
struct FilterSection {
  double b0, b1, b2, a1, a2;
};
using Filter = std::vector<FilterSection>; // one after the other

// cut_off: Hz, above 0 and below half of the sampling rate 1 / step, where 1 / sqrt 2 of the amplitude is left.
[[nodiscard]] Filter low_pass(int order, double cut_off, double step);
[[nodiscard]] Filter high_pass(int order, double cut_off, double step);

// One run in place. Every section starts in the steady state of its first sample, so that what was constant before the
// record begins passes a low-pass unchanged and a high-pass not at all.
void run(const Filter& filter, std::span<double> signal);
// Forward and back: amplitudes as of twice the order (half is left at the cut-off), no delay. Ends are continued by
// point reflection over `pad` samples.
[[nodiscard]] std::vector<double> run_both_ways(const Filter& filter, std::span<const double> signal, std::size_t pad);
// What a run makes of a sine of that frequency (Hz).
[[nodiscard]] std::complex<double> response(const Filter& filter, double frequency, double step);

} // namespace wingnose::numeric
