// Shakedown: what repeated rolling with traction does to a steel of yield k in shear. Johnson 1985
// (doi:10.1017/CBO9781139171731), ch. 9; 1989.
//
// Position: load factor p0 / k against traction coefficient f = T / N. Limits of p0 / k, traction f times the pressure
// everywhere (full sliding):
//   first yield       below it nothing ever yields. Line contact: largest shear stress in the plane after McEwen
//   (1949),
//                     Tresca: 3.3 without traction, 1/f at the surface for large f.
//   elastic shakedown below it residual stresses end yielding after some wheels. Line contact: exact after Melan's
//                     theorem, because no residual shear on planes along the surface can exist there: k over the
//                     largest |tau_xz|; 4.0 without traction, below the surface up to f of about 0.37, then 1/f.
//   surface flow      f > k / p0: the surface itself yields (fatigue.hpp).
// Above the limit every wheel leaves plastic strain (ratchetting or cyclic plasticity; not told apart here).
//
// Circular contact: published values without traction (first yield 2.8 k; elastic shakedown 4.7 k: Ponter, Hearle and
// Johnson 1985, from memory, medium trust) on the subsurface curve of the line contact scaled to them, cut by 1/f. That
// shape between the published ends is our own interpolation. The line is the lower of the two and therefore the
// default. Half-space, elastic-perfectly plastic, steady rolling. SI.
#pragma once

#include "wingnose/words/column.hpp"
#include "wingnose/words/names.hpp"

#include <array>

#include <vector>

namespace wingnose::assess {

enum class ContactShape { line, circle };
constexpr auto names(ContactShape) {
  return std::array{Name{ContactShape::line, "line", "line contact, the lower limits"},
                    Name{ContactShape::circle, "circle", "circular contact"}};
}

// Limits tabulated once; then read without cost.
class ShakedownMap {
public:
  explicit ShakedownMap(ContactShape shape = ContactShape::line);
  // Limits of p0 / k at the traction coefficient f >= 0.
  [[nodiscard]] double first_yield(double f) const;
  [[nodiscard]] double elastic_shakedown(double f) const;
  [[nodiscard]] ContactShape shape() const { return shape_; }

private:
  ContactShape shape_;
  std::vector<double> yield_, shear_; // largest stresses over p0 of the line contact at multiples of a step in f
};

// The map of a shape, tabulated on first use: constants of mechanics that take a twentieth of a second.
[[nodiscard]] const ShakedownMap& shakedown_map(ContactShape shape);

// Limits of p0 / k over the traction coefficient, 0 .. 0.6, to be drawn.
struct ShakedownLimits {
  double traction, first_yield, elastic_shakedown; // -
};
inline constexpr auto shakedown_columns = std::to_array<Column<ShakedownLimits>>(
    {{"traction_coefficient", "traction coefficient", "creep force over normal force", &ShakedownLimits::traction, 2},
     {"first_yield", "first yield", "load factor p0/k below which nothing ever yields", &ShakedownLimits::first_yield,
      3},
     {"elastic_shakedown", "elastic shakedown", "load factor below which residual stresses end yielding",
      &ShakedownLimits::elastic_shakedown, 3}});
[[nodiscard]] std::vector<ShakedownLimits> limits_over_traction(const ShakedownMap& map);

// Stresses (over p0) below a line contact whose pressure is elliptic and whose traction is f times it, pushing towards
// +x. x, z over the half-width, z >= 0 below the surface. McEwen 1949 (Johnson 1985, eqs 4.49 and 7.5 to 7.8).
struct LineStress {
  double sigma_x, sigma_z, tau_xz;
};
[[nodiscard]] LineStress line_contact_stress(double x, double z, double f);

} // namespace wingnose::assess
