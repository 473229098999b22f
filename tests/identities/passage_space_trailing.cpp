// A vehicle in space in a trailing move: from heel to switch.
#include "space_on_bays.hpp"

#include "catch.hpp"

using namespace wingnose;
using namespace space_on_bays;
namespace plan = layout::turnout;

namespace {

Ground through_turnout(plan::Way way) {
  layout::CrossingShape shape;
  shape.wing_head = "60E1";
  shape.wing_inclination = std::atan(1.0 / 40.0);
  return over_turnout(plan::preset("R300-1:9"), way, shape, profile::rail_head("60E1", shape.wing_inclination));
}
Rolling bogie() { return rolling(vehicle::space::preset("bogie"), profile::s1002()); }

// Station at which half of what wheel 0 carries goes over from one body to the other.
double changes_over(const SpaceHistory& run) {
  for (std::size_t k = 1; k < run.station.size(); ++k) {
    const auto row = static_cast<Eigen::Index>(k);
    const auto more = [&](Eigen::Index r) { return run.on_nose(r, 0) - 0.5 * run.Q(r, 0); };
    if (more(row - 1) * more(row) < 0.0) {
      return run.station[k] - more(row) / (more(row) - more(row - 1)) * (run.station[k] - run.station[k - 1]);
    }
  }
  return std::nan("");
}

} // namespace

TEST_CASE("At walking speed a wheel held in its attitude changes over where it does the other way round") {
  const Ground ground = crossing(false);
  const Rolling one = rolled(wheelset(true), 1e-3);
  const Ride ride{.speed = 0.5, .begin = -0.2, .length = 1.0, .step = 4e-4, .stride = 1};
  const double facing = changes_over(simulate(one, ground, ride));
  Ride back = ride;
  back.begin = -0.9;
  back.length = 0.9;
  const double backwards = changes_over(simulate(one, trailing(ground), back));
  CAPTURE(facing, backwards);
  CHECK(facing > 0.2);
  CHECK(backwards == Approx(-facing).margin(1e-3));
}

TEST_CASE("Turned round twice the ground is what it was, and on plain rails in a curve it is the same either way") {
  const Ride ride{.speed = 12.0, .begin = -12.0, .length = 14.0, .step = 4e-4, .stride = 10};
  const Ground ground = through_turnout(plan::Way::diverging);
  const SpaceHistory once = simulate(bogie(), ground, ride),
                     again = simulate(bogie(), trailing(trailing(ground)), ride);
  CHECK((once.Q - again.Q).cwiseAbs().maxCoeff() < 1e-9 * once.Q.maxCoeff());
  CHECK((once.shift - again.shift).cwiseAbs().maxCoeff() < 1e-12);

  Ground arc = plain_60e1(); // symmetric about station 0, and so is the ride's answer
  arc.route =
      Route(-40.0, {{30.0, 0.0, 2e-3, 0.0, 0.02}, {20.0, 2e-3, 2e-3, 0.02, 0.02}, {30.0, 2e-3, 0.0, 0.02, 0.0}});
  const Ride through{.speed = 15.0, .begin = -45.0, .length = 90.0, .step = 4e-4, .stride = 25};
  const SpaceHistory there = simulate(bogie(), arc, through), back = simulate(bogie(), trailing(arc), through);
  CHECK((there.shift - back.shift).cwiseAbs().maxCoeff() < 1e-9);
  CHECK(there.shift.cwiseAbs().maxCoeff() > 1e-3);
}

TEST_CASE("In a trailing move wheels leave the nose for the wing, and meet the check rail from its other end") {
  for (const plan::Way way : {plan::Way::through, plan::Way::diverging}) {
    const Ground facing = through_turnout(way), ground = trailing(facing);
    const Rolling vehicle = bogie();
    const SpaceHistory run = simulate(
        vehicle, ground, {.speed = 11.0, .begin = -12.0, .length = 16.0, .step = 2e-4, .stride = 1, .shift = 5e-3});
    CHECK_FALSE(run.run_into);
    CHECK(run.on_nose(0, 0) == Approx(run.Q(0, 0)));
    CHECK(run.on_nose(last(run), 0) == 0.0);
    const double left = changes_over(run);
    CHECK(left > -0.4); // behind the intersection, nearer to it than where it changes over the other way: it drops
    CHECK(left < 0.0);
    CHECK(ground.check->face.begin() == -facing.check->face.end());
    CHECK(ground.check->face.at(0.7) == Approx(facing.check->face.at(-0.7)));
    if (const auto blow = check_rail_blow(run, vehicle, 0)) {
      CHECK(blow->first > ground.check->face.begin() - 0.3);
      CHECK(blow->first < ground.check->face.end());
    }
    CHECK((way == plan::Way::through || check_rail_blow(run, vehicle, 0)));
  }
}

TEST_CASE("Bearers are met in the order of the move, too") {
  track::chain::Model m = apart(-6.0, 6.0);
  for (track::chain::Bearer& bearer : m.bearers) {
    if (std::abs(bearer.x - 1.8) < 0.1) {
      bearer.voids.push_back({-2.0, 2.0, 1e-3});
    }
  }
  Ground ground = plain_60e1();
  ground.bends = bays(m);
  const SpaceHistory run = simulate(rolled(wheelset(false)), trailing(ground),
                                    {.speed = 20.0, .begin = -4.0, .length = 6.0, .step = 1e-4, .stride = 1});
  Eigen::Index lowest = 0;
  run.height.col(0).minCoeff(&lowest);
  CHECK(run.station[static_cast<std::size_t>(lowest)] == Approx(-1.8).margin(0.5));
}

TEST_CASE("Stretches of other rail lie where the move meets them") {
  track::chain::Model m = apart(-6.0, 6.0);
  track::RailProperties casting = m.rails[0].section;
  casting.EI *= 3.0;
  casting.rho_A *= 2.0;
  for (track::chain::Rail& rail : m.rails) {
    rail.zones.push_back({-1.2, 2.4, casting});
  }
  Ground ground = plain_60e1();
  ground.bends = bays(m);
  const Ground turned = trailing(ground);
  for (const track::chain::Rail& rail : turned.bends->model.rails) {
    REQUIRE(rail.zones.size() == 1);
    CHECK(rail.zones[0].begin == -2.4);
    CHECK(rail.zones[0].end == 1.2);
  }
  CHECK(trailing(turned).bends->model == m);
}
