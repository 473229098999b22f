#include "wingnose/contact/space/ellipse_table.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>

namespace wingnose::contact {
namespace {

constexpr double table_spacing = 1.0 / 128.0; // in ln(B/A)
constexpr double largest_ratio = 13.8;        // ratio 1e6

} // namespace

RollingContact HertzEllipse::under(double normal_force, double shear_modulus) const {
  const double root = std::cbrt(normal_force);
  return {along * root, across * root, normal_force, shear_modulus, linear};
}

// To fill a table costs more than the steps of a short ride.
EllipseTable::EllipseTable() {
  static const EllipseTable steel{Elastic{}};
  *this = steel;
}

EllipseTable::EllipseTable(const Elastic& material)
    : shear_modulus_(material.young / (2.0 * (1.0 + material.poisson))) {
  demand_ranges(material, "material");
  const int n = static_cast<int>(std::ceil(largest_ratio / table_spacing));
  Rows rows;
  rows.reserve(2 * static_cast<std::size_t>(n) + 1);
  for (int i = -n; i <= n; ++i) {
    const double ratio = std::exp(i * table_spacing), A = 1.0 / (1.0 + ratio), B = ratio / (1.0 + ratio);
    const double force = 1e5; // N, any
    const HertzPatch patch = hertz_patch(force, 2.0 * A, 2.0 * B, material);
    const RollingContact rolling = rolling_contact(patch.a_x, patch.a_y, force, material);
    const double root = std::cbrt(force);
    rows.push_back({hertz_stiffness(2.0 * A, 2.0 * B, material), patch.a_x / root, patch.a_y / root, rolling.linear.C11,
                    rolling.linear.C22, rolling.linear.C23, rolling.linear.C33});
  }
  rows_ = std::make_shared<const Rows>(std::move(rows));
}

HertzEllipse EllipseTable::at(double A, double B) const {
  const Rows& row = *rows_;
  const double last = static_cast<double>(row.size() - 1);
  const double u = std::clamp(std::log(B / A) / table_spacing + 0.5 * last, 0.0, last - 1e-9);
  const auto i = static_cast<std::size_t>(u);
  const double t = u - static_cast<double>(i), sum = A + B, root = 1.0 / std::cbrt(sum);
  const auto value = [&](std::size_t k) { return row[i][k] + t * (row[i + 1][k] - row[i][k]); };
  return {value(0) / std::sqrt(sum), value(1) * root, value(2) * root, {value(3), value(4), value(5), value(6)}};
}

} // namespace wingnose::contact
