#include "wingnose/contact/tangential/simplified_theory.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <string>

namespace wingnose::contact {
namespace {

using std::numbers::pi;

void check_count(const char* what, int count) {
  if (!(count >= 3 && count <= 400)) {
    throw InputError(what, std::to_string(count), "3 to 400", "20 keep the forces within 2 % of mu N of many more.");
  }
}

// Midpoint rule in the angle theta, y = b sin(theta): the area and the normal force of the ellipse come out exactly.
void fill_elliptic(const RollingContact& c, StripPatch& patch) {
  const auto n = patch.y.size();
  const double step = pi / static_cast<double>(n);
  const double p0 = 2.0 * c.normal_force / (pi * c.a * c.b); // parabolic bound, Kalker 1982
  for (std::size_t j = 0; j < n; ++j) {
    const double theta = -0.5 * pi + (static_cast<double>(j) + 0.5) * step;
    const double across = std::sin(theta), along = std::cos(theta);
    patch.y[j] = c.b * across;
    patch.width[j] = c.b * along * step;
    patch.lead[j] = c.a * along;
    patch.trail[j] = -c.a * along;
    patch.peak[j] = p0 * along * along;
  }
}

StripPatch sized_patch(std::size_t n) {
  const std::vector<double> empty(n, 0.0);
  return {empty, empty, empty, empty, empty};
}

} // namespace

void check(const Simplified& law) {
  check(law.friction);
  check_count("strips of the simplified theory", law.strips);
  check_count("cells per strip of the simplified theory", law.cells);
}

void check(const StripPatch& patch) {
  const std::size_t n = patch.y.size();
  for (const auto* column : {&patch.width, &patch.lead, &patch.trail, &patch.peak}) {
    if (column->size() != n || n == 0) {
      throw InputError("strips of the patch", std::to_string(column->size()) + " values beside " + std::to_string(n),
                       "columns of equal length, at least one strip", "Give every strip all five values.");
    }
  }
  for (std::size_t j = 0; j < n; ++j) {
    if (!(patch.width[j] > 0.0 && patch.trail[j] < patch.lead[j] && patch.peak[j] >= 0.0 &&
          std::isfinite(patch.y[j] + patch.width[j] + patch.lead[j] + patch.trail[j] + patch.peak[j]))) {
      throw InputError("strip " + std::to_string(j + 1) + " of the patch",
                       "width " + number(patch.width[j]) + " m from " + number(patch.trail[j]) + " to " +
                           number(patch.lead[j]) + " m, peak " + number(patch.peak[j]) + " Pa",
                       "width above 0, trailing edge behind the leading edge, peak 0 or more",
                       "x points along the rolling direction.");
    }
  }
}

Flexibilities flexibilities(const RollingContact& c) {
  const double G = c.shear_modulus, a = c.a;
  return {8.0 * a / (3.0 * G * c.linear.C11), 8.0 * a / (3.0 * G * c.linear.C22),
          pi * a * a / (4.0 * G * c.linear.C23 * std::sqrt(a * c.b))}; // Kalker 1982
}

Flexibilities single_flexibility(const RollingContact& c, const Creepage& creep) {
  const Flexibilities L = flexibilities(c);
  const double spin = creep.spin * std::sqrt(c.a * c.b);
  const double size = std::sqrt(creep.longitudinal * creep.longitudinal + creep.lateral * creep.lateral + spin * spin);
  if (size == 0.0) {
    return {L.L1, L.L1, L.L1};
  }
  const double one =
      (std::abs(creep.longitudinal) * L.L1 + std::abs(creep.lateral) * L.L2 + std::abs(spin) * L.L3) / size;
  return {one, one, one};
}

StripPatch elliptic_strips(const RollingContact& contact, int strips) {
  check_count("strips of the patch", strips);
  StripPatch patch = sized_patch(static_cast<std::size_t>(strips));
  fill_elliptic(contact, patch);
  return patch;
}

StripWorkspace make_workspace(int strips, int cells) {
  const auto n = static_cast<std::size_t>(std::max(strips, 1)), m = static_cast<std::size_t>(std::max(cells, 1));
  const std::vector<double> field(n * m, 0.0);
  return {sized_patch(n), field, field, field, std::vector<double>(7 * n, 0.0)};
}

StripWorkspace make_workspace(const Simplified& law) { return make_workspace(law.strips, law.cells); }

StripForce strip_creep_force(const StripPatch& patch, const Flexibilities& L, double mu, int cells,
                             const Creepage& creep, double speed, StripWorkspace& ws) {
  const std::size_t n = patch.y.size();
  const double m = cells;
  const double step_x = creep.longitudinal / L.L1, step_y = creep.lateral / L.L2, spin = creep.spin / L.L3;
  // The midpoint rule sums a parabola 1 + 1/(2 m^2) too high: without this full sliding would exceed mu N.
  const double bound_scale = mu / (1.0 + 0.5 / (m * m));
  const double *y = patch.y.data(), *lead = patch.lead.data(), *trail = patch.trail.data(), *peak = patch.peak.data();
  std::fill(ws.sums.begin(), ws.sums.end(), 0.0);
  double* px = ws.sums.data();
  double *py = px + n, *sum_x = py + n, *sum_y = sum_x + n, *moment = sum_y + n, *lost = moment + n, *slides = lost + n;
  for (int k = 0; k < cells; ++k) {
    // Tractions stand at the middle of the cells: the first step is half a cell from the free leading edge.
    const double t = (k + 0.5) / m, step = k == 0 ? 0.5 / m : 1.0 / m, t_step = t - 0.5 * step;
    const double bound_here = bound_scale * 4.0 * t * (1.0 - t);
    double* out_x = ws.traction_x.data() + static_cast<std::size_t>(k) * n;
    double* out_y = ws.traction_y.data() + static_cast<std::size_t>(k) * n;
    double* out_s = ws.slip_share.data() + static_cast<std::size_t>(k) * n;
#pragma omp simd
    for (std::size_t j = 0; j < n; ++j) {
      const double length = lead[j] - trail[j], h = step * length;
      const double x = lead[j] - t * length;
      const double ax = px[j] - h * (step_x - spin * y[j]);
      const double ay = py[j] - h * (step_y + spin * (lead[j] - t_step * length)); // exact: the slip is linear in x
      const double bound = bound_here * peak[j];
      const double size = std::sqrt(ax * ax + ay * ay + 1e-200); // the last term only keeps 0/0 away
      const double ratio = bound / size;
      const double kept = ratio < 1.0 ? ratio : 1.0;
      const double qx = kept * ax, qy = kept * ay, cut = 1.0 - kept;
      // -(p . slip) over the step by the trapezium rule; slip times the step = L (p - p_adhesion).
      lost[j] += 0.5 * cut * (L.L1 * ax * (px[j] + qx) + L.L2 * ay * (py[j] + qy));
      px[j] = qx;
      py[j] = qy;
      out_x[j] = qx;
      out_y[j] = qy;
      out_s[j] = cut;
      sum_x[j] += qx;
      sum_y[j] += qy;
      moment[j] += x * qy - y[j] * qx;
      slides[j] += cut > 0.0 ? 1.0 : 0.0;
    }
  }
  StripForce total{{}, 0.0, 0.0};
  double area = 0.0;
  for (std::size_t j = 0; j < n; ++j) {
    const double dA = patch.width[j] * (lead[j] - trail[j]) / m;
    total.force.longitudinal += dA * sum_x[j];
    total.force.lateral += dA * sum_y[j];
    total.force.moment += dA * moment[j];
    // The last half cell, to the trailing edge where the bound is zero.
    const double half = 0.5 * (lead[j] - trail[j]) / m;
    const double ax = px[j] - half * (step_x - spin * y[j]), ay = py[j] - half * (step_y + spin * trail[j]);
    total.friction_power += patch.width[j] * (lost[j] + 0.5 * (L.L1 * ax * px[j] + L.L2 * ay * py[j]));
    total.slip_area += dA * slides[j];
    area += dA * m;
  }
  total.friction_power *= speed;
  total.slip_area /= area;
  return total;
}

StripForce simplified_creep_force(const Simplified& law, const RollingContact& contact, const Creepage& creep,
                                  double speed, StripWorkspace& ws) {
  if (contact.normal_force <= 0.0) {
    return {};
  }
  fill_elliptic(contact, ws.patch);
  const double mu = friction_coefficient(law.friction, speed * std::hypot(creep.longitudinal, creep.lateral));
  const Flexibilities L = law.single_flexibility ? single_flexibility(contact, creep) : flexibilities(contact);
  return strip_creep_force(ws.patch, L, mu, law.cells, creep, speed, ws);
}

} // namespace wingnose::contact
