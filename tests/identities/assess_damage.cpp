// What must hold for the damage of any passage: nothing without friction, energy counted once, mirrored moves alike,
// traffic adding up.
#include "catch.hpp"
#include "damage_cases.hpp"

#include "wingnose/assess/damage_traffic.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

using namespace wingnose;
using namespace wingnose::assess;
using namespace damage_cases;

TEST_CASE("Without friction nothing slides against anything: no creep force, no energy, no wear, the pressure stays") {
  DamageOptions options;
  options.friction = 0.0;
  const auto passage = jump(0.030, -0.010, landing, 0.05);
  const Damage smooth = damage(trail(passage, options), steel("R260"), options);
  CHECK(smooth.creep_force.value == 0.0);
  CHECK(smooth.t_gamma.value == 0.0);
  CHECK(smooth.friction_energy == 0.0);
  CHECK(smooth.wear_volume == 0.0);
  CHECK(smooth.wear_depth.value == 0.0);
  const Damage rough = damage(trail(passage), steel("R260"), {});
  CHECK(rough.friction_energy > 0.0);
  CHECK(smooth.peak_pressure.value == rough.peak_pressure.value);
}

TEST_CASE("Friction energy is counted once: over cells, over the maps, and as creep force times creepage") {
  for (const double angle : {0.0, 0.05}) {
    const auto t = trail(jump(0.030, -0.010, landing, angle));
    const Damage d = damage(t, steel("R260"), {});
    double power = 0.0, forces = 0.0;
    for (const RollingStep& s : t.steps) {
      power += s.friction_power * t.duration;
      forces -= s.force.longitudinal * s.creepage.longitudinal * t.speed * t.duration;
    }
    CHECK(d.friction_energy == Approx(power).epsilon(1e-9));
    CHECK(total(d, &DamageMap::friction_energy) == Approx(power).epsilon(1e-9));
    CHECK(total(d, &DamageMap::wear_depth) * 1e9 == Approx(d.wear_volume * 1e9).epsilon(1e-9));
    // Steady rolling without spin: what the creep forces do is what sliding dissipates, to the cells of the theory.
    if (angle == 0.0) {
      CHECK(forces == Approx(power).epsilon(0.02));
    }
  }
}

TEST_CASE("The wheel's spin energy lost at a jump of the rolling radius is the work of the creep forces") {
  // From one cone radius to another with constant load: the work of the creep force on the spin equals its change.
  const auto t = trail(jump(0.030, -0.010, [](double) { return load; }));
  double work = 0.0;
  for (std::size_t i = 0; i + 1 < t.time.size(); ++i) {
    work -= t.steps[i].rolling_radius * t.steps[i].force.longitudinal * 0.5 *
            (t.angular_speed[i] + t.angular_speed[i + 1]) * t.duration;
  }
  const double inertia = DamageOptions{}.spin_inertia;
  const double change = 0.5 * inertia * (std::pow(t.angular_speed.back(), 2) - std::pow(t.angular_speed.front(), 2));
  CHECK(work == Approx(change).epsilon(1e-4));
  // Free rolling on the wing, then on the nose.
  CHECK(t.angular_speed.front() == Approx(speed / (0.46 - 0.030 / 20.0)).epsilon(1e-9));
  CHECK(t.angular_speed.back() == Approx(speed / (0.46 + 0.010 / 20.0)).epsilon(1e-4));
}

TEST_CASE("A wheel of great inertia keeps its spin speed: creepage is the change of rolling radius") {
  DamageOptions options;
  options.spin_inertia = 1e9;
  const auto t = trail(jump(0.030, -0.010, landing), options);
  const double wing = 0.46 - 0.030 / 20.0, nose = 0.46 + 0.010 / 20.0;
  for (const RollingStep& s : t.steps) {
    CHECK(s.creepage.longitudinal == Approx(s.body == 0 ? 0.0 : 1.0 - nose / wing).margin(1e-8));
  }
}

TEST_CASE("A trailing move over the mirrored crossing does the same to the steel, mirrored") {
  const Damage there = damage(trail(jump(0.030, -0.010, landing)), steel("R260"), {});
  const Damage back = damage(trail(jump(0.030, -0.010, landing, 0.0, Direction::trailing)), steel("R260"), {});
  CHECK(back.friction_energy == Approx(there.friction_energy).epsilon(1e-9));
  CHECK(back.wear_volume * 1e9 == Approx(there.wear_volume * 1e9).epsilon(1e-6));
  CHECK(back.t_gamma.value == Approx(there.t_gamma.value).epsilon(1e-9));
  CHECK(back.t_gamma.x == Approx(-there.t_gamma.x).margin(1e-9));
  CHECK(back.wear_depth.value * 1e9 == Approx(there.wear_depth.value * 1e9).epsilon(1e-6));
}

TEST_CASE("Eight times the load doubles the pressure and the load factor, as Hertz has it") {
  const auto at = [](double force) {
    return damage(trail(jump(0.0, 0.0, [force](double) { return force; })), steel("R260"), {});
  };
  const Damage light = at(20e3), heavy = at(160e3);
  CHECK(heavy.peak_pressure.value == Approx(2.0 * light.peak_pressure.value).epsilon(1e-9));
  CHECK(heavy.load_factor.value == Approx(2.0 * light.load_factor.value).epsilon(1e-9));
}

TEST_CASE("Twice the wheels do twice the damage, and the order of the wheels does not matter") {
  const auto one = trail(jump(0.030, -0.010, landing)), other = trail(jump(0.020, -0.005, landing));
  const std::vector<TrafficWheel> mix{{&one, 3.0, load}, {&other, 5.0, load}};
  const std::vector<TrafficWheel> turned{{&other, 5.0, load}, {&one, 3.0, load}};
  const std::vector<TrafficWheel> twice{{&one, 6.0, load}, {&other, 10.0, load}};
  const Steel s = steel("R350HT");
  const TrafficDamage a = damage_of_traffic(mix, s, {}), b = damage_of_traffic(turned, s, {}),
                      c = damage_of_traffic(twice, s, {});
  const Damage d1 = damage(one, s, {}), d2 = damage(other, s, {});
  CHECK(a.friction_energy == Approx(3.0 * d1.friction_energy + 5.0 * d2.friction_energy).epsilon(1e-12));
  CHECK(a.wear_volume == Approx(3.0 * d1.wear_volume + 5.0 * d2.wear_volume).epsilon(1e-12));
  CHECK(c.wear_volume == Approx(2.0 * a.wear_volume).epsilon(1e-12));
  for (std::size_t body = 0; body < a.maps.size(); ++body) {
    REQUIRE(a.maps[body].grid == b.maps[body].grid);
    CHECK(a.maps[body].peak_pressure == b.maps[body].peak_pressure);
    double worst = 0.0, largest = 0.0;
    for (std::size_t n = 0; n < a.maps[body].grid.size(); ++n) {
      worst = std::max({worst, std::abs(a.maps[body].wear_depth[n] - b.maps[body].wear_depth[n]),
                        std::abs(c.maps[body].wear_depth[n] - 2.0 * a.maps[body].wear_depth[n])});
      largest = std::max(largest, a.maps[body].wear_depth[n]);
    }
    CHECK(worst <= 1e-13 * largest);
    CHECK(*std::max_element(a.maps[body].wheels.begin(), a.maps[body].wheels.end()) <= 8.0 + 1e-12);
  }
}

TEST_CASE("A steel that does not harden is damaged alike in one stage or in many") {
  const auto one = trail(jump(0.030, -0.010, landing));
  const std::vector<TrafficWheel> mix{{&one, 1000.0, load}};
  const TrafficDamage all = damage_of_traffic(mix, steel("R260"), {}, 1),
                      parts = damage_of_traffic(mix, steel("R260"), {}, 4);
  CHECK(parts.wear_volume == Approx(all.wear_volume).epsilon(1e-12));
  CHECK(parts.wheels == Approx(all.wheels).epsilon(1e-12));
  CHECK(parts.stages.front().shakedown == parts.stages.back().shakedown);
}
