// The half-space rolling solver against closed forms: Carter's line contact, Cattaneo and Mindlin's shift, and the
// saturation of Vermeulen and Johnson.
#include "published/scoreboard.hpp"
#include "wingnose/contact/tangential/rolling.hpp"
#include "wingnose/contact/tangential/saturation.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

using namespace wingnose::contact;

namespace {

constexpr double pi = std::numbers::pi;

// First order in the cell length: what two meshes, the second twice as fine, would give on an endlessly fine one.
double extrapolated(double coarse, double fine) { return 2.0 * fine - coarse; }

} // namespace

TEST_CASE("A braked roller in line contact transmits Carter's force") {
  const Source source{Trust::worked, "formula of Carter 1926 as in Johnson 1985 ch. 8, recalled, evaluated"};
  const double load = 10e6, R = 0.46, mu = 0.3; // N/m, m
  const Elastic steel;
  const double a = std::sqrt(4.0 * load * R / (pi * steel.combined()));
  score("half length, mm", a * 1e3, 7.1246, 1e-5, source);
  const RollingMatrix coarse = rolling_matrix(plane_mesh(a, load, 60), steel);
  const RollingMatrix fine = rolling_matrix(plane_mesh(a, load, 120), steel);
  struct Row {
    double share, xi; // of mu P; xi rounded to five digits
  };
  for (const Row row : {Row{0.5, 1.3609e-3}, Row{0.75, 2.3232e-3}}) {
    const Creepage creep{row.xi, 0.0, 0.0};
    const double force = extrapolated(-rolling_contact_field(coarse, mu, creep).force.longitudinal,
                                      -rolling_contact_field(fine, mu, creep).force.longitudinal);
    score("Q/(mu P) at creepage " + scoreboard::number(row.xi), force / (mu * load), row.share, 0.005, source);
  }
  const double all = -rolling_contact_field(fine, mu, {1.02 * 4.6465e-3, 0.0, 0.0}).force.longitudinal;
  score("Q/(mu P) just past full sliding", all / (mu * load), 1.0, 0.001, source);
}

TEST_CASE("The stick zone of Carter's roller is at the leading edge and as long as he says") {
  const double load = 10e6, R = 0.46, mu = 0.3;
  const Elastic steel;
  const double a = std::sqrt(4.0 * load * R / (pi * steel.combined()));
  const RollingMatrix matrix = rolling_matrix(plane_mesh(a, load, 200), steel);
  const RollingField field = rolling_contact_field(matrix, mu, {1.3609e-3, 0.0, 0.0});
  // Stick half length a sqrt(1 - Q/(mu P)): the share that slips is 1 - sqrt(1/2). Two cells of 200 as tolerance.
  score_abs("slipping share at Q = mu P / 2", field.slip_area, 1.0 - std::sqrt(0.5), 0.011,
            {Trust::worked, "formula of Carter 1926 as in Johnson 1985 ch. 8, recalled, evaluated"});
  CHECK(field.slides.front() == 0.0);
  CHECK(field.slides.back() == 1.0);
  // Across the sections Carter's tractions: mu p0/a (sqrt(a^2 - x^2) - sqrt(c^2 - (x - d)^2)), c the stick half length.
  const double c = a * std::sqrt(0.5), d = a - c, p0 = 2.0 * load / (pi * a);
  for (const std::size_t i : {20U, 60U, 100U, 130U, 180U}) {
    const double x = field.x[i];
    const double stuck = std::max(0.0, c * c - (x - d) * (x - d));
    const double traction = mu * p0 / a * (std::sqrt(a * a - x * x) - std::sqrt(stuck));
    CHECK(std::abs(-field.traction_x[i] - traction) < 0.03 * mu * p0);
  }
}

TEST_CASE("A ball shifted sideways follows Cattaneo and Mindlin") {
  // Their solution neglects the slip across the force, which vanishes for nu = 0 only; for steel it is small.
  const Source source{Trust::worked, "formula of Cattaneo 1938 and Mindlin 1949, recalled (high), evaluated"};
  for (const double nu : {0.0, 0.3}) {
    Elastic material;
    material.poisson = nu;
    const double R = 10e-3, P = 1e3, mu = 0.3, share = 0.5;
    const double a = std::cbrt(3.0 * P * (0.5 * R) / (4.0 * material.combined())); // two balls of radius R
    const double G_star = material.young / (2.0 * (1.0 + nu)) / (2.0 * (2.0 - nu));
    const double shift = 3.0 * mu * P / (16.0 * a * G_star) * (1.0 - std::pow(1.0 - share, 2.0 / 3.0));
    const auto force = [&](int cells, double by) {
      const RollingMatrix matrix = rolling_matrix(elliptic_mesh(a, a, P, cells, cells), material, Sliding::shift);
      return -rolling_contact_field(matrix, mu, {by, 0.0, 0.0}).force.longitudinal;
    };
    const std::string at = ", nu " + scoreboard::number(nu);
    score("Q/(mu P) at Mindlin's shift of one half" + at, extrapolated(force(10, shift), force(20, shift)) / (mu * P),
          share, 0.005, source);
    const double small = 1e-3 * shift;
    score("stiffness over 8 a G*" + at, extrapolated(force(10, small), force(20, small)) / small / (8.0 * a * G_star),
          1.0, 0.005, source);
  }
}

TEST_CASE("Vermeulen and Johnson's cubic stays close to exact rolling of a round contact") {
  // They replace the stick area by an ellipse touching the leading edge, which overlooks a little slip there: their own
  // comparison with tests allows some 10 %. Longitudinal creepage, nu = 1/4, mu N = 1.
  const Elastic material{210e9, 0.25};
  const double a = 5e-3, N = 100e3, mu = 0.3;
  const RollingContact contact = rolling_contact(a, a, N, material);
  const RollingMatrix coarse = rolling_matrix(elliptic_mesh(a, a, N, 8, 8), material);
  const RollingMatrix fine = rolling_matrix(elliptic_mesh(a, a, N, 16, 16), material);
  for (const double u : {0.25, 0.5, 1.0, 1.5, 2.0, 3.0}) {
    const Creepage creep{u * mu * N / (contact.shear_modulus * a * a * contact.linear.C11), 0.0, 0.0};
    const double exact = extrapolated(-rolling_contact_field(coarse, mu, creep).force.longitudinal,
                                      -rolling_contact_field(fine, mu, creep).force.longitudinal);
    score("cubic over exact rolling at u " + scoreboard::number(u), cubic_saturation(u) / (exact / (mu * N)), 1.0, 0.10,
          {Trust::worked, "cubic of Vermeulen and Johnson 1964 against our half-space solver"});
  }
}
