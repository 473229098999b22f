// Interpolation of the linear creep coefficients: smooth, ordered, refused where it means nothing.
#include "catch.hpp"
#include "wingnose/contact/tangential/kalker.hpp"
#include "wingnose/contact/tangential/rolling_coefficients.hpp"
#include "wingnose/words/error.hpp"

#include <array>
#include <cmath>

using namespace wingnose::contact;

TEST_CASE("Without lateral contraction longitudinal and lateral creep stiffness are the same") {
  for (double ratio = 0.02; ratio < 60.0; ratio *= 1.13) {
    const CreepCoefficients C = creep_coefficients(ratio, 0.0);
    if (ratio >= 0.1 && ratio <= 10.0) {
      CHECK(std::abs(C.C11 - C.C22) < 1e-12 * C.C11);
    }
  }
}

TEST_CASE("Creep coefficients change monotonically with the axis ratio between the printed ellipses") {
  for (const double nu : {0.0, 0.25, 0.3, 0.5}) {
    CreepCoefficients before = creep_coefficients(0.5, nu);
    for (double ratio = 0.505; ratio < 10.0; ratio *= 1.01) {
      const CreepCoefficients C = creep_coefficients(ratio, nu);
      CHECK(C.C11 >= before.C11);
      CHECK(C.C22 > before.C22);
      CHECK(C.C23 > before.C23);
      CHECK(C.C33 < before.C33);
      before = C;
    }
  }
}

TEST_CASE("Creep coefficients have no jump and no kink from sliver to sliver") {
  const auto all = [](double log_ratio) {
    const CreepCoefficients C = creep_coefficients(std::exp(log_ratio), 0.3);
    return std::array<double, 4>{std::log(C.C11), std::log(C.C22), std::log(C.C23), std::log(C.C33)};
  };
  constexpr double h = 1e-4;
  for (double t = std::log(0.02); t < std::log(50.0); t += 0.01) {
    for (std::size_t i = 0; i < 4; ++i) {
      CHECK(std::abs(all(t + h)[i] - all(t)[i]) < 2.0 * h); // the steepest, C23, grows like (a/b)^1.5
    }
  }
  // Slopes on both sides of a printed ellipse agree (the interpolation is smooth there).
  for (const double ratio : {0.2, 0.5, 1.0, 1.0 / 0.6, 5.0}) {
    for (std::size_t i = 0; i < 4; ++i) {
      const double t = std::log(ratio);
      const double left = (all(t)[i] - all(t - h)[i]) / h, right = (all(t + h)[i] - all(t)[i]) / h;
      CHECK(std::abs(left - right) < 2e-3);
    }
  }
}

TEST_CASE("Beyond the table the slender-ellipse limits stay near the half-space solution") {
  // Bounds: what was found at 24 cells, rounded up. C33 of ellipses long in the rolling direction is a small difference
  // of large terms, not judged on this mesh.
  for (const double ratio : {0.05, 20.0}) {
    for (const double nu : {0.0, 0.25, 0.5}) {
      const CreepCoefficients C = creep_coefficients(ratio, nu), exact = extrapolated_coefficients(ratio, nu, 24);
      CAPTURE(ratio, nu);
      CHECK(std::abs(C.C11 / exact.C11 - 1.0) < 0.02);
      CHECK(std::abs(C.C22 / exact.C22 - 1.0) < 0.02);
      CHECK(std::abs(C.C23 / exact.C23 - 1.0) < 0.06);
      if (ratio < 1.0) {
        CHECK(std::abs(C.C33 / exact.C33 - 1.0) < 0.03);
      }
    }
  }
}

TEST_CASE("A line contact rolls with the coefficients of the most slender ellipse told") {
  const auto line = rolling_contact(8e-3, 1e-9, 1e5), turned = rolling_contact(1e-9, 8e-3, 1e5);
  CHECK(line.linear == creep_coefficients(1e3, 0.3));
  CHECK(turned.linear == creep_coefficients(1e-3, 0.3));
  CHECK(rolling_contact(8e-3, 8e-6 * 1.0001, 1e5).linear.C11 == Approx(line.linear.C11).epsilon(1e-3)); // no jump
}

TEST_CASE("Ellipses, materials and forces that cannot be are refused with advice") {
  CHECK_THROWS_WITH(creep_coefficients(1e-4, 0.3),
                    Catch::Contains("axis ratio a/b") && Catch::Contains("0.001 to 1000"));
  CHECK_THROWS_AS(creep_coefficients(std::nan(""), 0.3), wingnose::InputError);
  CHECK_THROWS_WITH(creep_coefficients(1.0, 0.6), Catch::Contains("Poisson's ratio") && Catch::Contains("0 to 0.5"));
  CHECK_THROWS_WITH(rolling_contact(0.0, 5e-3, 1e5), Catch::Contains("semi-axis of the contact ellipse"));
  CHECK_THROWS_WITH(rolling_contact(5e-3, 5e-3, -1.0), Catch::Contains("only press"));
  CHECK_THROWS_AS(rolling_contact(5e-3, 5e-3, 1e5, {-210e9, 0.3}), wingnose::InputError);
  CHECK_THROWS_AS(half_space_coefficients(1.0, 0.3, 8, 7), wingnose::InputError);
  CHECK_THROWS_AS(half_space_coefficients(1.0, 0.3, 100, 8), wingnose::InputError);
  CHECK_THROWS_AS(half_space_coefficients(1e3, 0.3, 8, 8), wingnose::InputError);
  CHECK_THROWS_AS(extrapolated_coefficients(1.0, 0.3, 10), wingnose::InputError);
}
