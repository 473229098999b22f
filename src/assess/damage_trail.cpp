// The rolling contacts of one passage: place, patch, creepage, creep force, with the wheel's spin speed integrated.
#include "wingnose/assess/damage.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <span>

namespace wingnose::assess {
namespace {

// Place between two stations of a path.
struct Between {
  std::size_t i;
  double t;
  // Where only one side exists (the wheel enters a body), that side counts.
  [[nodiscard]] double of(const std::vector<double>& column) const {
    const double a = column[i], b = column[i + 1];
    if (!std::isfinite(a) || !std::isfinite(b)) {
      return std::isfinite(a) ? a : b;
    }
    return a + t * (b - a);
  }
};

Between place(const std::vector<double>& stations, double x) {
  const auto above = std::upper_bound(stations.begin(), stations.end(), x) - stations.begin();
  const auto i = static_cast<std::size_t>(std::clamp<std::ptrdiff_t>(above - 1, 0, std::ssize(stations) - 2));
  return {i, std::clamp((x - stations[i]) / (stations[i + 1] - stations[i]), 0.0, 1.0)};
}

void check_fit(const passage::History& h, const contact::WheelPath& path) {
  bool same = h.bodies.size() == path.bodies.size() && h.body_force.size() == path.bodies.size();
  for (std::size_t b = 0; same && b < h.bodies.size(); ++b) {
    same = h.bodies[b] == path.bodies[b].name && h.body_force[b].size() == h.station.size();
  }
  if (!same || path.station.size() < 2) {
    throw InputError("history and path",
                     std::to_string(h.bodies.size()) + " bodies beside " + std::to_string(path.bodies.size()),
                     "the same bodies", "Take the path the passage was simulated with.");
  }
}

// A patch of strips in place of a body's ellipse: the ellipse of the same force, peak pressure and proportions.
RollingStep of_patch(RollingStep s, const contact::PatchSummary& p, double axle, double radius) {
  const double product = 1.5 * p.force / (std::numbers::pi * p.peak_pressure), ratio = p.half_length / p.half_width;
  s.x = axle + p.dx;
  s.y = p.y;
  s.angle = p.angle;
  s.rolling_radius = radius;
  s.normal_force = p.force;
  s.patch = {std::sqrt(product * ratio), std::sqrt(product / ratio), p.peak_pressure, p.approach};
  s.change_of_angle = p.turn;
  return s;
}

constexpr int spin_rounds = 12;
constexpr double spin_tolerance = 1e-10; // -, of the spin speed; creepages are some 1e-3

struct SpinTorque {
  double moment = 0.0, stiffness = 0.0; // N m, N m s: of the creep forces about the axle, and its linear slope
};

// Creepages and creep forces of one step's contacts at a given spin speed (rad/s).
SpinTorque roll(std::span<RollingStep> contacts, const ContactTrail& trail, double omega, double friction,
                const contact::CreepLaw& law, contact::StripWorkspace& ws) {
  SpinTorque sum;
  for (RollingStep& s : contacts) {
    s.creepage = contact::creepage({.speed = trail.speed,
                                    .direction = trail.direction,
                                    .angular_speed = omega,
                                    .rolling_radius = s.rolling_radius,
                                    .contact_angle = s.angle,
                                    .yaw = trail.yaw});
    if (friction == 0.0) {
      continue;
    }
    const auto c = contact::rolling_contact(s.patch.a_x, s.patch.a_y, s.normal_force, trail.material);
    s.force = contact::creep_force(law, c, s.creepage, trail.speed, ws);
    // Along the heading, which lies at the yaw from t_x towards t_y in both senses of travel.
    sum.moment -= s.rolling_radius * (s.force.longitudinal * std::cos(trail.yaw) +
                                      s.force.lateral * std::cos(s.angle) * std::sin(trail.yaw));
    sum.stiffness += s.rolling_radius * s.rolling_radius * c.shear_modulus * c.a * c.b * c.linear.C11 / trail.speed;
  }
  return sum;
}

// The contacts of sample i.
void add_contacts(ContactTrail& trail, const passage::History& history, std::size_t i, const contact::WheelPath& path,
                  const profile::WheelProfile& wheel, double least_force, contact::PathPatches* patches) {
  const double x = history.station[i];
  const Between at = place(path.station, x);
  for (std::size_t b = 0; b < path.bodies.size(); ++b) {
    const contact::BodyPath& body = path.bodies[b];
    const double angle = at.of(body.angle), vertical = history.body_force[b][i], wheel_y = at.of(body.wheel_y);
    if (!(vertical >= least_force) || !std::isfinite(angle)) {
      continue;
    }
    RollingStep s{};
    s.body = b;
    s.time = history.time[i];
    s.x = x + at.of(body.contact_dx);
    s.y = at.of(body.contact_y);
    s.angle = angle;
    s.normal_force = vertical / std::cos(angle);
    s.rolling_radius = path.wheel_radius + wheel.height(wheel_y);
    const double bend = at.of(body.curvature_y);
    s.patch = contact::hertz_patch(s.normal_force, at.of(body.curvature_x), bend, trail.material);
    s.change_of_angle = 2.0 * s.patch.a_y * std::abs(0.5 * bend + wheel.at(wheel_y).curvature);
    const auto found = patches != nullptr ? patches->at(b, x, vertical) : std::vector<contact::PatchSummary>{};
    if (found.empty()) {
      trail.steps.push_back(s);
    }
    for (const contact::PatchSummary& p : found) {
      trail.steps.push_back(of_patch(s, p, x, path.wheel_radius + wheel.height(p.wheel_y)));
    }
  }
}

// Spin speed (rad/s) after a step. Implicit midpoint: creepages and forces of a step are those at the mean of the spin
// speed over it, so that their work is exactly the change of spin energy. Solved with the slope of the linear theory,
// which is never too small.
double spin_after(std::span<RollingStep> here, const ContactTrail& trail, double omega, const DamageOptions& o,
                  const contact::CreepLaw& law, contact::StripWorkspace& ws) {
  double mean = omega;
  for (int round = 0; round < spin_rounds; ++round) {
    const SpinTorque torque = roll(here, trail, mean, o.friction, law, ws);
    const double half = 0.5 * trail.duration / o.spin_inertia;
    const double miss = omega + half * torque.moment - mean;
    if (std::abs(miss) <= spin_tolerance * mean) {
      break;
    }
    mean += miss / (1.0 + half * torque.stiffness);
  }
  return 2.0 * mean - omega;
}

} // namespace

void check(const DamageOptions& o) {
  demand_ranges(o, "damage");
  if (o.creep_law == CreepTheory::polach && o.slip_reduction > o.adhesion_reduction) {
    throw Contradiction("slip_reduction", o.slip_reduction, Bound::up_to, o.adhesion_reduction, "adhesion_reduction",
                        "The area of slip loses at least as much as the area of adhesion.");
  }
  check(o.wear);
  check(o.cracks);
  check(creep_law_of(o));
  check(sliding_law_of(o));
}

contact::Friction friction_of(const DamageOptions& o) {
  return {.mu0 = std::max(o.friction, 1e-9), .A = o.friction_ratio, .B = o.friction_decay};
}

contact::Simplified sliding_law_of(const DamageOptions& o) {
  return {.friction = friction_of(o), .strips = o.strips, .cells = o.cells};
}

contact::CreepLaw creep_law_of(const DamageOptions& o) {
  switch (o.creep_law) {
  case CreepTheory::polach:
    return contact::Polach{.friction = friction_of(o), .kA = o.adhesion_reduction, .kS = o.slip_reduction};
  case CreepTheory::cubic:
    return contact::Cubic{.friction = friction_of(o)};
  case CreepTheory::simplified:
    break;
  }
  return sliding_law_of(o);
}

ContactTrail contact_trail(const passage::History& history, const contact::WheelPath& path,
                           const profile::WheelProfile& wheel, double landing, const contact::Elastic& material,
                           const DamageOptions& o, contact::PathPatches* patches) {
  check(o);
  check_fit(history, path);
  if (patches != nullptr && patches->bodies() != path.bodies.size()) {
    throw InputError("patches along the path", std::to_string(patches->bodies()) + " bodies",
                     std::to_string(path.bodies.size()) + " as the path's", "Make them for the same crossing.");
  }
  if (history.station.size() < 3) {
    throw ComputeError("the history has too few steps to tell damage from it");
  }
  ContactTrail trail;
  trail.bodies = history.bodies;
  trail.material = material;
  trail.by_strips = patches != nullptr;
  trail.yaw = path.yaw;
  trail.duration = history.step;
  trail.direction = history.station.back() > history.station.front() ? Direction::facing : Direction::trailing;
  trail.speed = std::abs(history.station.back() - history.station.front()) /
                (history.step * static_cast<double>(history.station.size() - 1));
  const double way = sense(trail.direction);

  const contact::CreepLaw law = creep_law_of(o);
  const contact::Simplified sliding = sliding_law_of(o);
  contact::StripWorkspace ws = contact::make_workspace(sliding);
  double omega = 0.0;
  for (std::size_t i = 0; i < history.station.size(); ++i) {
    const double x = history.station[i], travelled = way * (x - landing);
    if (travelled < -o.before || travelled > o.after) {
      continue;
    }
    const std::size_t begin = trail.steps.size();
    add_contacts(trail, history, i, path, wheel, o.least_force, patches);
    const auto here = std::span(trail.steps).subspan(begin);
    if (trail.time.empty()) { // rolling freely on the body that carries most
      const auto most = std::max_element(here.begin(), here.end(), [](const RollingStep& a, const RollingStep& b) {
        return a.normal_force < b.normal_force;
      });
      omega = trail.speed * std::cos(path.yaw) / (most == here.end() ? path.wheel_radius : most->rolling_radius);
    }
    trail.time.push_back(history.time[i]);
    trail.angular_speed.push_back(omega);
    omega = spin_after(here, trail, omega, o, law, ws);
    if (o.friction > 0.0) {
      for (RollingStep& s : here) {
        const auto c = contact::rolling_contact(s.patch.a_x, s.patch.a_y, s.normal_force, trail.material);
        s.friction_power = contact::simplified_creep_force(sliding, c, s.creepage, trail.speed, ws).friction_power;
      }
    }
  }
  if (trail.steps.empty()) {
    throw ComputeError("no contact within " + number(o.before) + " m before and " + number(o.after) +
                       " m after the landing at station " + number(landing) + " m");
  }
  return trail;
}

} // namespace wingnose::assess
