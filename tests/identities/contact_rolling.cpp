// Exact rolling on the half-space: the laws of friction hold in every cell, and the whole is consistent with the parts.
#include "catch.hpp"
#include "wingnose/contact/tangential/kalker.hpp"
#include "wingnose/contact/tangential/rolling.hpp"
#include "wingnose/contact/tangential/rolling_coefficients.hpp"

#include <cmath>
#include <vector>

using namespace wingnose::contact;

namespace {

constexpr double mu = 0.3, N = 100e3, a = 7e-3, b = 5e-3;
const Elastic steel{210e9, 0.28};
const RollingMatrix& matrix() {
  static const RollingMatrix m = rolling_matrix(elliptic_mesh(a, b, N, 12, 12), steel);
  return m;
}
const std::vector<Creepage> creepages = {
    {1.5e-3, -1e-3, 0.4}, {2e-3, 0, 0}, {0, 2e-3, 0}, {0, 0, 1.0}, {0, -3e-3, 2.0}};

} // namespace

TEST_CASE("In exact rolling every cell sticks below the friction bound or slips against its traction") {
  for (const Creepage& creep : creepages) {
    const RollingField f = rolling_contact_field(matrix(), mu, creep);
    CHECK(f.slip_area > 0.0);
    for (std::size_t i = 0; i < f.x.size(); ++i) {
      const double bound = mu * matrix().mesh.pressure[i];
      const double shear = std::hypot(f.traction_x[i], f.traction_y[i]);
      CHECK(shear <= bound * (1.0 + 1e-6));
      if (f.slides[i] > 0.0) {
        const double slip = std::hypot(f.slip_x[i], f.slip_y[i]);
        const double along = f.slip_x[i] * f.traction_x[i] + f.slip_y[i] * f.traction_y[i];
        CHECK(along <= -(1.0 - 1e-6) * slip * shear + 1e-9 * bound);
      }
    }
    CHECK(f.friction_loss > 0.0);
  }
}

TEST_CASE("In exact rolling the leading edge sticks") {
  const RollingField f = rolling_contact_field(matrix(), mu, {1e-3, 0, 0});
  for (const RollingStrip& s : matrix().mesh.strips) {
    if (std::abs(s.y) < 0.5 * b) {
      CHECK(f.slides[s.first] == 0.0);
    }
  }
}

TEST_CASE("Mirrored creepages give the mirrored force in exact rolling") {
  for (const Creepage& c : creepages) {
    const CreepForce f = rolling_contact_field(matrix(), mu, c).force;
    const CreepForce g = rolling_contact_field(matrix(), mu, {c.longitudinal, -c.lateral, -c.spin}).force;
    CHECK(std::abs(f.longitudinal - g.longitudinal) < 1e-7 * N);
    CHECK(std::abs(f.lateral + g.lateral) < 1e-7 * N);
    CHECK(std::abs(f.moment + g.moment) < 1e-7 * N * a);
  }
}

TEST_CASE("Small creepages give the no-slip forces of the same mesh in exact rolling") {
  // So much friction that nothing slips: the coefficients solved for with mirrored unknowns must come out again.
  const RollingMatrix round = rolling_matrix(elliptic_mesh(5e-3, 5e-3, N, 8, 8), steel);
  const CreepCoefficients C = half_space_coefficients(1.0, steel.poisson, 8, 8);
  const double G = steel.young / (2.0 * (1.0 + steel.poisson)), area = 25e-6;
  const CreepForce x = rolling_contact_field(round, mu, {1e-8, 0, 0}).force;
  CHECK(std::abs(-x.longitudinal / (1e-8 * G * area) / C.C11 - 1.0) < 1e-6);
  const CreepForce y = rolling_contact_field(round, mu, {0, 1e-8, 0}).force;
  CHECK(std::abs(-y.lateral / (1e-8 * G * area) / C.C22 - 1.0) < 1e-6);
  const CreepForce s = rolling_contact_field(round, mu, {0, 0, 1e-6}).force;
  CHECK(std::abs(-s.moment / (1e-6 * G * area * area) / C.C33 - 1.0) < 1e-6);
  const double C23 = 0.5 * (y.moment / (1e-8 * G) - s.lateral / (1e-6 * G)) / std::pow(area, 1.5);
  CHECK(std::abs(C23 / C.C23 - 1.0) < 1e-6);
}

TEST_CASE("A locked wheel slides everywhere with friction times load in exact rolling") {
  const RollingField f = rolling_contact_field(matrix(), mu, {0.3, 0.4, 0.0});
  CHECK(f.slip_area == 1.0);
  CHECK(std::abs(f.force.longitudinal + 0.6 * mu * N) < 0.005 * mu * N);
  CHECK(std::abs(f.force.lateral + 0.8 * mu * N) < 0.005 * mu * N);
}

TEST_CASE("Exact rolling scales with size, load and stiffness as similarity demands") {
  // Twice the size, four times the load: tractions and slips unchanged when the spin is halved.
  const RollingMatrix large = rolling_matrix(elliptic_mesh(2.0 * a, 2.0 * b, 4.0 * N, 12, 12), steel);
  const Creepage c = creepages[0];
  const RollingField f = rolling_contact_field(matrix(), mu, c);
  const RollingField g = rolling_contact_field(large, mu, {c.longitudinal, c.lateral, 0.5 * c.spin});
  CHECK(std::abs(g.force.longitudinal - 4.0 * f.force.longitudinal) < 1e-6 * N);
  CHECK(std::abs(g.force.moment - 8.0 * f.force.moment) < 1e-6 * N * a);
  CHECK(std::abs(g.slip_area - f.slip_area) < 1e-9);
}

TEST_CASE("A pressure field on a regular grid rolls like the ellipse it was taken from") {
  const int n = 20;
  std::vector<double> pressure(n * n, 0.0);
  const double dx = 2.0 * a / n, dy = 2.0 * b / n;
  double sum = 0.0;
  for (int i = 0; i < n; ++i) {
    for (int j = 0; j < n; ++j) {
      const double x = (-a + (i + 0.5) * dx) / a, y = (-b + (j + 0.5) * dy) / b, s = 1.0 - x * x - y * y;
      pressure[static_cast<std::size_t>(i * n + j)] = s > 0.0 ? std::sqrt(s) : 0.0;
      sum += pressure[static_cast<std::size_t>(i * n + j)] * dx * dy;
    }
  }
  for (double& p : pressure) {
    p *= N / sum;
  }
  const RollingMatrix grid = rolling_matrix(grid_mesh(pressure, n, n, -a + 0.5 * dx, -b + 0.5 * dy, dx, dy), steel);
  const CreepForce f = rolling_contact_field(grid, mu, creepages[0]).force;
  const CreepForce g =
      rolling_contact_field(rolling_matrix(elliptic_mesh(a, b, N, n, n), steel), mu, creepages[0]).force;
  // The stepped outline of the grid is what differs.
  CHECK(std::abs(f.longitudinal - g.longitudinal) < 0.01 * mu * N);
  CHECK(std::abs(f.lateral - g.lateral) < 0.01 * mu * N);
}

TEST_CASE("The pressures of a rolling mesh sum up to the load they carry") {
  for (const RollingMesh& mesh : {elliptic_mesh(a, b, N, 7, 9), plane_mesh(a, N, 31)}) {
    double sum = 0.0;
    for (const RollingStrip& s : mesh.strips) {
      for (std::size_t k = 0; k < s.cells; ++k) {
        sum += mesh.pressure[s.first + k] * s.cell * s.width;
      }
    }
    CHECK(std::abs(sum / N - 1.0) < 1e-12);
  }
}

TEST_CASE("Exact rolling takes energy out of the wheel whatever the creepage") {
  for (const Creepage& c : creepages) {
    const CreepForce f = rolling_contact_field(matrix(), mu, c).force;
    CHECK(f.longitudinal * c.longitudinal + f.lateral * c.lateral + f.moment * c.spin < 0.0);
  }
}
