// What P1 and P2 must obey whatever the numbers: momentum, energy, scaling, inverses; and time integration of the
// lumps.
#include "catch.hpp"
#include "wingnose/closedform/joint_forces.hpp"

#include <boost/numeric/odeint.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

using namespace wingnose::closedform;

namespace {

JointCase coach() { return {54.55e3, 906.5, 44.7, 0.02, constant_set("GM/TT0088").track}; }

// The case with its track damping set so that the P2 mode has the damping ratio zeta.
JointCase with_damping(JointCase joint, double zeta) {
  joint.track.c_T2 = 2.0 * zeta * std::sqrt(joint.track.k_T2 * (joint.unsprung_mass + joint.track.m_T2));
  return joint;
}

double P2_increment(const JointCase& joint) { return joint_forces(joint).P2 - joint.static_load; }

// The lumps stepped through time from the plastic impact on; forces relative to the static load.
LumpedPeaks integrate(const JointCase& joint) {
  using State = std::array<double, 2>; // track lump: down, and its velocity
  const double mass = joint.unsprung_mass + joint.track.m_T2;
  const double omega = std::sqrt(joint.track.k_T2 / mass);
  const auto rate = [&](const State& s, State& ds, double) {
    ds = {s[1], -(joint.track.k_T2 * s[0] + joint.track.c_T2 * s[1]) / mass};
  };
  const double momentum = joint.unsprung_mass * joint.dip_angle * joint.speed;
  State state = {0.0, momentum / mass};
  LumpedPeaks peaks{0.0, 0.0, 0.0};
  const auto look = [&](const State& s, double) {
    State ds{};
    rate(s, ds, 0.0);
    peaks.spring = std::max(peaks.spring, joint.track.k_T2 * s[0]);
    peaks.spring_and_damper = std::max(peaks.spring_and_damper, joint.track.k_T2 * s[0] + joint.track.c_T2 * s[1]);
    peaks.contact = std::max(peaks.contact, -joint.unsprung_mass * ds[1]);
  };
  // Samples 1/2000 of a radian apart leave a smooth peak by less than 1e-7 of itself.
  boost::numeric::odeint::integrate_const(
      boost::numeric::odeint::make_controlled(1e-14, 1e-11, boost::numeric::odeint::runge_kutta_dopri5<State>()), rate,
      state, 0.0, 4.0 / omega, 5e-4 / omega, look);
  return {joint.static_load + peaks.spring, joint.static_load + peaks.spring_and_damper,
          joint.static_load + peaks.contact};
}

} // namespace

TEST_CASE("The exact peaks are those of the same lumps stepped through time, at any damping") {
  const double zeta = GENERATE(0.0, 0.05, 0.1037, 0.3, 0.49, 0.5, 0.6, 0.99, 1.0, 1.01, 2.0);
  const JointCase joint = with_damping(coach(), zeta);
  const LumpedPeaks exact = lumped_peaks(joint);
  const LumpedPeaks stepped = integrate(joint);
  CAPTURE(zeta);
  CHECK(exact.spring == Approx(stepped.spring).epsilon(1e-6));
  CHECK(exact.spring_and_damper == Approx(stepped.spring_and_damper).epsilon(1e-6));
  CHECK(exact.contact == Approx(stepped.contact).epsilon(1e-6));
}

TEST_CASE("The exact spring peak passes smoothly through critical damping") {
  const double below = lumped_peaks(with_damping(coach(), 1.0 - 1e-9)).spring;
  const double at = lumped_peaks(with_damping(coach(), 1.0)).spring;
  const double above = lumped_peaks(with_damping(coach(), 1.0 + 1e-9)).spring;
  CHECK(below == Approx(at).epsilon(1e-8));
  CHECK(above == Approx(at).epsilon(1e-8));
  CHECK(below >= at);
  CHECK(at >= above);
}

TEST_CASE("Without damping the spring stores exactly the energy the momentum sharing leaves") {
  const JointCase joint = with_damping(coach(), 0.0);
  const double mass = joint.unsprung_mass + joint.track.m_T2;
  const double momentum = joint.unsprung_mass * joint.dip_angle * joint.speed; // kept in the plastic impact
  const double increment = lumped_peaks(joint).spring - joint.static_load;
  CHECK(increment * increment / (2.0 * joint.track.k_T2) == Approx(momentum * momentum / (2.0 * mass)).epsilon(1e-12));
  CHECK(P2_increment(joint) == Approx(increment).epsilon(1e-12)); // the formula is exact here
  CHECK(lumped_peaks(joint).spring_and_damper - joint.static_load == Approx(increment).epsilon(1e-12));
}

TEST_CASE("The contact force carries the wheel's share of the joint motion") {
  const JointCase joint = coach();
  const LumpedPeaks peaks = lumped_peaks(joint);
  CHECK((peaks.contact - joint.static_load) / (peaks.spring_and_damper - joint.static_load) ==
        Approx(joint.unsprung_mass / (joint.unsprung_mass + joint.track.m_T2)).epsilon(1e-12));
}

TEST_CASE("Twice the speed or twice the dip doubles what P1 and P2 add to the static load") {
  const JointCase joint = coach();
  JointCase faster = joint;
  faster.speed *= 2.0;
  JointCase steeper = joint;
  steeper.dip_angle *= 2.0;
  CHECK(P2_increment(faster) == Approx(2.0 * P2_increment(joint)).epsilon(1e-12));
  CHECK(P2_increment(steeper) == Approx(2.0 * P2_increment(joint)).epsilon(1e-12));
  CHECK(joint_forces(faster).P1 - joint.static_load ==
        Approx(2.0 * (joint_forces(joint).P1 - joint.static_load)).epsilon(1e-12));
}

TEST_CASE(
    "Half the unsprung mass lowers the P2 increment by root two on a light undamped track, by more on a heavy one") {
  JointCase joint = with_damping(coach(), 0.0);
  joint.track.m_T2 = 0.0;
  JointCase lighter = joint;
  lighter.unsprung_mass /= 2.0;
  CHECK(P2_increment(joint) / P2_increment(lighter) == Approx(std::sqrt(2.0)).epsilon(1e-12));

  JointCase half = coach();
  half.unsprung_mass /= 2.0;
  const double ratio = P2_increment(coach()) / P2_increment(half);
  CHECK(ratio > std::sqrt(2.0));
  CHECK(ratio < 2.0);
}

TEST_CASE("A wheel at rest or a track without dip feels its static load only") {
  JointCase joint = coach();
  joint.speed = GENERATE(0.0, 44.7);
  joint.dip_angle = joint.speed > 0.0 ? 0.0 : 0.02;
  CHECK(joint_forces(joint).P1 == joint.static_load);
  CHECK(joint_forces(joint).P2 == joint.static_load);
  CHECK(lumped_peaks(joint).contact == joint.static_load);
  CHECK(P1_hertz(joint, 9.4e10) == joint.static_load);
}

TEST_CASE("Hertzian P1 balances the energy of spring, preload and motion") {
  const double C_H = 9.4125e10;
  JointCase joint = coach();
  joint.dip_angle = GENERATE(1e-6, 1e-5, 1e-4, 1e-3, 0.005, 0.02, 0.1);
  const double d0 = std::pow(joint.static_load / C_H, 2.0 / 3.0);
  const double d1 = std::pow(P1_hertz(joint, C_H) / C_H, 2.0 / 3.0);
  const double reduced = joint.unsprung_mass * joint.m_e / (joint.unsprung_mass + joint.m_e);
  const double motion = 0.5 * reduced * std::pow(joint.dip_angle * joint.speed, 2.0);
  const double spring = 0.4 * C_H * (std::pow(d1, 2.5) - std::pow(d0, 2.5)) - joint.static_load * (d1 - d0);
  CAPTURE(joint.dip_angle);
  // The difference of powers rounds at 1e-16 of the stored energy.
  const double rounding = 4.0 * std::numeric_limits<double>::epsilon() * C_H * std::pow(d1, 2.5);
  CHECK(std::abs(spring - motion) <= 1e-11 * motion + rounding);
}

TEST_CASE("Hertzian P1 is the peak of two masses driven together through time") {
  const double C_H = 9.4125e10;
  JointCase joint = coach();
  joint.dip_angle = GENERATE(0.005, 0.02);
  using State = std::array<double, 4>; // wheel down, rail down, their velocities
  const auto force = [C_H](const State& s) { return C_H * std::pow(std::max(0.0, s[0] - s[1]), 1.5); };
  // Both masses carry the preload at rest: the wheel from above, the rail from below.
  const auto rate = [&](const State& s, State& ds, double) {
    const double F = force(s) - joint.static_load;
    ds = {s[2], s[3], -F / joint.unsprung_mass, F / joint.m_e};
  };
  State state = {std::pow(joint.static_load / C_H, 2.0 / 3.0), 0.0, joint.dip_angle * joint.speed, 0.0};
  double peak = 0.0;
  boost::numeric::odeint::integrate_const(
      boost::numeric::odeint::make_controlled(1e-15, 1e-10, boost::numeric::odeint::runge_kutta_dopri5<State>()), rate,
      state, 0.0, 6e-4, 2e-7, [&](const State& s, double) { peak = std::max(peak, force(s)); });
  CHECK(P1_hertz(joint, C_H) == Approx(peak).epsilon(1e-6));
}

TEST_CASE("For a faint dip Hertzian P1 turns into linear P1 with the stiffness at the static load, from above") {
  const double C_H = 9.4125e10;
  JointCase joint = coach();
  joint.k_H = 1.5 * std::cbrt(C_H * C_H * joint.static_load);
  double before = 1.0;
  for (const double dip : {1e-2, 1e-3, 1e-4, 1e-5}) {
    joint.dip_angle = dip;
    const double linear = joint_forces(joint).P1 - joint.static_load;
    const double excess = (P1_hertz(joint, C_H) - joint.static_load) / linear - 1.0;
    CAPTURE(dip, excess);
    CHECK(excess > 0.0);
    CHECK(excess < 0.2 * before); // first order in the dip
    before = excess;
  }
}

TEST_CASE("The permissible speed and dip angle bring P2 exactly to the limit") {
  JointCase joint = coach();
  const double limit = GENERATE(60e3, 150e3, 322e3);
  JointCase at_speed = joint;
  at_speed.speed = permissible_speed(joint, limit);
  CAPTURE(limit, at_speed.speed);
  CHECK(joint_forces(at_speed).P2 == Approx(limit).epsilon(1e-12));
  JointCase at_dip = joint;
  at_dip.dip_angle = permissible_dip_angle(joint, limit);
  CHECK(joint_forces(at_dip).P2 == Approx(limit).epsilon(1e-12));
}
