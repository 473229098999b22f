// Order of convergence of the tangential solvers, and how far the fast laws are from the exact one.
#include "catch.hpp"
#include "wingnose/contact/tangential/rolling.hpp"
#include "wingnose/contact/tangential/rolling_coefficients.hpp"
#include "wingnose/contact/tangential/saturation.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

using namespace wingnose::contact;

namespace {

constexpr double mu = 0.3;

double order(double coarse, double middle, double fine) {
  return std::log2(std::abs((coarse - middle) / (middle - fine)));
}

} // namespace

TEST_CASE("The exact line contact converges to Carter with the first order of its cells") {
  const double load = 10e6, R = 0.46;
  const Elastic steel;
  const double a = std::sqrt(4.0 * load * R / (std::numbers::pi * steel.combined()));
  const double xi = mu * a / R * (1.0 - std::sqrt(0.5)); // Carter: half of mu P
  std::vector<double> error;
  for (const int cells : {20, 40, 80, 160}) {
    const RollingMatrix m = rolling_matrix(plane_mesh(a, load, cells), steel);
    error.push_back(std::abs(-rolling_contact_field(m, mu, {xi, 0, 0}).force.longitudinal / (mu * load) - 0.5));
  }
  for (std::size_t i = 1; i < error.size(); ++i) {
    const double p = std::log2(error[i - 1] / error[i]);
    CAPTURE(p);
    CHECK(p > 0.8);
    CHECK(p < 1.3);
  }
}

TEST_CASE("The creep stiffness of the half-space converges with the first order of its cells, faster across") {
  const auto converge = [](const CreepCoefficients& c, const CreepCoefficients& m, const CreepCoefficients& f,
                           double low, double high) {
    for (const double p : {order(c.C11, m.C11, f.C11), order(c.C22, m.C22, f.C22)}) {
      CAPTURE(p);
      CHECK(p > low);
      CHECK(p < high);
    }
  };
  for (const double ratio : {0.3, 1.0, 3.0}) {
    CAPTURE(ratio);
    const auto at = [ratio](int along, int across) { return half_space_coefficients(ratio, 0.25, along, across); };
    converge(at(8, 8), at(16, 8), at(32, 8), 0.8, 1.2); // the free leading edge: a root singularity
    converge(at(12, 6), at(12, 12), at(12, 24), 1.0, 2.0);
  }
}

TEST_CASE("The strips of the simplified theory converge with the second order of their cells") {
  const RollingContact contact = rolling_contact(7e-3, 5e-3, 100e3);
  const auto force = [&](int cells) {
    const Simplified law{{mu}, 60, cells};
    StripWorkspace ws = make_workspace(law);
    return -simplified_creep_force(law, contact, {2.5e-3, 0, 0}, 30.0, ws).force.longitudinal / (mu * 100e3);
  };
  // In longitudinal creepage the exact force of the theory is known: strips of half length l slip over the length
  // that the straight line of adhesion cuts from the parabola, which gives the cubic-like closed form summed here.
  const double exact = [&] {
    const Flexibilities L = flexibilities(contact);
    const StripPatch patch = elliptic_strips(contact, 60);
    double sum = 0.0;
    for (std::size_t j = 0; j < patch.y.size(); ++j) {
      const double l = patch.lead[j], g = mu * patch.peak[j], slope = 2.5e-3 / L.L1;
      // Distance from the leading edge in units of l: g s (2 - s) = slope l s at s = 2 - slope l / g.
      const double s = std::max(0.0, 2.0 - slope * l / g);
      const double stuck = 0.5 * slope * l * l * s * s;
      const double slid = g * l * (4.0 / 3.0 - s * s + s * s * s / 3.0);
      sum += patch.width[j] * (stuck + slid);
    }
    return sum / (mu * 100e3);
  }();
  const double coarse = std::abs(force(10) - exact), fine = std::abs(force(80) - exact);
  CAPTURE(coarse, fine, exact);
  CHECK(fine < 1e-4);
  CHECK(std::log2(coarse / fine) / 3.0 > 1.6);
}

TEST_CASE("The usual strips of the simplified theory are within 2 % of the limit of friction of many more") {
  const RollingContact contact = rolling_contact(7e-3, 5e-3, 100e3);
  for (const Creepage& c :
       {Creepage{1e-3, 0, 0}, Creepage{1e-3, 1e-3, 0.3}, Creepage{0, -1e-3, 1.0}, Creepage{0, 0, 2.0}}) {
    const Simplified usual{{mu}}, many{{mu}, 200, 200};
    StripWorkspace a = make_workspace(usual), b = make_workspace(many);
    const StripForce f = simplified_creep_force(usual, contact, c, 30.0, a);
    const StripForce g = simplified_creep_force(many, contact, c, 30.0, b);
    CHECK(std::abs(f.force.longitudinal - g.force.longitudinal) < 0.02 * mu * 100e3);
    CHECK(std::abs(f.force.lateral - g.force.lateral) < 0.02 * mu * 100e3);
  }
}

TEST_CASE("Distance of the fast creep laws from exact rolling over creepage and spin") {
  // Round contact, nu = 1/4; spin up to mu N / (G a^3), where spin alone has passed its largest lateral force. Bounds:
  // found, rounded up; Kalker (1990) states about 5 % of mu N for the simplified theory without, 10 to 15 % with spin.
  const Elastic material{210e9, 0.25};
  const double a = 5e-3, N = 100e3;
  const RollingContact contact = rolling_contact(a, a, N, material);
  const RollingMatrix coarse = rolling_matrix(elliptic_mesh(a, a, N, 8, 8), material);
  const RollingMatrix fine = rolling_matrix(elliptic_mesh(a, a, N, 16, 16), material);
  const double unit = mu * N / (contact.shear_modulus * a * a); // creepage of about one: full sliding near C u = 3
  double worst_simplified = 0.0, worst_cubic = 0.0, worst_polach = 0.0, worst_spin_simplified = 0.0;
  double worst_spin_polach = 0.0;
  for (const double spin : {0.0, 0.5, 1.0}) {
    for (const double u : {0.1, 0.3, 0.6}) {
      for (const double angle : {0.0, std::numbers::pi / 2, -std::numbers::pi / 2}) {
        const Creepage c{u * unit * std::cos(angle), u * unit * std::sin(angle), spin * unit / a};
        const CreepForce f8 = rolling_contact_field(coarse, mu, c).force,
                         f16 = rolling_contact_field(fine, mu, c).force;
        const double x = 2.0 * f16.longitudinal - f8.longitudinal, y = 2.0 * f16.lateral - f8.lateral;
        const CreepLaw strips = Simplified{{mu}, 30, 30};
        StripWorkspace ws = make_workspace(strips);
        const CreepForce s = creep_force(strips, contact, c, 30.0, ws), k = creep_force(Cubic{{mu}}, contact, c, 30.0),
                         p = creep_force(Polach{{mu}}, contact, c, 30.0);
        const double off_s = std::hypot(s.longitudinal - x, s.lateral - y) / (mu * N);
        const double off_k = std::hypot(k.longitudinal - x, k.lateral - y) / (mu * N);
        const double off_p = std::hypot(p.longitudinal - x, p.lateral - y) / (mu * N);
        double& worst = spin == 0.0 ? worst_simplified : worst_spin_simplified;
        worst = std::max(worst, off_s);
        double& worst_p = spin == 0.0 ? worst_polach : worst_spin_polach;
        worst_p = std::max(worst_p, off_p);
        if (spin == 0.0) {
          worst_cubic = std::max(worst_cubic, off_k);
        }
      }
    }
  }
  CAPTURE(worst_simplified, worst_spin_simplified, worst_cubic, worst_polach, worst_spin_polach);
  CHECK(worst_simplified < 0.05);
  CHECK(worst_cubic < 0.03);
  CHECK(worst_polach < 0.06);
  CHECK(worst_spin_simplified < 0.12);
  CHECK(worst_spin_polach < 0.28);
}
