// Zero-phase low-pass: a Butterworth filter run forward and back, so that peaks stay where they are.
#include "wingnose/assess/measures.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace wingnose::assess {
namespace {

// One second-order (or first-order, b2 = a2 = 0) section, direct form II transposed.
struct Section {
  double b0, b1, b2, a1, a2;
};

// Butterworth low-pass by the bilinear transform with the cut-off pre-warped (Oppenheim and Schafer 1989, ch. 7).
std::vector<Section> butterworth(int order, double cut_off, double step) {
  const double k = std::tan(std::numbers::pi * cut_off * step);
  std::vector<Section> sections;
  for (int i = 0; i < order / 2; ++i) {
    const double damping = 2.0 * std::sin(std::numbers::pi * (2 * i + 1) / (2.0 * order)); // 1/Q of this pole pair
    const double norm = 1.0 / (1.0 + damping * k + k * k);
    sections.push_back({k * k * norm, 2.0 * k * k * norm, k * k * norm, 2.0 * (k * k - 1.0) * norm,
                        (1.0 - damping * k + k * k) * norm});
  }
  if (order % 2 == 1) {
    const double norm = 1.0 / (1.0 + k);
    sections.push_back({k * norm, k * norm, 0.0, (k - 1.0) * norm, 0.0});
  }
  return sections;
}

// In place; every section starts in the steady state of the first sample, so that a constant passes unchanged.
void pass(std::vector<double>& x, const std::vector<Section>& sections) {
  for (const Section& s : sections) {
    double s1 = (1.0 - s.b0) * x.front();
    double s2 = (s.b2 - s.a2) * x.front();
    for (double& value : x) {
      const double in = value;
      const double out = s.b0 * in + s1;
      s1 = s.b1 * in - s.a1 * out + s2;
      s2 = s.b2 * in - s.a2 * out;
      value = out;
    }
  }
}

} // namespace

std::vector<double> low_pass_zero_phase(const std::vector<double>& signal, double step, double cut_off, int order) {
  if (!(cut_off > 0.0 && cut_off * step < 0.45)) {
    throw InputError("filter cut-off", number(cut_off) + " Hz", "above 0 and below " + number(0.45 / step) + " Hz",
                     "Lower the cut-off or shorten the time step.");
  }
  if (order < 1 || order > 8) {
    throw InputError("filter order", std::to_string(order), "1 to 8", "It is the order of one pass; two are made.");
  }
  if (signal.empty()) {
    return {};
  }
  // Ends are continued by point reflection over one and a half periods of the cut-off, longer than the filter's memory.
  const std::size_t n = signal.size();
  const std::size_t pad = std::min(n - 1, static_cast<std::size_t>(1.5 / (cut_off * step)) + 1);
  std::vector<double> x;
  x.reserve(n + 2 * pad);
  for (std::size_t i = pad; i > 0; --i) {
    x.push_back(2.0 * signal.front() - signal[i]);
  }
  x.insert(x.end(), signal.begin(), signal.end());
  for (std::size_t i = 1; i <= pad; ++i) {
    x.push_back(2.0 * signal.back() - signal[n - 1 - i]);
  }
  const std::vector<Section> sections = butterworth(order, cut_off, step);
  pass(x, sections);
  std::reverse(x.begin(), x.end());
  pass(x, sections);
  std::reverse(x.begin(), x.end());
  return {x.begin() + static_cast<std::ptrdiff_t>(pad), x.begin() + static_cast<std::ptrdiff_t>(pad + n)};
}

} // namespace wingnose::assess
