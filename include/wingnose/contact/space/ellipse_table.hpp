// The ellipse of a Hertz contact and Kalker's coefficients of it, from one table: for steps in time, in which thousands
// of contacts of ever new curvatures are met and exact elliptic integrals would cost more than all else. After
// normal/hertz.hpp and tangential/kalker.hpp, which fill the table. SI.
#pragma once

#include "wingnose/contact/normal/hertz.hpp"
#include "wingnose/contact/tangential/kalker.hpp"

#include <array>
#include <memory>
#include <vector>

namespace wingnose::contact {

// F = stiffness approach^1.5; semi-axes grow with the cubic root of the force.
struct HertzEllipse {
  double stiffness = 0.0;           // N/m^1.5
  double along = 0.0, across = 0.0; // m/N^(1/3): semi-axis over the cubic root of the force
  CreepCoefficients linear{};       // of its axis ratio
  [[nodiscard]] RollingContact under(double normal_force, double shear_modulus) const; // N >= 0; nothing is thrown
};

class EllipseTable {
public:
  EllipseTable(); // of steel on steel; all of these share one table
  // Throws InputError for a material out of range.
  explicit EllipseTable(const Elastic& material);

  // A, B: half the relative curvatures along and across (1/m), both > 0. Within 1e-5 of the exact values; ratios beyond
  // 1e6 count as 1e6. Nothing is allocated, nothing thrown.
  [[nodiscard]] HertzEllipse at(double A, double B) const;
  [[nodiscard]] double shear_modulus() const { return shear_modulus_; } // Pa

private:
  using Rows = std::vector<std::array<double, 7>>;
  std::shared_ptr<const Rows> rows_; // over ln(B/A), for A + B = 1 1/m
  double shear_modulus_;
};

} // namespace wingnose::contact
