// Total contact force of one wheel on up to two bodies that share one compliance, found inside a time step.
#pragma once

#include "wingnose/contact/normal/force_law.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace wingnose::passage {

inline constexpr int max_bodies = 2;

// Shares follow the last evaluation of the laws; scaled so that they add up to F exactly (action = reaction body by
// body).
inline void share(double F, int bodies, std::array<double, max_bodies>& body_force) {
  double sum = 0.0;
  for (int b = 0; b < bodies; ++b) {
    sum += body_force[b];
  }
  for (int b = 0; b < bodies && sum > 0.0; ++b) {
    body_force[b] *= F / sum;
  }
}

// Solves F = sum_b f_b(d_b - S F) for F >= 0: d_b the approach each body would see without this step's force (m), f_b
// its convex law up to `reach` (m), S the compliance of rail and wheel within the step (m/N). F - sum(...) is
// increasing and concave in F, so Newton's method started anywhere converges, from the left monotonically. body_force
// receives the share of each body. No allocation.
inline double solve_contact(const std::array<double, max_bodies>& d,
                            const std::array<contact::ForceLaw, max_bodies>& law, double reach, int bodies, double S,
                            double start, std::array<double, max_bodies>& body_force) {
  const double deepest = bodies > 1 ? std::max(d[0], d[1]) : d[0];
  if (deepest <= 0.0) {
    body_force.fill(0.0);
    return 0.0;
  }
  const double ceiling = deepest / S; // the force at which even the deepest contact is just closed
  double F = std::clamp(start, 0.0, ceiling);
  // Hertz's law has one term; without the others a passage takes a tenth less time.
  const bool hertz = law[0].c1 == 0.0 && law[0].c2 == 0.0 && law[1].c1 == 0.0 && law[1].c2 == 0.0 && std::isinf(reach);
  for (int iteration = 0; iteration < 60; ++iteration) {
    double sum = 0.0, slope = 1.0;
    for (int b = 0; b < bodies; ++b) {
      const double approach = d[b] - S * F;
      body_force[b] = 0.0;
      if (approach > 0.0) {
        const double root = std::sqrt(approach);
        const contact::ForceLaw::Value value =
            hertz ? contact::ForceLaw::Value{law[b].c0 * approach * root, 1.5 * law[b].c0 * root}
                  : law[b].at(approach, reach);
        body_force[b] = value.force;
        sum += value.force;
        slope += value.stiffness * S;
      }
    }
    const double next = std::clamp(F + (sum - F) / slope, 0.0, ceiling);
    const double change = std::abs(next - F);
    F = next;
    // Newton's next change would be of the order of (change / F)^2 F: far below what a step can resolve.
    if (change <= 1e-6 * F + 1e-6) {
      break;
    }
  }
  share(F, bodies, body_force);
  return F;
}

} // namespace wingnose::passage
