// What the beam on elastic foundation must satisfy whatever its numbers: equilibrium, energy, lumps by quadrature.
#include "catch.hpp"

#include "wingnose/closedform/foundation_beam.hpp"

#include <boost/math/quadrature/exp_sinh.hpp>
#include <boost/math/quadrature/gauss_kronrod.hpp>

#include <cmath>
#include <limits>

using namespace wingnose::closedform;

namespace {

template <typename F> double from_zero(F f, double upper) {
  return boost::math::quadrature::gauss_kronrod<double, 61>::integrate(f, 0.0, upper, 12, 1e-13);
}

} // namespace

TEST_CASE("The foundation carries exactly the load, and the strain energy is half load times deflection") {
  const FoundationBeam beam{6.38e6, 40e6};
  const double P = 90e3;
  const double far = 30.0 * characteristic_length(beam);
  const double carried = 2.0 * from_zero([&](double x) { return beam.k * deflection(beam, P, x); }, far);
  CHECK(carried == Approx(P).epsilon(1e-10));
  const double energy = 2.0 * from_zero(
                                  [&](double x) {
                                    return 0.5 * beam.k * std::pow(deflection(beam, P, x), 2) +
                                           0.5 * std::pow(moment(beam, P, x), 2) / beam.EI;
                                  },
                                  far);
  CHECK(energy == Approx(0.5 * P * deflection(beam, P, 0.0)).epsilon(1e-10));
}

TEST_CASE("The bending moment is the curvature of the deflection times EI") {
  const FoundationBeam beam{6.38e6, 40e6};
  const double h = 1e-3;
  for (const double x : {0.2, 0.9, -1.7}) {
    const double curvature =
        (deflection(beam, 1.0, x + h) - 2.0 * deflection(beam, 1.0, x) + deflection(beam, 1.0, x - h)) / (h * h);
    CHECK(moment(beam, 1.0, x) == Approx(-beam.EI * curvature).epsilon(1e-5));
  }
}

TEST_CASE("Lumped mass and damping hold the energy and dissipation of the track in its static shape") {
  const FoundationBeam beam{6.38e6, 75e6};
  const double mass_per_m = 60.0 + 250.0;
  const double damping_per_m = 130e3;
  const double w0 = deflection(beam, 1.0, 0.0);
  const double shape_squared = 2.0 * from_zero([&](double x) { return std::pow(deflection(beam, 1.0, x) / w0, 2); },
                                               30.0 * characteristic_length(beam));
  const LumpedTrack lumps = lumped_track(beam, mass_per_m, damping_per_m);
  CHECK(lumps.m_T2 == Approx(mass_per_m * shape_squared).epsilon(1e-10));
  CHECK(lumps.c_T2 == Approx(damping_per_m * shape_squared).epsilon(1e-10));
  CHECK(lumps.k_T2 == Approx(1.0 / w0).epsilon(1e-12));
}

TEST_CASE("The moving-load factor is the Fourier integral of the moving beam equation, for deflection and moment") {
  boost::math::quadrature::exp_sinh<double> integrator;
  const auto integral = [&](double power, double r) {
    return integrator.integrate(
        [&](double q) {
          if (q > 1e60) // the integrand falls off as q^-2 or faster
            return 0.0;
          return std::pow(q, power) / (std::pow(q, 4) - 2.0 * r * r * q * q + 1.0);
        },
        0.0, std::numeric_limits<double>::infinity());
  };
  for (const double r : {0.25, 0.5, 0.75, 0.9}) {
    CHECK(moving_load_factor(r * 300.0, 300.0) == Approx(integral(0.0, r) / integral(0.0, 0.0)).epsilon(1e-7));
    CHECK(moving_load_factor(r * 300.0, 300.0) == Approx(integral(2.0, r) / integral(2.0, 0.0)).epsilon(1e-7));
  }
}

TEST_CASE("Shear and rotary inertia only lower the pinned-pinned frequency") {
  const double euler = pinned_pinned_frequency(6.38e6, 1e18, 60.21, 0.0, 0.6);
  const double sheared = pinned_pinned_frequency(6.38e6, 2.478e8, 60.21, 0.0, 0.6);
  const double full = pinned_pinned_frequency(6.38e6, 2.478e8, 60.21, 0.2385, 0.6);
  CHECK(sheared < euler);
  CHECK(full < sheared);
}
