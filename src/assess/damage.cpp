#include "wingnose/assess/damage.hpp"

#include "damage_strips.hpp"

#include "wingnose/assess/damage_along.hpp"
#include "wingnose/words/constants.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>

namespace wingnose::assess {
namespace {

std::vector<DamageMap> empty_maps(const ContactTrail& trail, const DamageOptions& o) {
  constexpr double inf = std::numeric_limits<double>::infinity();
  std::vector<DamageMap> maps;
  for (std::size_t b = 0; b < trail.bodies.size(); ++b) {
    double x0 = inf, x1 = -inf, y0 = inf, y1 = -inf;
    for (const RollingStep& s : trail.steps) {
      if (s.body == b) {
        x0 = std::min(x0, s.x - s.patch.a_x);
        x1 = std::max(x1, s.x + s.patch.a_x);
        y0 = std::min(y0, s.y - s.patch.a_y);
        y1 = std::max(y1, s.y + s.patch.a_y);
      }
    }
    const Grid empty{.spacing_x = o.spacing_x, .spacing_y = o.spacing_y};
    maps.push_back(empty_map(trail.bodies[b], x0 < x1 ? grid_around(o.spacing_x, o.spacing_y, x0, x1, y0, y1) : empty));
  }
  return maps;
}

void keep_largest(DamagePeak& peak, double value, const RollingStep& s, const std::string& body) {
  if (peak.body.empty() || value > peak.value) {
    peak = {value, body, s.x, s.y, s.time};
  }
}

// Calls work(node, pressure over its peak) for all nodes under the patch; its lateral axis lies along the tangent. A
// patch that falls between the nodes counts at the one nearest to its centre.
template <class Work> void for_loaded_nodes(const Grid& g, const RollingStep& s, Work work) {
  const double across = s.patch.a_y * std::cos(s.angle);
  const auto index = [](double place, double spacing, long first) {
    return static_cast<std::size_t>(std::max(0L, std::lround(std::ceil(place / spacing)) - first));
  };
  bool any = false;
  for (std::size_t i = index(s.x - s.patch.a_x, g.spacing_x, g.first_x); i < g.count_x; ++i) {
    const double u = (g.x(i) - s.x) / s.patch.a_x;
    if (u > 1.0) {
      break;
    }
    for (std::size_t j = index(s.y - across, g.spacing_y, g.first_y); j < g.count_y; ++j) {
      const double v = (g.y(j) - s.y) / across, rest = 1.0 - u * u - v * v;
      if (v > 1.0) {
        break;
      }
      if (rest < 0.0) {
        continue;
      }
      work(i * g.count_y + j, std::sqrt(rest));
      any = true;
    }
  }
  if (!any) {
    work(static_cast<std::size_t>(std::lround(s.x / g.spacing_x) - g.first_x) * g.count_y +
             static_cast<std::size_t>(std::lround(s.y / g.spacing_y) - g.first_y),
         1.0);
  }
}

void mark(DamageMap& map, const RollingStep& s, bool plastic, bool flowing) {
  for_loaded_nodes(map.grid, s, [&](std::size_t node, double pressure) {
    map.peak_pressure[node] = std::max(map.peak_pressure[node], s.patch.peak_pressure * pressure);
    map.wheels[node] = 1.0;
    map.beyond_shakedown[node] = std::max(map.beyond_shakedown[node], plastic ? 1.0 : 0.0);
    map.beyond_surface_flow[node] = std::max(map.beyond_surface_flow[node], flowing ? 1.0 : 0.0);
  });
}

void keep_peaks(Damage& d, const RollingStep& s, const SteelUnderContact& at, const std::string& body) {
  keep_largest(d.peak_pressure, s.patch.peak_pressure, s, body);
  keep_largest(d.load_factor, at.load_factor, s, body);
  keep_largest(d.shakedown, at.shakedown, s, body);
  keep_largest(d.fatigue_index, at.fatigue_index, s, body);
  keep_largest(d.creepage, std::abs(s.creepage.longitudinal), s, body);
  keep_largest(d.creep_force, std::hypot(s.force.longitudinal, s.force.lateral), s, body);
  keep_largest(d.traction, at.traction, s, body);
  keep_largest(d.t_gamma, at.t_gamma, s, body);
  keep_largest(d.crack_damage, at.crack_damage, s, body);
  keep_largest(d.friction_power, s.friction_power, s, body);
  keep_largest(d.change_of_angle, s.change_of_angle, s, body);
}

void find_deepest(Damage& d) {
  for (const DamageMap& map : d.maps) {
    for (std::size_t n = 0; n < map.wear_depth.size(); ++n) {
      if (map.wear_depth[n] > d.wear_depth.value) {
        d.wear_depth = {map.wear_depth[n], map.body, map.grid.x(n / map.grid.count_y), map.grid.y(n % map.grid.count_y),
                        std::numeric_limits<double>::quiet_NaN()};
      }
    }
  }
}

// Where the half-space is stretched, body by body.
Findings stretched(const ContactTrail& trail) {
  Findings found;
  for (std::size_t b = 0; b < trail.bodies.size(); ++b) {
    double first = 0.0, last = 0.0, most = 0.0;
    for (const RollingStep& s : trail.steps) {
      if (s.body == b && s.change_of_angle > stretched_angle) {
        first = most > 0.0 ? std::min(first, s.x) : s.x;
        last = most > 0.0 ? std::max(last, s.x) : s.x;
        most = std::max(most, s.change_of_angle);
      }
    }
    if (most > 0.0) {
      found.push_back({FindingKind::theory_stretched,
                       "the contact angle changes by up to " + number(std::round(most * 100.0) / 100.0) +
                           " rad inside the patch (limit " + number(stretched_angle) + ")",
                       trail.bodies[b] + ", stations " + number(std::round(first * 1e3)) + " to " +
                           number(std::round(last * 1e3)) + " mm"});
    }
  }
  return found;
}

} // namespace

Findings findings_of_steel(const ContactTrail& trail, const SteelMeasures& d) {
  Findings found = stretched(trail);
  if (d.shakedown.value > 1.0) {
    found.push_back(
        {FindingKind::beyond_shakedown,
         "the largest load factor is " + number(d.shakedown.value, 3) +
             " times its elastic shakedown limit: real pressures there are lower than these. Wear depth and "
             "volume are rates for the shape given, known to a factor of about two in severe and five in mild "
             "wear"});
  }
  return found;
}

std::vector<std::string> assumptions_of_steel(const ContactTrail& trail) {
  const std::string straight =
      trail.yaw == 0.0 ? "the wheelset runs straight, without yaw or lateral motion: lateral creepage is 0"
                       : "the wheelset runs straight, held in a yaw of " + number(std::round(trail.yaw * 1e6) * 1e-3) +
                             " mrad all along: lateral creepage is that angle of attack";
  return {straight + "; spin comes from the contact angle. The other wheel is taken to roll freely",
          trail.by_strips
              ? "pressures are elastic, by strips on a half-space, every patch seen as the ellipse of its force, peak "
                "and proportions; the shape does not change with traffic"
              : "pressures are elastic, one ellipse per body on a half-space; the shape does not change with traffic"};
}

std::vector<std::string> assumptions_of_steel() {
  return {
      ("the wheelset runs straight without lateral motion, held in the yaw of its case: lateral creepage is that angle "
       "of attack (0 without wheel.yaw_mrad) and spin comes from the contact angle; curving and wheels out of line do "
       "more to the steel than is told here"),
      "friction is that of the case all along the way; creep forces are those of steady rolling at each instant",
      ("pressures are elastic, by the case's law of contact on a half-space, and the shape does not change: beyond "
       "shakedown the steel flows until real pressures are lower"),
      ("wear is read at the run-in pressure, not above the shakedown limit times the yield in shear, unless the case "
       "says otherwise; that is an assumption of this program. Wear volumes are known to a factor of about two in "
       "severe and five in mild wear; their ratios between crossings are better known than they are"),
      "the crack function is that published for R260 rail in curves; other steels crack at other values"};
}

SteelMeasures steel_measures(const ContactTrail& trail, const Steel& steel, const DamageOptions& options) {
  DamageOptions coarse = options;
  // The widest spacings allowed: peaks and sums do not depend on the maps, only the time to fill them does.
  coarse.spacing_x = range_of<&DamageOptions::spacing_x>().most;
  coarse.spacing_y = range_of<&DamageOptions::spacing_y>().most;
  SteelMeasures measures = damage(trail, steel, coarse);
  measures.wear_depth = {};
  measures.wear_depth.value = std::numeric_limits<double>::quiet_NaN(); // that does depend on them
  return measures;
}

std::vector<DamageMap> loaded_places(const ContactTrail& trail, const DamageOptions& o) {
  std::vector<DamageMap> maps = empty_maps(trail, o);
  for (const RollingStep& s : trail.steps) {
    for_loaded_nodes(maps[s.body].grid, s, [&](std::size_t node, double) { maps[s.body].wheels[node] = 1.0; });
  }
  return maps;
}

std::vector<Damage> damage_after(const ContactTrail& trail, const Steel& steel, const DamageOptions& o,
                                 const std::vector<DamageMap>* before, std::span<const double> shares) {
  std::vector<std::vector<SteelUnderContact>> along;
  along.reserve(shares.size());
  for (const double share : shares) {
    along.push_back(steel_along(trail, steel, o, before, share));
  }
  std::vector<Damage> all(shares.size());
  for (Damage& d : all) {
    d.maps = empty_maps(trail, o);
  }
  const contact::Simplified law = sliding_law_of(o);
  contact::StripWorkspace ws = contact::make_workspace(law);
  const double way = sense(trail.direction);
  for (std::size_t i = 0; i < trail.steps.size(); ++i) {
    const RollingStep& s = trail.steps[i];
    for (std::size_t n = 0; n < all.size(); ++n) {
      const SteelUnderContact& at = along[n][i];
      keep_peaks(all[n], s, at, trail.bodies[s.body]);
      mark(all[n].maps[s.body], s, at.shakedown > 1.0, at.fatigue_index > 0.0);
    }
    if (o.friction == 0.0) {
      continue;
    }
    const auto c = contact::rolling_contact(s.patch.a_x, s.patch.a_y, s.normal_force, trail.material);
    (void)contact::simplified_creep_force(law, c, s.creepage, trail.speed, ws);
    const double lateral = std::cos(s.angle);
    for_sliding_cells(ws, contact::flexibilities(c), s.patch.a_y, s.creepage, trail.speed,
                      [&](double x, double y, double width, double pressure, double slip, double power) {
                        const double energy = power * trail.duration;
                        const Grid& grid = all.front().maps[s.body].grid;
                        // A strip wider than the map's spacing is laid over all the nodes under it.
                        const int pieces = std::max(1, static_cast<int>(std::ceil(width * lateral / grid.spacing_y)));
                        for (std::size_t n = 0; n < all.size(); ++n) {
                          const SteelUnderContact& at = along[n][i];
                          const double settled = at.shakedown_limit * at.shear_yield; // Pa
                          const double peak =
                              o.run_in ? std::min(s.patch.peak_pressure, settled) : s.patch.peak_pressure;
                          // Archard 1953 with N s = friction energy / mu in a sliding cell.
                          const double coefficient = wear_coefficient(slip, pressure * peak, at.hardness, o.wear);
                          const double volume = archard_volume(coefficient, energy / o.friction, 1.0, at.hardness);
                          DamageMap& map = all[n].maps[s.body];
                          for (int k = 0; k < pieces; ++k) {
                            const double aside = ((k + 0.5) / pieces - 0.5) * width;
                            const Spot place = spot(grid, s.x + way * x, s.y + way * (y + aside) * lateral);
                            spread(grid, map.friction_energy, place, energy / pieces);
                            spread(grid, map.wear_depth, place, volume / pieces);
                          }
                          all[n].friction_energy += energy;
                          all[n].wear_volume += volume;
                        }
                      });
  }
  for (Damage& d : all) {
    find_deepest(d);
    d.findings = findings_of_steel(trail, d);
  }
  return all;
}

Damage damage(const ContactTrail& trail, const Steel& steel, const DamageOptions& o,
              const std::vector<DamageMap>* before) {
  constexpr std::array whole{1.0};
  return std::move(damage_after(trail, steel, o, before, whole).front());
}

} // namespace wingnose::assess
