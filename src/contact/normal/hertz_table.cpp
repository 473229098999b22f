#include "wingnose/contact/normal/hertz_table.hpp"

#include <cmath>

namespace wingnose::contact {
namespace {

constexpr double spacing = 1.0 / 64.0; // in ln(B/A)
constexpr double largest = 14.0;       // ratio 1.2e6

} // namespace

HertzTable::HertzTable() {
  const auto n = static_cast<int>(largest / spacing) + 3;
  value_.reserve(n);
  for (int i = -1; i < n; ++i) {
    value_.push_back(std::pow(hertz_shape(1.0, std::exp(i * spacing)).r, -1.5));
  }
}

double HertzTable::stiffness(double curvature_x, double curvature_y, const Elastic& material) const {
  const double u = std::abs(std::log(curvature_y / curvature_x)) / spacing;
  if (!(curvature_x > 0.0 && curvature_y > 0.0 && u < largest / spacing)) {
    return hertz_stiffness(curvature_x, curvature_y, material);
  }
  const auto i = static_cast<std::size_t>(u);
  const double t = u - static_cast<double>(i);
  const double a = value_[i], b = value_[i + 1], c = value_[i + 2], d = value_[i + 3];
  // Cubic through four equidistant values.
  const double shape = -a * t * (t - 1.0) * (t - 2.0) / 6.0 + b * (t + 1.0) * (t - 1.0) * (t - 2.0) / 2.0 -
                       c * (t + 1.0) * t * (t - 2.0) / 2.0 + d * (t + 1.0) * t * (t - 1.0) / 6.0;
  return 4.0 / 3.0 * material.combined() * shape / std::sqrt(0.5 * (curvature_x + curvature_y));
}

} // namespace wingnose::contact
