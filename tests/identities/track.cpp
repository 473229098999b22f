// What any track must satisfy whatever its numbers.
#include "catch.hpp"

#include "wingnose/track/modal.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <numbers>
#include <vector>

using namespace wingnose::track;

namespace {

// A crossing-like track: stiffer casting, a heavy bearer, a hanging one.
Track uneven(int bays, int elements_per_bay) {
  Track t;
  t.bays = bays;
  t.elements_per_bay = elements_per_bay;
  RailProperties casting = t.rail;
  casting.EI *= 2.0;
  casting.rho_A *= 2.5;
  casting.rho_I *= 2.0;
  casting.kappa_GA *= 2.2;
  t.zones.push_back({-0.95, 0.75, casting});
  Seat heavy = t.seat;
  heavy.bearer_mass = 350.0;
  heavy.pad_stiffness = 300e6;
  Seat hanging = t.seat;
  hanging.ballast_stiffness = 5e6;
  hanging.ballast_damping = 5e3;
  t.overrides = {{0.0, heavy}, {0.6, hanging}};
  return t;
}

double at(const Assembly& a, double x_load, double x) {
  const std::array<double, 1> where{x};
  return static_deflection(a, 1.0, x_load, where)[0];
}

} // namespace

TEST_CASE("Deflection at b under a load at a equals deflection at a under a load at b") {
  const auto a = assemble(uneven(12, 4));
  // Pairs in one element, neighbouring elements, far apart, at nodes.
  for (const auto& [p, q] :
       {std::pair{0.31, 0.37}, {0.02, 0.17}, {-1.234, 0.777}, {0.0, 0.3}, {-3.59, 3.59}, {0.6, 0.63}}) {
    CHECK(at(a, p, q) == Approx(at(a, q, p)).epsilon(1e-9).margin(1e-18));
  }
}

TEST_CASE("Static deflection does not depend on the mesh, even inside an element") {
  Track t = uneven(12, 12);
  t.zones[0].begin = -0.6; // zone ends on seats, so that every mesh sees the same rail
  t.zones[0].end = 0.6;
  const auto fine = assemble(t);
  t.elements_per_bay = 1;
  const auto coarse = assemble(t);
  for (const double x_load : {0.0, 0.11, 0.3, -1.47}) {
    for (const double x : {0.0, 0.08, 0.11, 0.29, 0.5, -1.47, -1.3, 2.0}) {
      CHECK(at(coarse, x_load, x) == Approx(at(fine, x_load, x)).epsilon(1e-8).margin(1e-17));
    }
  }
}

TEST_CASE("A rail without supports moves as a rigid body without force") {
  Track t = uneven(6, 5);
  for (auto* seat : {&t.seat, &t.overrides[0].seat, &t.overrides[1].seat}) {
    seat->pad_stiffness = seat->ballast_stiffness = 0.0;
  }
  const auto a = assemble(t);
  Eigen::VectorXd lift = Eigen::VectorXd::Zero(a.dofs());
  Eigen::VectorXd tilt = lift;
  for (std::size_t i = 0; i < a.node.size(); ++i) {
    lift[2 * static_cast<Eigen::Index>(i)] = 1.0;
    tilt[2 * static_cast<Eigen::Index>(i)] = a.node[i];
    tilt[2 * static_cast<Eigen::Index>(i) + 1] = 1.0;
  }
  const double scale = a.K.coeffs().cwiseAbs().maxCoeff();
  CHECK((a.K * lift).cwiseAbs().maxCoeff() < 1e-12 * scale);
  CHECK((a.K * tilt).cwiseAbs().maxCoeff() < 1e-12 * scale);
}

TEST_CASE("The mass matrix holds the whole rail, its rotary inertia and the bearers") {
  Track t;
  t.bays = 7;
  t.elements_per_bay = 3;
  const auto a = assemble(t);
  Eigen::VectorXd lift = Eigen::VectorXd::Zero(a.dofs());
  Eigen::VectorXd tilt = lift;
  Eigen::VectorXd bearers = lift;
  for (std::size_t i = 0; i < a.node.size(); ++i) {
    lift[2 * static_cast<Eigen::Index>(i)] = 1.0;
    tilt[2 * static_cast<Eigen::Index>(i)] = a.node[i];
    tilt[2 * static_cast<Eigen::Index>(i) + 1] = 1.0;
  }
  for (const int dof : a.bearer_dof) {
    bearers[dof] = 1.0;
  }
  const double begin = a.node.front(), end = a.node.back(), length = t.bays * t.spacing;
  CHECK(end - begin == Approx(length));
  CHECK(lift.dot(a.M * lift) == Approx(t.rail.rho_A * length).epsilon(1e-12));
  // Half of the mass is lumped at the nodes: by the trapezoidal rule for x^2 that adds h^2 / 12 per unit length.
  const double h = t.spacing / t.elements_per_bay;
  const double second_moment = (std::pow(end, 3) - std::pow(begin, 3)) / 3.0 + length * h * h / 12.0;
  CHECK(tilt.dot(a.M * tilt) == Approx(t.rail.rho_A * second_moment + t.rail.rho_I * length).epsilon(1e-12));
  CHECK(bearers.dot(a.M * bearers) == Approx(8 * t.seat.bearer_mass).epsilon(1e-12));
  CHECK(bearers.dot(a.M * lift) == 0.0);
}

TEST_CASE("Modes and residual together give the static deflection at any station") {
  const auto m = modal_track(uneven(16, 8));
  CHECK(m->bilinearity_error < 1e-9);
  for (const double x : {-4.8, -3.21, -0.95, -0.3, 0.0, 0.0123, 0.26, 0.3, 0.6, 0.7501, 1.0, 4.79}) {
    CHECK(modal_receptance(*m, x, 0.0).real() == Approx(at(m->assembly, x, x)).epsilon(1e-6));
  }
}

TEST_CASE("With every mode kept the modal receptance is the direct one, whatever the damping") {
  Track t = uneven(6, 6);
  t.cut_off = 1e7;
  SECTION("usual pads") {}
  SECTION("pads damped beyond critical") { t.seat.pad_damping = 300e3; }
  SECTION("soft, lightly damped pads") {
    t.seat.pad_stiffness = 30e6;
    t.seat.pad_damping = 2e3;
  }
  SECTION("no damping at one end") { t.overrides.push_back({-1.8, {120e6, 0.0, 0.0, 150.0, 60e6, 0.0, 0.0}}); }
  const auto m = modal_track(t);
  const std::vector<double> f{1.0, 40.0, 130.0, 500.0, 1080.0, 1900.0, 3000.0};
  for (const double x : {0.0, 0.171, 0.3, 1.62}) {
    const auto direct = receptance(m->assembly, x, f);
    for (std::size_t i = 0; i < f.size(); ++i) {
      CHECK(std::abs(modal_receptance(*m, x, f[i]) - direct[i]) < 1e-7 * std::abs(direct[i]));
    }
  }
}

TEST_CASE(
    "With the default cut-off the modal receptance holds to 0.05 % below 500 Hz, to 1 % of itself below 1 kHz and "
    "to 0.5 % of the static compliance below 3 kHz") {
  const auto m = modal_track(uneven(20, 8));
  std::vector<double> f;
  for (double hertz = 10.0; hertz < 3000.0; hertz *= 1.13) {
    f.push_back(hertz);
  }
  for (const double x : {0.0, 0.3, 0.171, -2.22, 2.4}) {
    const auto direct = receptance(m->assembly, x, f);
    const double still = at(m->assembly, x, x);
    for (std::size_t i = 0; i < f.size(); ++i) {
      const double error = std::abs(modal_receptance(*m, x, f[i]) - direct[i]);
      CAPTURE(x, f[i]);
      CHECK(error < 5e-3 * still);
      if (f[i] < 1000.0) {
        CHECK(error < 1e-2 * std::abs(direct[i]));
      }
      if (f[i] < 500.0) {
        CHECK(error < 5e-4 * std::abs(direct[i]));
      }
    }
  }
}

TEST_CASE("The ballast carries the load: bearer mode shapes balance a static force") {
  const auto m = modal_track(uneven(20, 8));
  const double x = 0.171;
  const int e = m->element_at(x);
  const auto i = static_cast<std::size_t>(e);
  const double s = (x - m->assembly.node[i]) / (m->assembly.node[i + 1] - m->assembly.node[i]);
  const auto padded = static_cast<std::size_t>(m->padded);
  std::vector<std::complex<double>> z(padded); // static modal coordinates under 1 N
  for (std::size_t k = 0; k < padded; ++k) {
    std::complex<double> theta = 0.0;
    for (std::size_t c = 4; c-- > 0;) {
      theta = theta * s +
              std::complex<double>(m->theta_re[(i * 4 + c) * padded + k], m->theta_im[(i * 4 + c) * padded + k]);
    }
    z[k] = -theta / std::complex<double>(m->lambda_re[k], m->lambda_im[k]);
  }
  double carried = 0.0;
  for (std::size_t j = 0; j < m->assembly.seat.size(); ++j) {
    double w = 0.0;
    for (std::size_t k = 0; k < padded; ++k) {
      w += m->bearer_re[j * padded + k] * z[k].real() - m->bearer_im[j * padded + k] * z[k].imag();
    }
    carried += m->assembly.seat[j].ballast_stiffness * w;
  }
  CHECK(carried == Approx(1.0).epsilon(2e-3)); // the residual compliance of the bearers is not stored
}

TEST_CASE("A track only takes energy: the receptance lags, and damped modes decay") {
  Track t = uneven(14, 4);
  t.rail_loss = 0.01;
  t.seat.pad_loss = 0.2;
  const auto a = assemble(t);
  std::vector<double> f;
  for (double hertz = 5.0; hertz < 4000.0; hertz *= 1.2) {
    f.push_back(hertz);
  }
  for (const double x : {0.0, 0.21, 0.3}) {
    for (const auto h : receptance(a, x, f)) {
      CHECK(h.imag() < 0.0);
    }
  }
  const auto m = modal_track(t);
  for (const double decay : m->lambda_re) {
    CHECK(decay < 0.0);
  }
}

TEST_CASE("A track that is its own mirror image answers alike on both sides") {
  Track t;
  t.bays = 10;
  const auto a = assemble(t);
  for (const double x : {0.1, 0.3, 1.37}) {
    CHECK(at(a, x, 2.0 * x) == Approx(at(a, -x, -2.0 * x)).epsilon(1e-9));
  }
}
