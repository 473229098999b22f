// The stress machinery against point loads summed by quadrature, equilibrium, and its own boundary conditions.
#include "catch.hpp"
#include "wingnose/contact/half_space/half_space_gap.hpp"
#include "wingnose/contact/stress/subsurface.hpp"

#include <boost/math/constants/constants.hpp>
#include <boost/math/quadrature/gauss.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

using namespace wingnose::contact;

namespace {

constexpr double pi = boost::math::constants::pi<double>();
constexpr double nu = 0.3;
using Member = double Stress::*;
constexpr std::array<Member, 6> members = {&Stress::xx, &Stress::yy, &Stress::zz,
                                           &Stress::xy, &Stress::yz, &Stress::zx};

// Boussinesq, unit force along z at the origin: Johnson (1985) eq. 3.20, from polar to plane axes.
Stress normal_point_load(double x, double y, double z) {
  const double r2 = x * x + y * y, rho = std::sqrt(r2 + z * z), rho5 = std::pow(rho, 5);
  const double around = (1.0 - z / rho) / r2;
  const double radial = (1.0 - 2.0 * nu) * around - 3.0 * z * r2 / rho5;
  const double hoop = -(1.0 - 2.0 * nu) * (around - z / std::pow(rho, 3));
  Stress s;
  s.xx = (radial * x * x + hoop * y * y) / r2;
  s.yy = (radial * y * y + hoop * x * x) / r2;
  s.xy = (radial - hoop) * x * y / r2;
  s.zz = -3.0 * z * z * z / rho5;
  s.yz = -3.0 * y * z * z / rho5;
  s.zx = -3.0 * x * z * z / rho5;
  return s;
}

// Cerruti, unit force along x at the origin: Johnson (1985) eq. 3.76.
Stress tangential_point_load(double x, double y, double z) {
  const double rho = std::sqrt(x * x + y * y + z * z), rho2 = rho * rho, rho3 = rho2 * rho, rho5 = rho3 * rho2;
  const double s1 = rho + z, s2 = s1 * s1, s3 = s2 * s1, k = 1.0 - 2.0 * nu;
  Stress s;
  s.xx = -3.0 * x * x * x / rho5 +
         k * (x / rho3 - 3.0 * x / (rho * s2) + x * x * x / (rho3 * s2) + 2.0 * x * x * x / (rho2 * s3));
  s.yy = -3.0 * x * y * y / rho5 +
         k * (x / rho3 - x / (rho * s2) + x * y * y / (rho3 * s2) + 2.0 * x * y * y / (rho2 * s3));
  s.xy = -3.0 * x * x * y / rho5 + k * (-y / (rho * s2) + x * x * y / (rho3 * s2) + 2.0 * x * x * y / (rho2 * s3));
  s.zz = -3.0 * x * z * z / rho5;
  s.yz = -3.0 * x * y * z / rho5;
  s.zx = -3.0 * x * x * z / rho5;
  return s;
}

template <class PointLoad>
double integrated(const PointLoad& load, Member m, double x, double y, double z, double dx, double dy) {
  using gauss = boost::math::quadrature::gauss<double, 30>;
  return gauss::integrate(
             [&](double xi) {
               return gauss::integrate([&](double eta) { return load(x - xi, y - eta, z).*m; }, -0.5 * dy, 0.5 * dy);
             },
             -0.5 * dx, 0.5 * dx) /
         (2.0 * pi);
}

double largest(const Stress& s) {
  double value = 0.0;
  for (const Member m : members) {
    value = std::max(value, std::abs(s.*m));
  }
  return value;
}

} // namespace

TEST_CASE("Stresses under a loaded rectangle are those of Boussinesq and Cerruti point loads added up") {
  const double dx = 2.0, dy = 3.0;
  for (const auto& [x, y, z] : std::vector<std::array<double, 3>>{
           {0.31, -0.4, 1.2}, {1.7, 2.3, 0.8}, {-2.6, 0.45, 0.9}, {0.7, -3.9, 2.5}, {-1.13, -1.57, 4.0}}) {
    CAPTURE(x, y, z);
    const Stress normal = rectangle_stress(x, y, z, dx, dy, {1.0, 0.0, 0.0}, nu);
    const Stress along = rectangle_stress(x, y, z, dx, dy, {0.0, 1.0, 0.0}, nu);
    const Stress across = rectangle_stress(x, y, z, dx, dy, {0.0, 0.0, 1.0}, nu);
    const auto sideways = [](double px, double py, double pz) {
      const Stress s = tangential_point_load(py, px, pz);
      return Stress{s.yy, s.xx, s.zz, s.xy, s.zx, s.yz};
    };
    for (const Member m : members) {
      CHECK(normal.*m == Approx(integrated(normal_point_load, m, x, y, z, dx, dy)).margin(1e-9 * largest(normal)));
      CHECK(along.*m == Approx(integrated(tangential_point_load, m, x, y, z, dx, dy)).margin(1e-9 * largest(along)));
      CHECK(across.*m == Approx(integrated(sideways, m, x, y, z, dx, dy)).margin(1e-9 * largest(across)));
    }
  }
}

TEST_CASE("At the surface the stresses are the tractions under the rectangle and nothing beside it") {
  const Traction traction{3.0, 0.7, -0.4};
  const Stress under = rectangle_stress(0.3, -0.8, 0.0, 2.0, 3.0, traction, nu);
  CHECK(under.zz == Approx(-3.0));
  CHECK(under.zx == Approx(-0.7));
  CHECK(under.yz == Approx(0.4));
  const Stress beside = rectangle_stress(1.6, -0.8, 0.0, 2.0, 3.0, traction, nu);
  CHECK(beside.zz == Approx(0.0).margin(1e-12));
  CHECK(beside.zx == Approx(0.0).margin(1e-12));
  CHECK(beside.yz == Approx(0.0).margin(1e-12));
}

TEST_CASE("Every grain of steel under the rectangle is in equilibrium") {
  const Traction traction{1.0, 0.4, -0.3};
  const double h = 1e-4;
  const auto at = [&](double x, double y, double z) { return rectangle_stress(x, y, z, 2.0, 3.0, traction, nu); };
  for (const auto& point :
       std::vector<std::array<double, 3>>{{0.2, 0.1, 0.5}, {1.3, -1.9, 0.4}, {-0.9, 1.4, 1.1}, {0.0, 0.0, 2.0}}) {
    const double x = point[0], y = point[1], z = point[2];
    const auto slope_x = [&](Member m) { return (at(x + h, y, z).*m - at(x - h, y, z).*m) / (2.0 * h); };
    const auto slope_y = [&](Member m) { return (at(x, y + h, z).*m - at(x, y - h, z).*m) / (2.0 * h); };
    const auto slope_z = [&](Member m) { return (at(x, y, z + h).*m - at(x, y, z - h).*m) / (2.0 * h); };
    CHECK(slope_x(&Stress::xx) + slope_y(&Stress::xy) + slope_z(&Stress::zx) == Approx(0.0).margin(1e-6));
    CHECK(slope_x(&Stress::xy) + slope_y(&Stress::yy) + slope_z(&Stress::yz) == Approx(0.0).margin(1e-6));
    CHECK(slope_x(&Stress::zx) + slope_y(&Stress::yz) + slope_z(&Stress::zz) == Approx(0.0).margin(1e-6));
  }
}

TEST_CASE("A whole plane of stresses by transforms is the one summed point by point") {
  const HalfSpaceGrid grid(11, 8, 0.4e-3, 0.7e-3);
  std::vector<double> pressure(grid.cells()), along(grid.cells()), across(grid.cells());
  for (std::size_t i = 0; i < grid.cells(); ++i) {
    pressure[i] = 1e8 * static_cast<double>(i * i % 13);
    along[i] = 3e7 * (static_cast<double>(i % 5) - 2.0);
    across[i] = 2e7 * (static_cast<double>(i * i % 7) - 3.0);
  }
  const Tractions tractions{pressure, along, across};
  for (const double depth : {0.0, 0.3e-3, 2e-3}) {
    const auto plane = stress_at_depth(grid, tractions, depth);
    double worst = 0.0, scale = 0.0;
    for (std::size_t i = 0; i < grid.cells(); ++i) {
      const Stress direct = stress_at(grid, tractions, grid.x(i % 11), grid.y(i / 11), depth);
      scale = std::max(scale, largest(direct));
      for (const Member m : members) {
        worst = std::max(worst, std::abs(plane[i].*m - direct.*m));
      }
    }
    CHECK(worst < 1e-11 * scale);
  }
}

TEST_CASE("Turning the shear from along to across turns the stresses with it") {
  for (const double x : {0.4, 1.8}) {
    const Stress along = rectangle_stress(x, 0.7, 0.6, 2.0, 3.0, {0.0, 1.0, 0.0}, nu);
    const Stress across = rectangle_stress(-0.7, x, 0.6, 3.0, 2.0, {0.0, 0.0, 1.0}, nu); // all turned by 90 degrees
    CHECK(across.yy == Approx(along.xx));
    CHECK(across.xx == Approx(along.yy));
    CHECK(across.zz == Approx(along.zz));
    CHECK(across.xy == Approx(-along.xy));
    CHECK(across.yz == Approx(along.zx));
    CHECK(across.zx == Approx(-along.yz));
    CHECK(von_mises(across) == Approx(von_mises(along)));
    CHECK(max_shear(across) == Approx(max_shear(along)));
  }
}
