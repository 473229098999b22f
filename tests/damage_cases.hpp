// Made-up passages for checks of damage: histories and paths whose answers are known.
#pragma once

#include "wingnose/assess/damage.hpp"

#include <cmath>
#include <functional>
#include <string>
#include <utility>
#include <vector>

namespace damage_cases {

using namespace wingnose;

constexpr double speed = 20.0, step = 4e-5, load = 90e3; // m/s, s, N

// A body whose contact keeps its shape: place, wheel coordinate and angle fixed, 0.46 m wheel on a head of 0.3 m.
inline contact::BodyPath body(std::string name, std::size_t n, double y, double wheel_y, double angle) {
  const auto all = [n](double value) { return std::vector<double>(n, value); };
  return {std::move(name), all(0.0), all(y), all(0.0), all(wheel_y), all(angle), all(1.0 / 0.46), all(1.0 / 0.30)};
}

struct Passage {
  passage::History history;
  contact::WheelPath path;
};

// Wing before station 0, nose behind it, on a coned wheel whose contact jumps from wing_y to nose_y on the wheel.
// force: N, over the distance travelled past station 0.
inline Passage jump(double wing_y, double nose_y, const std::function<double(double)>& force, double angle = 0.0,
                    Direction direction = Direction::facing, double stretch = 0.3) {
  Passage p;
  for (int i = -1000; i <= 1000; ++i) {
    p.path.station.push_back(i * 0.001);
  }
  const std::size_t n = p.path.station.size();
  p.path.bodies = {body("wing", n, 0.75 + wing_y, wing_y, angle), body("nose", n, 0.75 + nose_y, nose_y, angle)};
  p.path.bodies[0].role = layout::Role::wing;
  p.path.bodies[1].role = layout::Role::nose;
  p.path.excitation = "crossing";
  p.path.wheel_radius = 0.46;
  passage::History& h = p.history;
  h.bodies = {"wing", "nose"};
  h.roles = {layout::Role::wing, layout::Role::nose};
  h.body_force.resize(2);
  h.step = step;
  h.static_load = load;
  const double way = sense(direction);
  const int steps = static_cast<int>(std::lround(stretch / (speed * step)));
  for (int i = -steps; i <= steps; ++i) {
    const double travelled = i * speed * step, x = way * travelled, f = force(travelled);
    h.time.push_back(i * step);
    h.station.push_back(x);
    h.body_force[0].push_back(travelled < 0.0 ? f : 0.0);
    h.body_force[1].push_back(travelled < 0.0 ? 0.0 : f);
    h.force.push_back(f);
  }
  return p;
}
// The force of a landing: a bell of twice the load, 40 mm long.
inline double landing(double travelled) {
  return load * (1.0 + 2.0 * std::exp(-std::pow((travelled - 0.05) / 0.02, 2)));
}

inline assess::ContactTrail trail(const Passage& p, const assess::DamageOptions& options = {}) {
  return assess::contact_trail(p.history, p.path, profile::cone(1.0 / 20.0), 0.0, {}, options);
}

inline double total(const assess::Damage& d, std::vector<double> assess::DamageMap::*field) {
  double sum = 0.0;
  for (const assess::DamageMap& m : d.maps) {
    sum += assess::integral(m.grid, m.*field);
  }
  return sum;
}

} // namespace damage_cases
