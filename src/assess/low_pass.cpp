// Zero-phase low-pass: a Butterworth filter run forward and back, so that peaks stay where they are.
#include "wingnose/assess/measures.hpp"

#include "wingnose/numeric/butterworth.hpp"
#include "wingnose/words/error.hpp"

namespace wingnose::assess {

std::vector<double> low_pass_zero_phase(const std::vector<double>& signal, double step, double cut_off, int order) {
  if (!(cut_off > 0.0 && cut_off * step < 0.45)) {
    throw InputError("filter cut-off", number(cut_off) + " Hz", "above 0 and below " + number(0.45 / step) + " Hz",
                     "Lower the cut-off or shorten the time step.");
  }
  if (order < 1 || order > 8) {
    throw InputError("filter order", std::to_string(order), "1 to 8", "It is the order of one pass; two are made.");
  }
  // Continued over one and a half periods of the cut-off, longer than the filter's memory.
  return numeric::run_both_ways(numeric::low_pass(order, cut_off, step), signal,
                                static_cast<std::size_t>(1.5 / (cut_off * step)) + 1);
}

} // namespace wingnose::assess
