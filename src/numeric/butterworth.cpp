#include "wingnose/numeric/butterworth.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace wingnose::numeric {
namespace {

// 1/Q of pole pair i.
double damping(int order, int i) { return 2.0 * std::sin(std::numbers::pi * (2 * i + 1) / (2.0 * order)); }

} // namespace

Filter low_pass(int order, double cut_off, double step) {
  const double k = std::tan(std::numbers::pi * cut_off * step);
  Filter filter;
  for (int i = 0; i < order / 2; ++i) {
    const double norm = 1.0 / (1.0 + damping(order, i) * k + k * k);
    filter.push_back({k * k * norm, 2.0 * k * k * norm, k * k * norm, 2.0 * (k * k - 1.0) * norm,
                      (1.0 - damping(order, i) * k + k * k) * norm});
  }
  if (order % 2 == 1) {
    const double norm = 1.0 / (1.0 + k);
    filter.push_back({k * norm, k * norm, 0.0, (k - 1.0) * norm, 0.0});
  }
  return filter;
}

Filter high_pass(int order, double cut_off, double step) {
  const double k = std::tan(std::numbers::pi * cut_off * step);
  Filter filter;
  for (int i = 0; i < order / 2; ++i) {
    const double norm = 1.0 / (1.0 + damping(order, i) * k + k * k);
    filter.push_back(
        {norm, -2.0 * norm, norm, 2.0 * (k * k - 1.0) * norm, (1.0 - damping(order, i) * k + k * k) * norm});
  }
  if (order % 2 == 1) {
    const double norm = 1.0 / (1.0 + k);
    filter.push_back({norm, -norm, 0.0, (k - 1.0) * norm, 0.0});
  }
  return filter;
}

void run(const Filter& filter, std::span<double> x) {
  for (const FilterSection& s : filter) { // direct form II transposed
    if (x.empty()) {
      return;
    }
    const double rest = s.b1 > 0.0 ? 1.0 : 0.0; // gain of what is constant: of a low-pass, of a high-pass
    double s1 = (rest - s.b0) * x.front();
    double s2 = (s.b2 - s.a2 * rest) * x.front();
    for (double& value : x) {
      const double in = value;
      const double out = s.b0 * in + s1;
      s1 = s.b1 * in - s.a1 * out + s2;
      s2 = s.b2 * in - s.a2 * out;
      value = out;
    }
  }
}

std::vector<double> run_both_ways(const Filter& filter, std::span<const double> signal, std::size_t pad) {
  if (signal.empty()) {
    return {};
  }
  const std::size_t n = signal.size();
  pad = std::min(n - 1, pad);
  std::vector<double> x;
  x.reserve(n + 2 * pad);
  for (std::size_t i = pad; i > 0; --i) {
    x.push_back(2.0 * signal.front() - signal[i]);
  }
  x.insert(x.end(), signal.begin(), signal.end());
  for (std::size_t i = 1; i <= pad; ++i) {
    x.push_back(2.0 * signal.back() - signal[n - 1 - i]);
  }
  for (int way = 0; way < 2; ++way) {
    run(filter, x);
    std::reverse(x.begin(), x.end());
  }
  return {x.begin() + static_cast<std::ptrdiff_t>(pad), x.begin() + static_cast<std::ptrdiff_t>(pad + n)};
}

std::complex<double> response(const Filter& filter, double frequency, double step) {
  const std::complex<double> z = std::polar(1.0, -2.0 * std::numbers::pi * frequency * step); // one sample back
  std::complex<double> product = 1.0;
  for (const FilterSection& s : filter) {
    product *= (s.b0 + z * (s.b1 + z * s.b2)) / (1.0 + z * (s.a1 + z * s.a2));
  }
  return product;
}

} // namespace wingnose::numeric
