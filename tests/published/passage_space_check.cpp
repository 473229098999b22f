// The blow of a wheel's back on a check rail, against one mass on a spring that only pushes.
#include "scoreboard.hpp"
#include "space_samples.hpp"

#include <numbers>
#include <string>

using namespace wingnose;
using namespace space_rides;

TEST_CASE("A wheelset that may only shift meets the flare of a check rail as one mass meets a spring") {
  // All but its shift is held, the rails have next to no friction, the back of the wheel none.
  vehicle::space::SpatialVehicle vehicle = vehicle::space::preset("wheelset");
  for (auto& link : vehicle.links) {
    link.along[0] = link.along[1] = {};
  }
  vehicle.wheelsets[0].free = {false, true, true, false, false, false};
  Rolling wheelset = rolling(vehicle, profile::cone(1.0 / 40.0));
  wheelset.law = contact::Cubic{{1e-6, 1.0, 0.0}};
  struct Row {
    double speed, flare, stiffness, peak, time, depth; // km/h, 1:n, N/m; kN, ms, mm
  };
  for (const Row& row : {Row{80, 50, 50e6, 133.81, 18.918, 2.676}, Row{160, 100, 1e8, 189.242, 13.3767, 1.8924},
                         Row{200, 150, 2e7, 70.526, 29.9112, 3.5263}}) {
    Ground ground = plain_60e1();
    // The back of wheel 1 is 37.5 mm from the gauge face; the face is there at station 1 m.
    const double slope = 1.0 / row.flare, clear = 0.7175 - 0.680;
    ground.check = MetCheckRail{
        .face = {{0.0, 4.0}, {clear + slope, clear - 3.0 * slope}, 0.020}, .stiffness = row.stiffness, .friction = 0.0};
    const SpaceHistory run = simulate(wheelset, ground,
                                      {.speed = row.speed / 3.6,
                                       .begin = 0.0,
                                       .length = 1.1 + row.speed / 3.6e3 * row.time,
                                       .step = 5e-5,
                                       .stride = 1});
    const auto blow = check_rail_blow(run, wheelset, 0);
    REQUIRE(blow);
    const std::string what = "check rail, " + scoreboard::number(row.speed) +
                             " km/h, 1:" + scoreboard::number(row.flare) + ", " +
                             scoreboard::number(row.stiffness / 1e6) + " MN/m, ";
    const Source source{Trust::worked, "v sqrt(k m), pi sqrt(m / k), v sqrt(m / k), 1813 kg"};
    score(what + "peak kN", 1e-3 * blow->peak, row.peak, 1e-3, source);
    score(what + "time ms", 3.6e3 * (blow->last - blow->first) / row.speed, row.time, 3e-3, source);
    score(what + "depth mm", 1e3 * blow->peak / row.stiffness, row.depth, 1e-3, source);
    score(what + "impulse N s", blow->impulse, 2.0 * 1813.0 * row.speed / 3.6 * slope, 3e-3,
          {Trust::worked, "2 m v, the wheelset leaves as fast as the face comes, twice"});
  }
}
