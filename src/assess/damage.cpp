#include "wingnose/assess/damage.hpp"

#include "damage_strips.hpp"

#include "wingnose/error.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace wingnose::assess {
namespace {

constexpr double half_space_limit = 0.15; // rad, change of contact angle inside a patch

std::vector<DamageMap> empty_maps(const ContactTrail& trail, const DamageOptions& o) {
  constexpr double inf = std::numeric_limits<double>::infinity();
  std::vector<DamageMap> maps;
  for (std::size_t b = 0; b < trail.bodies.size(); ++b) {
    double x0 = inf, x1 = -inf, y0 = inf, y1 = -inf;
    for (const RollingStep& s : trail.steps)
      if (s.body == b) {
        x0 = std::min(x0, s.x - s.patch.a_x);
        x1 = std::max(x1, s.x + s.patch.a_x);
        y0 = std::min(y0, s.y - s.patch.a_y);
        y1 = std::max(y1, s.y + s.patch.a_y);
      }
    const Grid empty{.spacing_x = o.spacing_x, .spacing_y = o.spacing_y};
    maps.push_back(empty_map(trail.bodies[b], x0 < x1 ? grid_around(o.spacing_x, o.spacing_y, x0, x1, y0, y1) : empty));
  }
  return maps;
}

void keep_largest(DamagePeak& peak, double value, const RollingStep& s, const std::string& body) {
  if (peak.body.empty() || value > peak.value)
    peak = {value, body, s.x, s.y, s.time};
}

// Pressure and counts on all nodes under the patch; its lateral axis lies along the tangent.
void mark(DamageMap& map, const RollingStep& s, bool plastic, bool flowing) {
  const Grid& g = map.grid;
  const double across = s.patch.a_y * std::cos(s.angle);
  const auto index = [](double place, double spacing, long first) {
    return static_cast<std::size_t>(std::max(0L, std::lround(std::ceil(place / spacing)) - first));
  };
  for (std::size_t i = index(s.x - s.patch.a_x, g.spacing_x, g.first_x); i < g.count_x; ++i) {
    const double u = (g.x(i) - s.x) / s.patch.a_x;
    if (u > 1.0)
      break;
    for (std::size_t j = index(s.y - across, g.spacing_y, g.first_y); j < g.count_y; ++j) {
      const double v = (g.y(j) - s.y) / across, rest = 1.0 - u * u - v * v;
      if (v > 1.0)
        break;
      if (rest < 0.0)
        continue;
      const std::size_t at = i * g.count_y + j;
      map.peak_pressure[at] = std::max(map.peak_pressure[at], s.patch.peak_pressure * std::sqrt(rest));
      map.wheels[at] = 1.0;
      map.beyond_shakedown[at] = std::max(map.beyond_shakedown[at], plastic ? 1.0 : 0.0);
      map.beyond_surface_flow[at] = std::max(map.beyond_surface_flow[at], flowing ? 1.0 : 0.0);
    }
  }
}

double wheels_so_far(const std::vector<DamageMap>* before, const RollingStep& s) {
  if (before == nullptr)
    return 0.0;
  const DamageMap& map = before->at(s.body);
  return nearest(map.grid, map.wheels, s.x, s.y);
}

std::vector<std::string> notes(const ContactTrail& trail, const Damage& d) {
  std::vector<std::string> out{
      "The wheelset runs straight, without roll, yaw or lateral motion: lateral creepage is 0, spin comes from the "
      "contact angle. The other wheel is taken to roll freely.",
      "Pressures are elastic, one ellipse per body on a half-space; the shape does not change with traffic."};
  for (std::size_t b = 0; b < trail.bodies.size(); ++b) {
    double first = 0.0, last = 0.0, most = 0.0;
    for (const RollingStep& s : trail.steps)
      if (s.body == b && s.change_of_angle > half_space_limit) {
        first = most > 0.0 ? std::min(first, s.x) : s.x;
        last = most > 0.0 ? std::max(last, s.x) : s.x;
        most = std::max(most, s.change_of_angle);
      }
    if (most > 0.0)
      out.push_back("Half-space stretched on the " + trail.bodies[b] + " between stations " +
                    number(std::round(first * 1e3)) + " and " + number(std::round(last * 1e3)) +
                    " mm: the contact angle changes by up to " + number(std::round(most * 100.0) / 100.0) +
                    " rad inside the patch (limit 0.15).");
  }
  if (d.shakedown.value > 1.0)
    out.emplace_back(
        "Beyond shakedown the steel yields with every wheel; real pressures there are lower than these, and "
        "the shape flows until they are. Wear depth and volume are rates for the shape given, known to a "
        "factor of about two in severe and five in mild wear.");
  return out;
}

} // namespace

Damage damage(const ContactTrail& trail, const Steel& steel, const DamageOptions& o,
              const std::vector<DamageMap>* before) {
  check(o);
  check(steel);
  if (before != nullptr && before->size() != trail.bodies.size())
    throw InputError("maps of the traffic so far", std::to_string(before->size()) + " bodies",
                     std::to_string(trail.bodies.size()) + " bodies", "Take the maps of the same crossing.");
  Damage d;
  d.maps = empty_maps(trail, o);
  const ShakedownMap limits(o.shakedown_shape);
  const contact::Simplified law{.friction = {.mu0 = std::max(o.friction, 1e-9)}, .strips = o.strips, .cells = o.cells};
  contact::StripWorkspace ws = contact::make_workspace(law);
  const double way = sense(trail.direction);
  for (const RollingStep& s : trail.steps) {
    const std::string& body = trail.bodies[s.body];
    DamageMap& map = d.maps[s.body];
    const double wheels = wheels_so_far(before, s);
    const double k = shear_yield(steel, wheels), hardness = wear_hardness(steel, wheels);
    const double creep = std::hypot(s.force.longitudinal, s.force.lateral), f = creep / s.normal_force;
    const double load = s.patch.peak_pressure / k, limit = limits.elastic_shakedown(f), exceeded = load / limit;
    const double wear_peak = o.run_in ? std::min(s.patch.peak_pressure, limit * k) : s.patch.peak_pressure;
    const double index = surface_fatigue_index(f, s.patch.a_x, s.patch.a_y, k, s.normal_force);
    const double t_gamma =
        std::abs(s.force.longitudinal * s.creepage.longitudinal) + std::abs(s.force.lateral * s.creepage.lateral);
    keep_largest(d.peak_pressure, s.patch.peak_pressure, s, body);
    keep_largest(d.load_factor, load, s, body);
    keep_largest(d.shakedown, exceeded, s, body);
    keep_largest(d.fatigue_index, index, s, body);
    keep_largest(d.creepage, std::abs(s.creepage.longitudinal), s, body);
    keep_largest(d.creep_force, creep, s, body);
    keep_largest(d.traction, f, s, body);
    keep_largest(d.t_gamma, t_gamma, s, body);
    keep_largest(d.crack_damage, crack_damage(t_gamma, o.cracks), s, body);
    keep_largest(d.friction_power, s.friction_power, s, body);
    keep_largest(d.change_of_angle, s.change_of_angle, s, body);
    mark(map, s, exceeded > 1.0, index > 0.0);
    if (o.friction == 0.0)
      continue;
    const auto c = contact::rolling_contact(s.patch.a_x, s.patch.a_y, s.normal_force, trail.material);
    (void)contact::simplified_creep_force(law, c, s.creepage, trail.speed, ws);
    const double lateral = std::cos(s.angle);
    for_sliding_cells(ws, contact::flexibilities(c), s.patch.a_y, s.creepage, trail.speed,
                      [&](double x, double y, double pressure, double slip, double power) {
                        const double energy = power * trail.duration;
                        // Archard 1953 with N s = friction energy / mu in a sliding cell.
                        const double coefficient = wear_coefficient(slip, pressure * wear_peak, hardness, o.wear);
                        const double volume = archard_volume(coefficient, energy / o.friction, 1.0, hardness);
                        const double px = s.x + way * x, py = s.y + way * y * lateral;
                        spread(map.grid, map.friction_energy, px, py, energy);
                        spread(map.grid, map.wear_depth, px, py, volume);
                        d.friction_energy += energy;
                        d.wear_volume += volume;
                      });
  }
  for (const DamageMap& map : d.maps)
    for (std::size_t n = 0; n < map.wear_depth.size(); ++n)
      if (map.wear_depth[n] > d.wear_depth.value)
        d.wear_depth = {map.wear_depth[n], map.body, map.grid.x(n / map.grid.count_y), map.grid.y(n % map.grid.count_y),
                        std::numeric_limits<double>::quiet_NaN()};
  d.notes = notes(trail, d);
  return d;
}

} // namespace wingnose::assess
