// A vehicle in space: waves of a cone, the coach in a tight curve.
#include "scoreboard.hpp"
#include "space_samples.hpp"
#include "wingnose/words/frame.hpp"

#include <numeric>
#include <string>

using namespace wingnose;
using namespace space_rides;

TEST_CASE("A free wheelset of cones runs in waves as long as Klingel says, but for its roll") {
  const SpaceHistory run =
      simulate(free_wheelset(profile::cone(1.0 / 20.0)), plain_60e1(),
               {.speed = 10.0, .begin = 0.0, .length = 32.0, .step = 4e-4, .stride = 5, .shift = 1e-3});
  std::vector<double> zeros;
  for (Eigen::Index i = 1; i <= last(run); ++i) {
    const double a = run.shift_at_rail(i - 1, 0), b = run.shift_at_rail(i, 0);
    if (a * b < 0.0) {
      const auto k = static_cast<std::size_t>(i);
      zeros.push_back(run.station[k - 1] + (run.station[k] - run.station[k - 1]) * a / (a - b));
    }
  }
  REQUIRE(zeros.size() >= 3);
  score_abs("cone 1:20 on 60E1 1:40, wavelength at 1 mm, m", zeros[2] - zeros[0], 16.34, 0.02,
            {Trust::worked, "a prototype of ours, another code; Klingel 1883 on the line of the taping circles 16.50"});
}

TEST_CASE("The coach of 1998 stands in a curve of 300 m as another code found") {
  constexpr double speed = 50.0 / 3.6, radius = 300.0;
  Rolling coach = space_rides::coach();
  coach.terms.geometric = false;
  const SpaceHistory run =
      simulate(coach, curve(1.0 / radius),
               {.speed = speed, .begin = 0.0, .length = 190.0, .step = 4e-4, .stride = 100, .energy = true});
  const Eigen::Index end = last(run);
  double mass = 0.0;
  for (const auto& body : coach.model.vehicle.bodies) {
    mass += body.mass;
  }
  for (const auto& set : coach.model.vehicle.wheelsets) {
    mass += set.mass;
  }
  score("coach, R 300, 50 km/h, sum of Y of all wheels, kN", -1e-3 * run.Y.row(end).sum(),
        1e-3 * mass * speed * speed / radius, 1e-3, {Trust::worked, "m V^2 / R"});
  score("coach, R 300, sum of Q of all wheels, kN", 1e-3 * run.Q.row(end).sum(), 1e-3 * mass * gravity, 1e-3,
        {Trust::worked, "m g"});
  // To -y lies the outer rail, at -y runs wheel 1.
  const Source other{Trust::worked, "a prototype of ours, another code; S1002, 60E1 1:40, friction 0.3, without "
                                    "geometric terms of preloads"};
  score_abs("coach, R 300, first wheelset outward, mm", -1e3 * run.shift(end, 0), 7.43, 0.15, other);
  score_abs("coach, R 300, first wheelset, angle of attack, mrad", -1e3 * run.yaw(end, 0), 8.10, 0.1, other);
  score("coach, R 300, Y outer, kN", -1e-3 * run.Y(end, 1), 27.3, 0.03, other);
  score("coach, R 300, Y inner, kN", -1e-3 * run.Y(end, 0), -11.4, 0.03, other);
  score("coach, R 300, Q outer, kN", 1e-3 * run.Q(end, 1), 66.7, 0.01, other);
  score("coach, R 300, Q inner, kN", 1e-3 * run.Q(end, 0), 42.4, 0.01, other);
  const auto k = static_cast<std::size_t>(end);
  score("coach, R 300, drive over creep and damping", run.drive_power[k],
        run.creep_power.row(end).sum() + run.damping_power[k], 0.01, {Trust::worked, "nothing else takes power"});
}
