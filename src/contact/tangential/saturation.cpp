#include "wingnose/contact/tangential/saturation.hpp"

#include "wingnose/numeric/overloaded.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace wingnose::contact {
namespace {

using std::numbers::pi;

// Polach 2000: K_M of the force due to spin, eps_M >= 0.
double spin_function(double eps_M) {
  const double e2 = eps_M * eps_M;
  const double delta = (e2 - 1.0) / (e2 + 1.0);
  const double side = 2.0 * eps_M / (e2 + 1.0); // sqrt(1 - delta^2)
  return eps_M * (delta * delta * delta / 3.0 - 0.5 * delta * delta + 1.0 / 6.0) - side * side * side / 3.0;
}

CreepForce scaled(const CreepForce& f, double k) { return {k * f.longitudinal, k * f.lateral, k * f.moment}; }

void check_one(const Cubic& law) { check(law.friction); }
void check_one(const Polach& law) {
  check(law.friction);
  if (!(law.kA > 0.0 && law.kA <= 1.0)) {
    throw InputError("Polach's kA", number(law.kA), "above 0 and up to 1", "1 is clean rail; wet rail has about 0.3.");
  }
  if (!(law.kS > 0.0 && law.kS <= law.kA)) {
    throw InputError("Polach's kS", number(law.kS), "above 0 and up to kA = " + number(law.kA),
                     "The area of slip loses at least as much as the area of adhesion.");
  }
}
void check_one(const Simplified& law) { check(law); }

} // namespace

void check(const CreepLaw& law) {
  std::visit([](const auto& one) { check_one(one); }, law);
}

double cubic_saturation(double u) { return u < 3.0 ? u * (1.0 - u / 3.0 + u * u / 27.0) : 1.0; }

double polach_saturation(double u, double kA, double kS) {
  const double eps = 0.25 * pi * u; // Polach 2000 with his C = 3 G C11 / (8 a)
  const double eA = kA * eps;
  return 2.0 / pi * (eA / (1.0 + eA * eA) + std::atan(kS * eps));
}

CreepForce creep_force(const Cubic& law, const RollingContact& c, const Creepage& creep, double speed) {
  const double slip = speed * std::hypot(creep.longitudinal, creep.lateral);
  const double limit = friction_coefficient(law.friction, slip) * c.normal_force;
  if (limit <= 0.0) {
    return {};
  }
  const CreepForce linear = linear_creep_force(c, creep);
  const double u = std::hypot(linear.longitudinal, linear.lateral) / limit;
  // The quotient of the cubic and u, finite at u = 0.
  return scaled(linear, u < 3.0 ? 1.0 - u / 3.0 + u * u / 27.0 : 1.0 / u);
}

CreepForce creep_force(const Polach& law, const RollingContact& c, const Creepage& creep, double speed) {
  const double sx = creep.longitudinal, sy = creep.lateral, phi = creep.spin;
  const double limit = friction_coefficient(law.friction, speed * std::hypot(sx, sy)) * c.normal_force;
  // Polach 2000: the lateral creepage is the larger of those at the centre and at the end of the patch.
  const double at_end = sy + phi * c.a;
  const double syC = std::abs(at_end) > std::abs(sy) ? at_end : sy;
  const double sC = std::hypot(sx, syC);
  if (limit <= 0.0 || sC == 0.0) {
    return {};
  }
  const double G = c.shear_modulus, ab = c.a * c.b;
  // u = G a b c_jj sC / (mu N) with c_jj^2 = (C11 sx / sC)^2 + (C22 syC / sC)^2.
  const double u = G * ab * std::hypot(c.linear.C11 * sx, c.linear.C22 * syC) / limit;
  const double F = limit * polach_saturation(u, law.kA, law.kS);
  const double shape = 1.0 + 6.3 * (1.0 - std::exp(-c.a / c.b));
  const double eps_M = 8.0 / 3.0 * c.b * std::sqrt(ab) * G * c.linear.C23 * std::abs(syC) / (limit * shape);
  const double F_spin = -9.0 / 16.0 * c.a * limit * spin_function(eps_M) * shape; // times phi / sC
  CreepForce force{-F * sx / sC, -(F * sy + F_spin * phi) / sC, 0.0};
  const double size = std::hypot(force.longitudinal, force.lateral);
  const double excess = size > limit ? limit / size : 1.0;
  force.longitudinal *= excess;
  force.lateral *= excess;
  force.moment = linear_creep_force(c, creep).moment * (u > 0.0 ? std::min(1.0, F / (u * limit)) : 1.0);
  return force;
}

CreepForce creep_force(const CreepLaw& law, const RollingContact& contact, const Creepage& creep, double speed,
                       StripWorkspace& workspace) {
  return std::visit(overloaded{[&](const Cubic& one) { return creep_force(one, contact, creep, speed); },
                               [&](const Polach& one) { return creep_force(one, contact, creep, speed); },
                               [&](const Simplified& one) {
                                 return simplified_creep_force(one, contact, creep, speed, workspace).force;
                               }},
                    law);
}

StripWorkspace make_workspace(const CreepLaw& law) {
  return std::visit(overloaded{[](const Cubic&) { return StripWorkspace{}; },
                               [](const Polach&) { return StripWorkspace{}; },
                               [](const Simplified& one) { return make_workspace(one); }},
                    law);
}

} // namespace wingnose::contact
