#include "catch.hpp"

#include "wingnose/contact/normal/hertz_table.hpp"
#include "wingnose/words/error.hpp"

#include <cmath>

using namespace wingnose;

TEST_CASE("Contact stiffness from the table equals the exact one to 1e-7 whichever way the ellipse lies") {
  const contact::HertzTable table;
  double worst = 0.0;
  for (double u = -16.0; u <= 16.0; u += 0.0137) { // past both ends of the table
    const double kx = 2.2, ky = 2.2 * std::exp(u);
    worst = std::max(worst, std::abs(table.stiffness(kx, ky) / contact::hertz_stiffness(kx, ky) - 1.0));
  }
  CHECK(worst < 1e-7);
  const contact::Elastic soft{.young = 100e9, .poisson = 0.35};
  CHECK(table.stiffness(3.0, 40.0, soft) == Approx(contact::hertz_stiffness(3.0, 40.0, soft)).epsilon(1e-7));
}

TEST_CASE("Past the sharpest line contact the table goes on as the exact law does") {
  const contact::HertzTable table;
  for (const double sharp : {2.2e12, 2.2e13, 1e200}) {
    CHECK(table.stiffness(2.2, sharp) == contact::hertz_stiffness(2.2, sharp));
    CHECK(table.stiffness(sharp, 2.2) == contact::hertz_stiffness(2.2, 2.2e12));
  }
}

TEST_CASE("The table refuses curvatures that are no contact, as the exact law does") {
  const contact::HertzTable table;
  CHECK_THROWS_AS(table.stiffness(0.0, 1.0), InputError);
  CHECK_THROWS_AS(table.stiffness(1.0, -1.0), InputError);
  CHECK_THROWS_AS(table.stiffness(std::nan(""), 1.0), InputError);
}
