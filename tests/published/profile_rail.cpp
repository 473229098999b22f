// Rail heads and rail sections against their drawings: radii and break widths must close on the head width.
#include "scoreboard.hpp"

#include "wingnose/profile/rail.hpp"

#include <boost/math/quadrature/gauss_kronrod.hpp>

#include <cmath>

using namespace wingnose;
using profile::rail_head;
using profile::rail_section;

namespace {

constexpr double mm = 1e-3;
const Source drawing{Trust::from_memory, "EN 13674-1 drawing (verified by its tangent construction)"};
const Source arcs{Trust::worked, "tangent arcs from the radii and break widths of EN 13674-1, recalled"};

// Pieces of an upright head from left to right: side, corner, shoulder, crown, shoulder, corner, side.
struct Right {
  const profile::Piece &shoulder, &corner;
};
Right right_half(const profile::RailHead& head) {
  REQUIRE(head.curve.pieces().size() == 7);
  return {head.curve.pieces()[4], head.curve.pieces()[5]};
}

} // namespace

TEST_CASE("The tangent arcs of 60E1 and 54E1 close on the head width of their drawing at its depth") {
  struct Row {
    const char* name;
    double width, depth, z1, z2, y2c, z2c, y3c, z3c; // mm
  };
  const Row rows[] = {{"60E1", 72.000, 14.300, -0.1744, -2.3025, 7.5005, -80.1279, 23.0160, -14.9491},
                      {"54E1", 70.000, 14.100, -0.1671, -2.0649, 7.3421, -80.1225, 22.0163, -14.7492}};
  for (const Row& row : rows) {
    const std::string name = row.name;
    const auto head = rail_head(name);
    CHECK(head.status.rfind("verified", 0) == 0);
    const auto [shoulder, corner] = right_half(head);
    score_abs("head width of " + name + " where the corner meets the side, mm", 2.0 * corner.to / mm, row.width, 5e-4,
              drawing);
    score_abs("depth of that point of " + name + ", mm", -head.curve.value(corner.to) / mm, row.depth, 1e-4, drawing);
    score_abs("height of " + name + " where crown and shoulder meet, mm", head.curve.value(shoulder.from) / mm, row.z1,
              6e-5, arcs);
    score_abs("height of " + name + " where shoulder and corner meet, mm", head.curve.value(corner.from) / mm, row.z2,
              6e-5, arcs);
    score_abs("centre of the shoulder arc of " + name + ", across, mm", shoulder.c[0] / mm, row.y2c, 6e-5, arcs);
    score_abs("centre of the shoulder arc of " + name + ", height, mm", shoulder.c[1] / mm, row.z2c, 6e-5, arcs);
    score_abs("centre of the corner arc of " + name + ", across, mm", corner.c[0] / mm, row.y3c, 6e-5, arcs);
    score_abs("centre of the corner arc of " + name + ", height, mm", corner.c[1] / mm, row.z3c, 6e-5, arcs);
  }
}

TEST_CASE("60E2 differs from 60E1 by the area its section table implies") {
  const auto e1 = rail_head("60E1"), e2 = rail_head("60E2");
  CHECK(e2.status.rfind("from memory", 0) == 0);
  const auto lost = [&](double y) { return e1.curve.value(y) - e2.curve.value(y); };
  using Quadrature = boost::math::quadrature::gauss_kronrod<double, 31>;
  const double half = Quadrature::integrate(lost, 0.0, right_half(e1).corner.to, 12, 1e-12);
  const double tabulated = rail_section("60E1").area - rail_section("60E2").area;
  score("area between the heads of 60E1 and 60E2, mm2", 2.0 * half / (mm * mm), tabulated / (mm * mm), 0.05,
        {Trust::worked, "difference of section areas 76.70 (read) and 76.48 cm2 (recalled); its head is a candidate"});
}

TEST_CASE("Section area times the density of steel is the mass per metre of the standard") {
  constexpr double density = 7850.0; // kg/m3
  const Source read{Trust::printed, "EN 13674-1, table of sections as a supplier prints it, to 0.01 kg/m"};
  const Source recalled{Trust::from_memory, "EN 13674-1, table of sections, to 0.01 kg/m (high)"};
  const Source product{Trust::worked, "area of EN 13674-1, recalled (high), times 7850 kg/m3, evaluated apart"};
  struct Row {
    const char* name;
    double mass; // kg/m
    const Source& source;
  };
  const Row rows[] = {{"60E1", 60.21, read},
                      {"60E2", 60.04, product},
                      {"54E1", 54.77, recalled},
                      {"56E1", 56.28, product},
                      {"49E1", 49.39, read}};
  for (const Row& row : rows) {
    const auto section = rail_section(row.name);
    const std::string name = row.name;
    score_abs("area times 7850 kg/m3 of " + name + ", kg/m", section.area * density, row.mass, 0.006, row.source);
    score("tabulated mass of " + name + " against area, kg/m", section.mass_per_m, section.area * density, 5e-4,
          {Trust::worked, "area of the same table times 7850 kg/m3"});
  }
}

TEST_CASE("60E1 has the bending stiffness that its foot modulus asks for") {
  // neutral axis 80.95 mm above the base, foot modulus 375.5 cm3 (both recalled); I / 80.95 mm = 375.3 cm3
  score("inertia of 60E1 over its neutral axis height, cm3", rail_section("60E1").inertia / 80.95e-3 * 1e6, 375.5, 1e-3,
        {Trust::from_memory, "EN 13674-1, foot modulus (high)"});
}
