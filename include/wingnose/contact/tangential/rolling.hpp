// Exact steady rolling of two like half-spaces with friction: the yardstick of the fast creep laws.
//
// Kalker 1990, "Three-Dimensional Elastic Bodies in Rolling Contact", doi:10.1007/978-94-015-7889-9, variational
// formulation: tractions p uniform over rectangles, displacement differences u from the closed-form integrals of
// Boussinesq and Cerruti over a rectangle, and everywhere |p| <= mu p_n with the slip opposite to p where the bound is
// met and zero where it is not. Steady rolling compares each particle with itself one cell length earlier (upstream):
// slip = w h + u(x) - u(x + h), w the rigid slip (xi - phi y, eta + phi x). A shift (no rolling: Cattaneo 1938, Mindlin
// 1949) asks slip = W + u(x) instead. First order in the cell length: extrapolate from two meshes for four digits.
//
// Like materials only: then normal and tangential problem do not mix. mu is constant. Frame, signs:
// contact/creepage.hpp; tractions act on the wheel. SI.
#pragma once

#include "wingnose/contact/normal/hertz.hpp"
#include "wingnose/contact/tangential/creepage.hpp"
#include "wingnose/contact/tangential/rolling_mesh.hpp"

#include <Eigen/Core>

#include <vector>

namespace wingnose::contact {

enum class Sliding {
  rolling, // steady rolling: creepages are slopes
  shift    // one rigid shift of the wheel from rest: creepages are read as displacements (m, m, rad)
};

// The dense matrix of the tangential problem, made once per mesh and read by any number of creepages.
struct RollingMatrix {
  using Matrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
  RollingMesh mesh;
  Sliding sliding;
  Matrix slip; // m/Pa, (x, y) slip of a cell by unit tractions: row 2 i + component, column 2 j + component
};
// Memory 32 cells^2 bytes: at most 4000 cells. Throws InputError for more, or a material outside 0 <= nu <= 0.5.
[[nodiscard]] RollingMatrix rolling_matrix(RollingMesh mesh, const Elastic& material = {},
                                           Sliding sliding = Sliding::rolling);

struct RollingField {
  CreepForce force;                           // N, N m (per width for a plane mesh)
  double friction_loss;                       // J per metre rolled (J for a shift), >= 0: -sum p . slip
  double slip_area;                           // -, 0 .. 1
  std::vector<double> x, y;                   // m, cell centres
  std::vector<double> traction_x, traction_y; // Pa
  std::vector<double> slip_x, slip_y;         // -, relative slip (m for a shift)
  std::vector<double> slides;                 // -, 1 where the bound is met, else 0
  int steps;                                  // Newton steps
};

struct RollingAccuracy {
  double tolerance = 1e-7; // -, last change of any traction over the highest bound
  int most_steps = 60;
};

// mu > 0. Newton on stick and slip at once (Alart and Curnier 1991, doi:10.1016/0045-7825(91)90022-X), one dense
// solve per step, some 5 to 15 steps. Throws InputError, or ComputeError when the steps run out.
[[nodiscard]] RollingField rolling_contact_field(const RollingMatrix& matrix, double mu, const Creepage& creepage,
                                                 const RollingAccuracy& accuracy = {});

} // namespace wingnose::contact
