#include "wingnose/assess/shakedown.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace wingnose::assess {
namespace {

constexpr double step = 0.0125; // of f, in the tables
constexpr int rows = 81;        // up to f = 1; further out the surface decides
constexpr double circle_yield = 2.8, circle_shakedown = 4.7;

// Largest value of `of` on [from, to]: the best of `count` points, then a golden search around it.
template <class Function> double largest(Function of, double from, double to, int count) {
  const double h = (to - from) / count;
  int best = 0;
  double most = -1.0;
  for (int i = 0; i <= count; ++i) {
    const double value = of(from + i * h);
    if (value > most) {
      most = value;
      best = i;
    }
  }
  constexpr double golden = 0.6180339887498949;
  double a = std::max(from, from + (best - 1) * h), b = std::min(to, from + (best + 1) * h);
  for (int i = 0; i < 30; ++i) {
    const double c = b - golden * (b - a), d = a + golden * (b - a);
    (of(c) > of(d) ? b : a) = of(c) > of(d) ? d : c;
  }
  return std::max(most, of(0.5 * (a + b)));
}

// The largest stress lies under the contact or beside it, within one half-width of depth.
template <class Stress> double largest_below(Stress stress, double f) {
  return largest(
      [&](double z) { return largest([&](double x) { return stress(line_contact_stress(x, z, f)); }, -1.2, 1.2, 24); },
      0.02, 1.2, 16);
}

double read(const std::vector<double>& table, double f) {
  const double at = std::min(f / step, static_cast<double>(table.size() - 1));
  const auto i = std::min(static_cast<std::size_t>(at), table.size() - 2);
  const double t = at - static_cast<double>(i);
  return table[i] + t * (table[i + 1] - table[i]);
}

} // namespace

LineStress line_contact_stress(double x, double z, double f) {
  // Johnson 1985, eq. 4.49: m and n have the signs of z and x.
  const double s = 1.0 - x * x + z * z, root = std::sqrt(s * s + 4.0 * x * x * z * z);
  const double m2 = 0.5 * (root + s), n2 = std::max(0.5 * (root - s), 0.0);
  const double m = std::sqrt(m2), n = std::copysign(std::sqrt(n2), x);
  const double w = m2 + n2 > 0.0 ? (z * z + n2) / (m2 + n2) : 0.0;
  const double v = m2 + n2 > 0.0 ? (m2 - z * z) / (m2 + n2) : 0.0;
  const double pressure_x = -(m * (1.0 + w) - 2.0 * z), pressure_z = -m * (1.0 - w), pressure_xz = -n * v;
  // Johnson 1985, eq. 7.8 for traction q0 = f p0 towards +x: sigma_z as tau_xz and tau_xz as sigma_x of the pressure.
  return {pressure_x + f * (n * (2.0 + v) - 2.0 * x), pressure_z + f * pressure_xz, pressure_xz + f * pressure_x};
}

ShakedownMap::ShakedownMap(ContactShape shape) : shape_(shape) {
  for (int i = 0; i < rows; ++i) {
    yield_.push_back(largest_below(
        [](const LineStress& s) { return std::hypot(0.5 * (s.sigma_x - s.sigma_z), s.tau_xz); }, i * step));
    shear_.push_back(largest_below([](const LineStress& s) { return std::abs(s.tau_xz); }, i * step));
  }
}

double ShakedownMap::first_yield(double f) const {
  const double below = shape_ == ContactShape::line ? read(yield_, f) : read(yield_, f) / (yield_[0] * circle_yield);
  return 1.0 / std::max(below, f);
}

double ShakedownMap::elastic_shakedown(double f) const {
  const double below =
      shape_ == ContactShape::line ? read(shear_, f) : read(shear_, f) / (shear_[0] * circle_shakedown);
  return 1.0 / std::max(below, f);
}

const ShakedownMap& shakedown_map(ContactShape shape) {
  const auto tabulated = []<ContactShape of>() -> const ShakedownMap& {
    static const ShakedownMap map(of);
    return map;
  };
  return shape == ContactShape::circle ? tabulated.template operator()<ContactShape::circle>()
                                       : tabulated.template operator()<ContactShape::line>();
}

std::vector<ShakedownLimits> limits_over_traction(const ShakedownMap& map) {
  std::vector<ShakedownLimits> limits;
  for (int i = 0; i <= 60; ++i) {
    const double f = i * 0.01;
    limits.push_back({f, map.first_yield(f), map.elastic_shakedown(f)});
  }
  return limits;
}

} // namespace wingnose::assess
