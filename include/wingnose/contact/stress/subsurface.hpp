// Stresses in the steel under a contact patch, and how hard they drive yielding. SI; the loaded body fills z > 0
// (depth), x along the track, y across; tension positive. Any pressure and shear on the cells of a HalfSpaceGrid.
//
// Uniform tractions on a rectangle in closed form: pressure after Love (1929); shear from the potentials of Boussinesq
// and Cerruti (Johnson 1985 sec. 3.2) integrated over the rectangle. Summed over the cells by the solver's transforms.
// Elastic half-space: no yielding, no residual stress.
#pragma once

#include "wingnose/contact/half_space/half_space.hpp"

#include <cstddef>
#include <span>
#include <vector>

namespace wingnose::contact {

struct Stress {
  double xx = 0.0, yy = 0.0, zz = 0.0, xy = 0.0, yz = 0.0, zx = 0.0; // Pa
  [[nodiscard]] friend bool operator==(const Stress&, const Stress&) = default;
};
[[nodiscard]] double von_mises(const Stress& stress); // Pa, equivalent stress
[[nodiscard]] double max_shear(const Stress& stress); // Pa, half the difference of the extreme principal stresses

// Tractions on this body's surface (Pa), one value per cell each. pressure pushes into the body; shear_x and shear_y
// act along +x and +y and may be left empty.
struct Tractions {
  std::span<const double> pressure, shear_x, shear_y;
};

// A uniform traction on this body (Pa).
struct Traction {
  double pressure = 0.0, shear_x = 0.0, shear_y = 0.0;
};

// Stress at (x, y) from the centre of a rectangle of sides dx, dy (m) under a uniform traction, at depth z >= 0 (m). At
// z = 0 not on the outline of the rectangle, where shear makes it infinite.
[[nodiscard]] Stress rectangle_stress(double x, double y, double z, double dx, double dy, const Traction& traction,
                                      double poisson);

// Stress in one point (m), summed cell by cell: for single points, anywhere.
[[nodiscard]] Stress stress_at(const HalfSpaceGrid& grid, const Tractions& tractions, double x, double y, double z,
                               double poisson = 0.3);

// Stress under the centre of every cell at one depth (m, >= 0), in the order of the grid. Throws InputError.
[[nodiscard]] std::vector<Stress> stress_at_depth(const HalfSpaceGrid& grid, const Tractions& tractions, double depth,
                                                  double poisson = 0.3);

struct StressPeak {
  double value = 0.0;      // Pa
  double x = 0.0, y = 0.0; // m, centre of the cell
  double depth = 0.0;      // m
};
struct Subsurface {
  std::vector<double> depth;               // m, as given
  std::vector<double> von_mises;           // Pa, largest at each depth
  std::vector<double> max_shear;           // Pa, largest at each depth
  StressPeak worst_von_mises, worst_shear; // between the depths given, by the parabola through the three around it
};
// depths: increasing (m, >= 0). Throws InputError.
[[nodiscard]] Subsurface subsurface_stress(const HalfSpaceGrid& grid, const Tractions& tractions,
                                           std::span<const double> depths, double poisson = 0.3);

} // namespace wingnose::contact
