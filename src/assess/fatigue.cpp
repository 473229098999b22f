#include "wingnose/assess/fatigue.hpp"

#include "wingnose/words/error.hpp"

#include <cmath>
#include <numbers>

namespace wingnose::assess {

double surface_fatigue_index(double f, double a, double b, double k, double force) {
  if (!(f >= 0.0 && std::isfinite(f))) {
    throw InputError("traction coefficient", number(f), "0 or more", "It is the creep force over the normal force.");
  }
  if (!(a > 0.0 && b > 0.0 && k > 0.0 && force > 0.0 && std::isfinite(a * b * k / force))) {
    throw InputError("contact of the surface fatigue index",
                     number(a) + " m, " + number(b) + " m, " + number(k) + " Pa, " + number(force) + " N",
                     "semi-axes, yield in shear and force above 0", "There is no index without contact.");
  }
  return f - 2.0 * std::numbers::pi * a * b * k / (3.0 * force); // Ekberg, Kabo and Andersson 2002
}

void check(const CrackFunction& c) {
  if (!(c.threshold >= 0.0 && c.peak > c.threshold && c.balance > c.peak && std::isfinite(c.balance) && c.top > 0.0 &&
        std::isfinite(c.top))) {
    throw InputError("crack function of T-gamma",
                     number(c.threshold) + ", " + number(c.peak) + ", " + number(c.balance) + " N, top " +
                         number(c.top),
                     "0 <= threshold < peak < balance, top above 0", "Published: 15, 65 and 175 N, 10e-6 per wheel.");
  }
}

double crack_damage(double t_gamma, const CrackFunction& c) {
  if (t_gamma <= c.threshold) {
    return 0.0;
  }
  return t_gamma <= c.peak ? c.top * (t_gamma - c.threshold) / (c.peak - c.threshold)
                           : c.top * (c.balance - t_gamma) / (c.balance - c.peak); // Burstow 2004
}

} // namespace wingnose::assess
