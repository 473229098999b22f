// Creep forces of a passage follow the law and the friction asked for; sliding is told by the strips whatever the law.
#include "catch.hpp"
#include "damage_cases.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <string>

using namespace wingnose;
using namespace wingnose::assess;
using namespace damage_cases;

namespace {

DamageOptions by(CreepTheory law, double ratio = 1.0, double decay = 0.0) {
  DamageOptions o;
  o.creep_law = law;
  o.friction_ratio = ratio;
  o.friction_decay = decay;
  return o;
}

std::string refusal(const DamageOptions& o) {
  try {
    check(o);
  } catch (const InputError& error) {
    return error.what();
  }
  return {};
}

} // namespace

TEST_CASE("The creep force of every contact is the law's own at its creepage, its friction power that of the strips") {
  const auto passage = jump(0.030, -0.010, landing, 0.05);
  for (const CreepTheory law : {CreepTheory::simplified, CreepTheory::polach, CreepTheory::cubic}) {
    for (const double decay : {0.0, 5.0}) {
      const DamageOptions o = by(law, decay > 0.0 ? 0.4 : 1.0, decay);
      const auto t = trail(passage, o);
      const auto wanted = creep_law_of(o);
      auto ws = contact::make_workspace(sliding_law_of(o));
      for (std::size_t i = 0; i < t.steps.size(); i += 7) {
        const RollingStep& s = t.steps[i];
        const auto c = contact::rolling_contact(s.patch.a_x, s.patch.a_y, s.normal_force, t.material);
        CHECK(s.force == contact::creep_force(wanted, c, s.creepage, t.speed, ws));
        CHECK(s.friction_power ==
              contact::simplified_creep_force(sliding_law_of(o), c, s.creepage, t.speed, ws).friction_power);
        const double slip = t.speed * std::hypot(s.creepage.longitudinal, s.creepage.lateral);
        CHECK(std::hypot(s.force.longitudinal, s.force.lateral) <=
              contact::friction_coefficient(friction_of(o), slip) * s.normal_force * (1.0 + 1e-9));
      }
    }
  }
}

TEST_CASE("Friction that falls with the slip speed lets the wheel slide longer than constant friction") {
  const auto passage = jump(0.030, -0.010, [](double) { return load; });
  const auto still_sliding = [&](const DamageOptions& o) {
    double time = 0.0;
    const auto t = trail(passage, o);
    for (const RollingStep& s : t.steps) {
      time += std::abs(s.creepage.longitudinal) > 1e-3 ? t.duration : 0.0;
    }
    return time;
  };
  for (const CreepTheory law : {CreepTheory::simplified, CreepTheory::polach, CreepTheory::cubic}) {
    CAPTURE(static_cast<int>(law));
    CHECK(still_sliding(by(law, 0.4, 20.0)) > 1.1 * still_sliding(by(law)));
    // Falling at once to the ratio is the same as constant friction of that size, but for the first of the slip.
    DamageOptions low = by(law);
    low.friction *= 0.4;
    CHECK(still_sliding(by(law, 0.4, 1e4)) == Approx(still_sliding(low)).epsilon(0.02));
  }
}

TEST_CASE("Contaminated rail by the reductions of Polach spins the wheel up later, the strips know nothing of them") {
  const auto passage = jump(0.030, -0.010, [](double) { return load; });
  DamageOptions wet = by(CreepTheory::polach);
  wet.adhesion_reduction = 0.3;
  wet.slip_reduction = 0.1;
  const auto dry = trail(passage, by(CreepTheory::polach)), slippery = trail(passage, wet);
  const std::size_t later = dry.time.size() * 3 / 5;               // some milliseconds after the landing
  CHECK(slippery.angular_speed[later] > dry.angular_speed[later]); // the wheel slows down to the larger radius
  CHECK(slippery.steps[later].friction_power >
        -slippery.steps[later].force.longitudinal * slippery.steps[later].creepage.longitudinal * slippery.speed);
}

TEST_CASE("Friction ratio, decay and reductions outside their ranges are refused by name") {
  CHECK(refusal(by(CreepTheory::simplified, 0.0)).find("friction_ratio") != std::string::npos);
  CHECK(refusal(by(CreepTheory::cubic, 1.2)).find("friction_ratio") != std::string::npos);
  CHECK(refusal(by(CreepTheory::cubic, 0.5, -1.0)).find("friction_decay") != std::string::npos);
  DamageOptions o = by(CreepTheory::polach);
  o.slip_reduction = 0.9;
  o.adhesion_reduction = 0.5;
  CHECK(refusal(o).find("slip_reduction") != std::string::npos);
  o.creep_law = CreepTheory::simplified; // not its own
  CHECK(refusal(o).empty());
}

TEST_CASE("A sliver of metal under the wheel, sharper than any line contact, does not stop the damage of a passage") {
  auto passage = jump(0.030, -0.010, landing);
  auto& sharp = passage.path.bodies[1].curvature_y;
  for (std::size_t i = 0; i < sharp.size(); ++i) {
    sharp[i] = i > sharp.size() / 2 + 40 && i < sharp.size() / 2 + 60 ? 1e18 : sharp[i];
  }
  const auto t = trail(passage);
  double narrowest = 1.0;
  for (const RollingStep& s : t.steps) {
    CHECK(std::isfinite(s.patch.peak_pressure + s.force.longitudinal + s.friction_power));
    narrowest = std::min(narrowest, s.patch.a_y);
  }
  const double flat = passage.path.bodies[1].curvature_x[0]; // what the sharpest edge told is measured by
  const auto line = contact::hertz_patch(load, flat, 1e12 * flat);
  CHECK(narrowest > 0.5 * line.a_y);
  CHECK(narrowest < 2.0 * line.a_y);
}
