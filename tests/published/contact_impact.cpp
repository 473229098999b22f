// Two elastic spheres colliding, integrated through time on the contact law, against the closed form.
#include "published/scoreboard.hpp"
#include "wingnose/contact/normal/hertz.hpp"

#include <boost/math/constants/constants.hpp>
#include <boost/numeric/odeint.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

using namespace wingnose::contact;

namespace {

constexpr double pi = boost::math::constants::pi<double>();

struct Impact {
  double approach, force, duration; // m, N, s
  double restitution, energy_drift; // -
};

// Positions and velocities of both bodies; body 0 flies at `speed` onto body 1 at rest. An infinite mass stays put.
Impact collide(double mass0, double mass1, double speed, double C_H) {
  using State = std::array<double, 4>; // x0, x1, v0, v1
  const double inverse0 = 1.0 / mass0;
  const double inverse1 = std::isinf(mass1) ? 0.0 : 1.0 / mass1;
  const auto overlap = [](const State& s) { return s[0] - s[1]; };
  const auto force = [&](const State& s) { return C_H * std::pow(std::max(0.0, overlap(s)), 1.5); };
  const auto rate = [&](const State& s, State& ds, double) {
    const double F = force(s);
    ds = {s[2], s[3], -F * inverse0, F * inverse1};
  };
  // Energy of the relative motion, which is all that a collision can spend.
  const double reduced = 1.0 / (inverse0 + inverse1);
  const auto energy = [&](const State& s) {
    const double v = s[2] - s[3];
    return 0.5 * reduced * v * v + 0.4 * C_H * std::pow(std::max(0.0, overlap(s)), 2.5);
  };

  const double scale = std::pow(reduced * speed * speed / C_H, 0.4); // size of the approach
  auto stepper = boost::numeric::odeint::make_dense_output(1e-12 * scale, 1e-12, scale / speed / 50.0,
                                                           boost::numeric::odeint::runge_kutta_dopri5<State>());
  State state = {0.0, 0.0, speed, 0.0};
  stepper.initialize(state, 0.0, 1e-4 * scale / speed);
  const double start_energy = energy(state);
  Impact out{0.0, 0.0, 0.0, 0.0, 0.0};
  State at = state;
  // A state of the dense output between two steps where `wanted` changes sign, by bisection.
  const auto locate = [&](double early, double late, const auto& wanted) {
    for (int i = 0; i < 60; ++i) {
      const double middle = 0.5 * (early + late);
      stepper.calc_state(middle, at);
      (wanted(at) ? late : early) = middle;
    }
    stepper.calc_state(late, at);
    return late;
  };
  const auto parting = [](const State& s) { return s[2] <= s[3]; };
  const auto apart = [&](const State& s) { return overlap(s) <= 0.0; };
  bool past_peak = false;
  for (int step = 0; step < 100000; ++step) {
    const auto [early, late] = stepper.do_step(rate);
    const State reached = stepper.current_state();
    out.energy_drift = std::max(out.energy_drift, std::abs(energy(reached) / start_energy - 1.0));
    if (!past_peak && parting(reached)) {
      past_peak = true;
      locate(early, late, parting);
      out.approach = overlap(at);
      out.force = force(at);
    }
    if (past_peak && apart(reached)) {
      out.duration = locate(early, late, apart);
      out.restitution = (at[3] - at[2]) / speed;
      return out;
    }
  }
  return out; // never parted: duration 0 fails every check
}

struct Case {
  const char* what;
  double radius0, radius1, mass0, mass1, speed; // m, m, kg, kg, m/s; infinite: a half-space
  double approach_um, force_kN, duration_us;
};

double ball_mass(double radius) { return 4.0 / 3.0 * pi * radius * radius * radius * 7850.0; }

} // namespace

TEST_CASE("Colliding steel balls reach the closed-form force and duration and part as fast as they met") {
  const double infinite = std::numeric_limits<double>::infinity();
  const std::vector<Case> cases = {
      {"ball R 12.7 on half-space, 1 m/s", 0.0127, infinite, 0.067355, infinite, 1.0, 29.821, 2.8233, 87.77},
      {"two balls R 10, 1 m/s", 0.010, 0.010, ball_mass(0.010), ball_mass(0.010), 1.0, 20.441, 1.0054, 60.16},
      {"ball R 50 on half-space, 2 m/s", 0.050, infinite, ball_mass(0.050), infinite, 2.0, 204.41, 100.54, 300.8}};
  const Source source{Trust::worked, "closed form of Johnson 1985 sec. 11.4 and Goldsmith 1960, evaluated apart"};
  const Source energy{Trust::worked, "energy is kept"};
  for (const Case& row : cases) {
    const double curvature = 1.0 / row.radius0 + 1.0 / row.radius1;
    const Impact impact = collide(row.mass0, row.mass1, row.speed, hertz_stiffness(curvature, curvature));
    const std::string at = std::string(", ") + row.what;
    score("impact approach, um" + at, impact.approach * 1e6, row.approach_um, 1e-4, source);
    score("impact force, kN" + at, impact.force / 1e3, row.force_kN, 1e-4, source);
    score("impact duration, us" + at, impact.duration * 1e6, row.duration_us, 2e-4, source);
    score("restitution" + at, impact.restitution, 1.0, 1e-6, energy);
    score_abs("energy drift" + at, impact.energy_drift, 0.0, 1e-6, energy);
  }
}

TEST_CASE("The pressure under an impacting steel ball is that of its peak force") {
  const double curvature = 1.0 / 0.0127;
  const double infinite = std::numeric_limits<double>::infinity();
  const Impact impact = collide(0.067355, infinite, 1.0, hertz_stiffness(curvature, curvature));
  score("impact p0, MPa, ball R 12.7 on half-space, 1 m/s",
        hertz_patch(impact.force, curvature, curvature).peak_pressure / 1e6, 3559.5, 1e-4,
        {Trust::worked, "closed form of Johnson 1985 sec. 11.4 and Goldsmith 1960, evaluated apart"});
}
