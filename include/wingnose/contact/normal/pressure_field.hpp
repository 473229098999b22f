// The half-space solution for the gap a search has found: pressure field and patch outline without assuming a shape,
// and how far the fast laws are from it. SI. Frame: wingnose/words/frame.hpp.
//
// The surfaces are rolled out across the track along the contact line (distance along the surface, normal gap), the
// gap along the track is the parabola of the relative curvature about the touching point of every column. One normal is
// assumed by the half-space: `turn` says how much it really changes under pressure. Patches that lie apart are closed
// each along its own normal; what one presses the other away is that of one half-space, so with normals far apart
// (`between`) the theory is stretched there, and with a normal that turns inside one patch (`within`) in that patch.
#pragma once

#include "wingnose/contact/half_space/half_space_gap.hpp"
#include "wingnose/contact/normal/normal_law.hpp"
#include "wingnose/contact/search/look.hpp"
#include "wingnose/words/column.hpp"

#include <cstddef>
#include <span>
#include <string>
#include <vector>

namespace wingnose::contact {

struct FieldSize {
  std::size_t along = 64, across = 64; // cells; 16 to 512
};

struct PressureField {
  std::vector<double> x;        // m, centres of the cells ahead of the axle
  std::vector<double> y;        // m, centres of the rows from the track centre line
  std::vector<double> angle;    // rad, contact angle per row
  std::vector<double> pressure; // Pa, [row of y][x]
  double force = 0.0;           // N, normal
  double vertical = 0.0;        // N
  double approach = 0.0;        // m, normal, where the wheel touches first
  double peak_pressure = 0.0;   // Pa
  double area = 0.0;            // m2
  double half_length = 0.0;     // m, half of the longest loaded row
  double half_width = 0.0;      // m, half of the loaded width across, along the surface
  double mean_y = 0.0;          // m, centre of the pressure
  NormalTurn turn;
  double within = 0.0;  // rad, the largest change of the contact angle inside one patch
  double between = 0.0; // rad, between the normals of patches that lie apart; 0 for one
};
inline constexpr auto field_columns = std::to_array<Column<PressureField>>(
    {{"approach_um", "approach", "normal approach", &PressureField::approach, 1},
     {"area_mm2", "area", "area of contact", &PressureField::area, 1},
     {"peak_pressure_MPa", "peak", "largest pressure", &PressureField::peak_pressure, 0},
     {"change_of_angle_rad", "angle change",
      "change of the contact angle inside the contact; above 0.15 the half-space is stretched",
      [](const PressureField& f) { return f.turn.turn; }, 3}});

// One body under `vertical` (N, > 0). Throws InputError for a field size out of range, otherwise as depth_for_force
// and solve_for_force.
[[nodiscard]] PressureField half_space_field(const GapLine& line, double vertical, const Elastic& material = {},
                                             const FieldSize& size = {});

// Both laws beside the half-space solution for a wheel shifted across a rail or a body.
struct LawDeviation {
  double lateral = 0.0; // m, of the wheel's taping line
  NormalContact ellipse, strips;
  PressureField half_space;
};
[[nodiscard]] std::vector<LawDeviation> law_deviations(const WheelSurface& wheel, const layout::Body& body,
                                                       double station, std::span<const double> lateral, double vertical,
                                                       const Elastic& material = {}, const FieldSize& size = {});

} // namespace wingnose::contact
