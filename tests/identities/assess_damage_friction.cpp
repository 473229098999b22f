// Why less friction can wear more: the energy a landing rubs away is fixed by the wheel's inertia and the jump of its
// rolling radius, and Archard's law counts the distance slid under load, which is that energy over the friction.
#include "catch.hpp"
#include "damage_cases.hpp"

#include "wingnose/assess/steel.hpp"

#include <cmath>
#include <vector>

using namespace wingnose;
using namespace wingnose::assess;
using namespace damage_cases;

namespace {

constexpr double wing_y = 0.030, nose_y = -0.010; // m, on the wheel

Damage with_friction(double mu, const WearMap& wear = {}, CreepTheory law = CreepTheory::simplified) {
  DamageOptions options;
  options.friction = mu;
  options.wear = wear;
  options.creep_law = law;
  return damage(trail(jump(wing_y, nose_y, [](double) { return load; }), options), steel("R260"), options);
}

// Wear coefficient the whole passage amounts to: volume x hardness x friction over the energy.
double mean_coefficient(const Damage& d, double mu) {
  return d.wear_volume * wear_hardness(steel("R260")) * mu / d.friction_energy;
}

} // namespace

TEST_CASE("The energy a landing rubs away is that of spinning the wheel up, whatever the friction") {
  // The wheel is carried on at the train's speed: sliding takes the integral of F (V - omega r) dt, and r F dt is
  // I d(omega), so it comes to I (jump of omega)^2 / 2 without spin.
  const double jump_of_omega = speed / (0.46 - wing_y / 20.0) - speed / (0.46 - nose_y / 20.0);
  const double energy = 0.5 * DamageOptions{}.spin_inertia * jump_of_omega * jump_of_omega;
  for (const double mu : {0.1, 0.15, 0.3, 0.5}) {
    CAPTURE(mu);
    CHECK(with_friction(mu).friction_energy == Approx(energy).epsilon(0.02)); // the cells of the theory
  }
}

TEST_CASE("With one wear coefficient everywhere half the friction wears twice as much: the wheel slides twice as far") {
  const WearMap even{.mild = 1e-3, .severe = 1e-3, .seizure = 1e-3};
  for (const double mu : {0.1, 0.15, 0.3, 0.5}) {
    CAPTURE(mu);
    const Damage d = with_friction(mu, even);
    CHECK(mean_coefficient(d, mu) == Approx(1e-3).epsilon(1e-9));
  }
  const Damage low = with_friction(0.15, even), high = with_friction(0.3, even);
  CHECK(low.wear_volume * 1e9 == Approx(2.0 * high.wear_volume * 1e9).epsilon(0.03)); // energies differ by the cells
}

TEST_CASE("Where slip lies about the border of the map, less friction wears milder, but further: the sum can go up") {
  // Full sliding is as fast as the wheel slides; with more friction parts of the patch adhere and what slips behind
  // them slips faster, so more of the energy falls into severe wear.
  const double slip = speed * (1.0 - (0.46 - nose_y / 20.0) / (0.46 - wing_y / 20.0)); // m/s, at the landing
  const WearMap map{.mild_up_to = std::abs(slip)};
  const Damage low = with_friction(0.15, map), high = with_friction(0.3, map);
  const double k_low = mean_coefficient(low, 0.15), k_high = mean_coefficient(high, 0.3);
  CHECK(k_low > map.mild);
  CHECK(k_high < map.severe);
  CHECK(k_low < k_high);
  CHECK(low.wear_volume / high.wear_volume ==
        Approx(2.0 * k_low / k_high * low.friction_energy / high.friction_energy).epsilon(1e-9));
  // Wear is not bound to rise with the friction, nor with its fall: it is bound by the map's two coefficients.
  CHECK(low.wear_volume < 2.0 * map.severe / map.mild * high.wear_volume);
}

TEST_CASE("Spinning up takes the same energy by every creep law; how long it takes is theirs") {
  const auto options = [](CreepTheory law) {
    DamageOptions o;
    o.creep_law = law;
    return o;
  };
  const auto passage = jump(wing_y, nose_y, [](double) { return load; });
  for (const CreepTheory law : {CreepTheory::simplified, CreepTheory::polach, CreepTheory::cubic}) {
    const auto t = trail(passage, options(law));
    double work = 0.0, slid = 0.0;
    for (std::size_t i = 0; i + 1 < t.time.size(); ++i) {
      const auto& s = t.steps[i];
      work -=
          s.rolling_radius * s.force.longitudinal * 0.5 * (t.angular_speed[i] + t.angular_speed[i + 1]) * t.duration;
      slid -= s.force.longitudinal * s.creepage.longitudinal * t.speed * t.duration;
    }
    const double inertia = DamageOptions{}.spin_inertia;
    const double change = 0.5 * inertia * (std::pow(t.angular_speed.back(), 2) - std::pow(t.angular_speed.front(), 2));
    CAPTURE(static_cast<int>(law));
    CHECK(work == Approx(change).epsilon(1e-4));
    const double jump_of_omega = t.angular_speed.back() - t.angular_speed.front();
    CHECK(slid == Approx(0.5 * inertia * jump_of_omega * jump_of_omega).epsilon(0.005));
  }
}
