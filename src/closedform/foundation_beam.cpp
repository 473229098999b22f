#include "wingnose/closedform/foundation_beam.hpp"

#include "wingnose/words/error.hpp"

#include <cmath>
#include <numbers>
#include <string>

namespace wingnose::closedform {
namespace {

void require(bool good, const char* what, double value, const char* allowed) {
  if (!good)
    throw InputError(std::string("beam on elastic foundation ") + what, number(value), allowed,
                     "Correct the value; all are in SI units.");
}

void require_positive(const char* what, double value) {
  require(std::isfinite(value) && value > 0.0, what, value, "above 0 and finite");
}

// beta = (k / 4 EI)^(1/4), 1/m: Zimmermann (1888), the reciprocal of his "base value" L.
double beta(const FoundationBeam& beam) { return 1.0 / characteristic_length(beam); }

} // namespace

double characteristic_length(const FoundationBeam& beam) {
  require_positive("EI (N m2)", beam.EI);
  require_positive("modulus k (N/m2)", beam.k);
  return std::pow(4.0 * beam.EI / beam.k, 0.25);
}

// Zimmermann (1888): w = P beta / (2 k) e^(-beta x) (cos beta x + sin beta x).
double deflection(const FoundationBeam& beam, double load, double x) {
  const double b = beta(beam);
  const double bx = b * std::abs(x);
  return load * b / (2.0 * beam.k) * std::exp(-bx) * (std::cos(bx) + std::sin(bx));
}

// Zimmermann (1888): M = P / (4 beta) e^(-beta x) (cos beta x - sin beta x), positive when the foot is in tension.
double moment(const FoundationBeam& beam, double load, double x) {
  const double b = beta(beam);
  const double bx = b * std::abs(x);
  return load / (4.0 * b) * std::exp(-bx) * (std::cos(bx) - std::sin(bx));
}

double point_stiffness(const FoundationBeam& beam) { return 2.0 * beam.k * characteristic_length(beam); }

// Fryba, "Vibration of solids and structures under moving loads" (1972): v_cr = (4 k EI / m^2)^(1/4).
double critical_speed(const FoundationBeam& beam, double mass_per_m) {
  require_positive("EI (N m2)", beam.EI);
  require_positive("modulus k (N/m2)", beam.k);
  require_positive("mass (kg/m)", mass_per_m);
  return std::pow(4.0 * beam.k * beam.EI / (mass_per_m * mass_per_m), 0.25);
}

// Fryba (1972), undamped, below the critical speed: deflection and moment under the load over their static values.
double moving_load_factor(double speed, double critical) {
  require_positive("critical speed (m/s)", critical);
  require(std::isfinite(speed) && std::abs(speed) < critical, "speed (m/s)", speed,
          "below the critical speed, where the undamped answer is bounded");
  const double ratio = speed / critical;
  return 1.0 / std::sqrt(1.0 - ratio * ratio);
}

LumpedTrack lumped_track(const FoundationBeam& beam, double mass_per_m, double damping_per_m) {
  require_positive("mass (kg/m)", mass_per_m);
  require(std::isfinite(damping_per_m) && damping_per_m >= 0.0, "damping (N s/m2)", damping_per_m,
          "0 or above and finite");
  // The whole track moves in the static shape s(x) = e^(-b|x|) (cos b|x| + sin b|x|), s(0) = 1, with the speed v of the
  // loaded point. Its kinetic energy is (1/2) v^2 m' I and it dissipates v^2 c' I with I = integral of s^2 over x:
  //   s^2 = e^(-2bx) (1 + sin 2bx),  x > 0
  //   I   = 2 [1 / (2b) + 2b / ((2b)^2 + (2b)^2)] = 2 [1 / (2b) + 1 / (4b)] = 3 / (2b).
  // Equal energy and dissipation of the lumps give m_T2 = m' I and c_T2 = c' I; k_T2 is the point stiffness 2k / b.
  const double shape_squared = 1.5 * characteristic_length(beam);
  return {mass_per_m * shape_squared, point_stiffness(beam), damping_per_m * shape_squared};
}

double effective_rail_mass(double EI, double mass_per_m, double frequency) {
  require_positive("EI (N m2)", EI);
  require_positive("mass (kg/m)", mass_per_m);
  require_positive("frequency (Hz)", frequency);
  const double omega = 2.0 * std::numbers::pi * frequency;
  return 2.0 * mass_per_m / std::pow(mass_per_m * omega * omega / EI, 0.25);
}

double pinned_pinned_frequency(double EI, double kappa_GA, double rho_A, double rho_I, double spacing) {
  require_positive("EI (N m2)", EI);
  require_positive("kappa G A (N)", kappa_GA);
  require_positive("rho A (kg/m)", rho_A);
  require(std::isfinite(rho_I) && rho_I >= 0.0, "rho I (kg m)", rho_I, "0 or above and finite");
  require_positive("bearer spacing (m)", spacing);
  // Timoshenko (1921), w = W sin qx, theta = T cos qx with q = pi / spacing turn the two equations of motion into
  //   (kGA q^2 - rhoA W2) (EI q^2 + kGA - rhoI W2) = (kGA q)^2,  W2 = omega^2,
  // a quadratic a W2^2 - b W2 + c = 0. The lower root in the form that does not cancel and allows rho_I = 0:
  const double q2 = std::pow(std::numbers::pi / spacing, 2);
  const double a = rho_A * rho_I;
  const double b = rho_A * (EI * q2 + kappa_GA) + rho_I * kappa_GA * q2;
  const double c = kappa_GA * q2 * EI * q2;
  const double omega2 = 2.0 * c / (b + std::sqrt(b * b - 4.0 * a * c));
  return std::sqrt(omega2) / (2.0 * std::numbers::pi);
}

} // namespace wingnose::closedform
