// Sliding cells of one rolling contact by the simplified theory: where friction works, how hard and how fast.
#pragma once

#include "wingnose/contact/tangential/saturation.hpp"

#include <cmath>
#include <cstddef>

namespace wingnose::assess {

// Calls work(x, y, width, relative pressure, slip speed in m/s, friction power in W) for every cell that slides; x, y
// from the centre of the patch in the contact frame (m), width of its strip (m), the pressure over the Hertz maximum.
// `ws` holds the tractions simplified_creep_force has left. The powers sum up to its friction_power: same rule, cell by
// cell.
template <class Work>
void for_sliding_cells(const contact::StripWorkspace& ws, const contact::Flexibilities& L, double half_width,
                       const contact::Creepage& creep, double speed, Work work) {
  const contact::StripPatch& patch = ws.patch;
  const std::size_t n = patch.y.size(), m = ws.traction_x.size() / n;
  for (std::size_t j = 0; j < n; ++j) {
    const double length = patch.lead[j] - patch.trail[j], along = std::sqrt(1.0 - std::pow(patch.y[j] / half_width, 2));
    double before_x = 0.0, before_y = 0.0;
    for (std::size_t k = 0; k < m; ++k) {
      const double t = (static_cast<double>(k) + 0.5) / static_cast<double>(m);
      const double h = (k == 0 ? 0.5 : 1.0) / static_cast<double>(m) * length;
      const double qx = ws.traction_x[k * n + j], qy = ws.traction_y[k * n + j], cut = ws.slip_share[k * n + j];
      if (cut > 0.0 && cut < 1.0) {
        // Kalker 1982: slip times the step = L (p_adhesion - p); the traction works over it, trapezium rule.
        const double sx = L.L1 * qx * cut / (1.0 - cut), sy = L.L2 * qy * cut / (1.0 - cut);
        const double power = 0.5 * speed * patch.width[j] * (sx * (before_x + qx) + sy * (before_y + qy));
        work(patch.lead[j] - t * length, patch.y[j], patch.width[j], along * 2.0 * std::sqrt(t * (1.0 - t)),
             speed * std::hypot(sx, sy) / h, power);
      }
      before_x = qx;
      before_y = qy;
    }
    // The last half cell, to the trailing edge where the bound is zero.
    const double h = 0.5 / static_cast<double>(m) * length, x = patch.trail[j] + 0.5 * h;
    const double sx = L.L1 * before_x - h * (creep.longitudinal - creep.spin * L.L1 / L.L3 * patch.y[j]);
    const double sy = L.L2 * before_y - h * (creep.lateral + creep.spin * L.L2 / L.L3 * patch.trail[j]);
    const double t = 0.25 / static_cast<double>(m); // from the trailing edge, the same by symmetry
    work(x, patch.y[j], patch.width[j], along * 2.0 * std::sqrt(t * (1.0 - t)), speed * std::hypot(sx, sy) / h,
         0.5 * speed * patch.width[j] * (sx * before_x + sy * before_y));
  }
}

} // namespace wingnose::assess
