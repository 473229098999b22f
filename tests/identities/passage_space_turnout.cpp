// A vehicle in space through a turnout: who guides it, and what is the same for either hand.
#include "space_on_bays.hpp"

#include "catch.hpp"

using namespace wingnose;
using namespace space_rides;
namespace plan = layout::turnout;

namespace {

double largest(const Eigen::MatrixXd& m) { return m.cwiseAbs().maxCoeff(); }

Ground through_turnout(plan::Turnout turnout, plan::Way way, plan::Hand hand = plan::Hand::left,
                       Laying laying = Laying::crossing_at_left) {
  turnout.hand = hand;
  layout::CrossingShape shape;
  shape.wing_head = "60E1";
  shape.wing_inclination = std::atan(1.0 / 40.0);
  return over_turnout(turnout, way, shape, profile::rail_head("60E1", shape.wing_inclination), 60.0, laying);
}
Rolling bogie() { return rolling(vehicle::space::preset("bogie"), profile::s1002()); }

} // namespace

TEST_CASE("On the through route a wheelset in the middle is guided by no check rail and its flange stays clear") {
  const SpaceHistory run = simulate(bogie(), through_turnout(plan::preset("R760-1:14"), plan::Way::through),
                                    {.speed = 30.0, .begin = -5.0, .length = 12.0, .step = 2e-4, .stride = 1});
  CHECK_FALSE(run.run_into);
  CHECK(largest(run.check_force) == 0.0);
  CHECK(largest(run.shift) < 2.5e-3);
  CHECK(run.contact_y.minCoeff() > -0.030);           // of the flange nothing
  CHECK(run.Q.col(0).maxCoeff() > 1.5 * run.Q(0, 0)); // the crossing is felt
}

TEST_CASE("Left-hand and right-hand turnouts are the same to a vehicle") {
  const Ride ride{.speed = 50.0 / 3.6, .begin = -30.0, .length = 34.0, .step = 4e-4, .stride = 10};
  for (const plan::Way way : {plan::Way::through, plan::Way::diverging}) {
    const SpaceHistory left = simulate(bogie(), through_turnout(plan::preset("R300-1:9"), way), ride);
    const SpaceHistory right =
        simulate(bogie(), through_turnout(plan::preset("R300-1:9"), way, plan::Hand::right), ride);
    REQUIRE(left.shift.rows() == right.shift.rows());
    CHECK(largest(left.shift - right.shift) <= 1e-9 * largest(left.shift));
    CHECK(largest(left.Q - right.Q) <= 1e-9 * largest(left.Q));
    CHECK(largest(left.check_force - right.check_force) <= 1e-9 * largest(left.Q));
  }
}

TEST_CASE("A left-hand turnout as it is built gives the mirrored answer of a right-hand one") {
  // Shifted, so that on the through route too flanges and the check rail have something to do.
  const auto bending = space_on_bays::bays(space_on_bays::on_bearers(-34.0, 6.0));
  for (const plan::Way way : {plan::Way::through, plan::Way::diverging}) {
    const bool bends = way == plan::Way::through;
    const bool crossing_at_left = way == plan::Way::through; // of the left-hand one
    Ride ride{.speed = 50.0 / 3.6, .begin = -30.0, .length = 34.0, .step = 2e-4, .stride = 10};
    ride.shift = crossing_at_left ? 6e-3 : -6e-3;
    plan::Turnout turnout = plan::preset("R300-1:9");
    turnout.check_rail.nose_protection = 1.399; // m, tight
    Ground ground = through_turnout(turnout, way, plan::Hand::left, Laying::as_built),
           other = through_turnout(turnout, way, plan::Hand::right, Laying::as_built);
    if (bends) {
      ground.bends = other.bends = bending;
    }
    REQUIRE((ground.check->side == layout::Side::opposite) == crossing_at_left);
    const SpaceHistory left = simulate(bogie(), ground, ride);
    ride.shift = -ride.shift;
    const SpaceHistory right = simulate(bogie(), other, ride);
    REQUIRE(left.shift.rows() == right.shift.rows());
    CHECK(left.run_into.has_value() == right.run_into.has_value());
    const auto apart = [](const Eigen::MatrixXd& a, const Eigen::MatrixXd& b) { return largest(a - b) / largest(a); };
    const auto swapped = [](const Eigen::MatrixXd& of_wheels) {
      Eigen::MatrixXd out = of_wheels;
      for (Eigen::Index wheel = 0; wheel < out.cols(); ++wheel) {
        out.col(wheel) = of_wheels.col(wheel ^ 1);
      }
      return out;
    };
    CHECK(largest(left.check_force) > 1e3); // N
    CHECK(apart(left.shift, -right.shift) <= 1e-9);
    CHECK(apart(left.yaw, -right.yaw) <= 1e-9);
    CHECK(apart(left.roll, -right.roll) <= 1e-9);
    CHECK(apart(left.height, right.height) <= 1e-9);
    CHECK(apart(left.Q, swapped(right.Q)) <= 1e-9);
    CHECK(largest(left.Y + swapped(right.Y)) <= 1e-9 * largest(left.Q));
    CHECK(apart(left.on_nose, swapped(right.on_nose)) <= 1e-9);
    CHECK(apart(left.check_force, right.check_force) <= 1e-9);
    CHECK(apart(left.check_station, right.check_station) <= 1e-9);
    CHECK(apart(left.contact_y, swapped(right.contact_y)) <= 1e-9);
  }
}

TEST_CASE("On the diverging route the outer flange of the leading wheelset runs, and the check rail takes it off") {
  const Ground ground = through_turnout(plan::preset("R300-1:9"), plan::Way::diverging);
  const Rolling vehicle = bogie();
  Ride ride{.speed = 40.0 / 3.6, .begin = -30.0, .length = 36.0, .step = 2e-4, .stride = 1};
  const SpaceHistory run = simulate(vehicle, ground, ride);
  const auto before = static_cast<Eigen::Index>(27.0 / (ride.speed * ride.step)); // 3 m ahead of the nose
  CHECK(run.contact_y(before, 0) < -0.030);                                       // flange, crossing side
  const auto blow = check_rail_blow(run, vehicle, 0);
  REQUIRE(blow);
  CHECK_FALSE(check_rail_blow(run, vehicle, 1)); // the trailing wheelset runs free

  // The first touch in closed form, with shift, yaw and roll as they are there.
  const auto row = static_cast<Eigen::Index>(std::lround((blow->first - ride.begin) / (ride.speed * ride.step))) - 1;
  const double down = 0.46 - ground.check->face.top;
  const plan::BackDisc disc{run.shift(row, 0) - 0.680 + down * run.roll(row, 0) + 0.7175, run.yaw(row, 0),
                            plan::half_chord(0.46, 0.46 + 0.028, ground.check->face.top)};
  const auto met = plan::first_contact(ground.check->face, disc);
  REQUIRE(met);
  CHECK(blow->first == Approx(met->axle).margin(0.01));

  ride.speed = 60.0 / 3.6;
  const auto faster = check_rail_blow(simulate(vehicle, ground, ride), vehicle, 0);
  REQUIRE(faster);
  CHECK(faster->peak > blow->peak);
}

TEST_CASE("A worn check rail lets the flange near the nose") {
  plan::Turnout turnout = plan::preset("R300-1:9");
  Ride ride{.speed = 40.0 / 3.6, .begin = -30.0, .length = 31.0, .step = 2e-4, .stride = 1};
  const SpaceHistory sound = simulate(bogie(), through_turnout(turnout, plan::Way::diverging), ride);
  turnout.check_rail.wear = 0.004;
  const SpaceHistory worn = simulate(bogie(), through_turnout(turnout, plan::Way::diverging), ride);
  const auto nose = static_cast<Eigen::Index>(30.2 / (ride.speed * ride.step)); // 0.2 m behind the intersection
  REQUIRE(worn.shift.rows() > nose);
  CHECK(worn.shift(nose, 0) > sound.shift(nose, 0) + 0.002);
  CHECK_FALSE(sound.run_into);
}

TEST_CASE("Without a check rail the flange runs into the nose, which ends the ride as an event") {
  Ground ground = through_turnout(plan::preset("R300-1:9"), plan::Way::diverging);
  ground.check.reset();
  const SpaceHistory run =
      simulate(bogie(), ground, {.speed = 40.0 / 3.6, .begin = -30.0, .length = 36.0, .step = 2e-4, .stride = 1});
  REQUIRE(run.run_into);
  CHECK(run.run_into->wheelset == 0);
  CHECK(run.run_into->wheel == 0);
  CHECK(ground.bodies[static_cast<std::size_t>(run.run_into->body)].role == layout::Role::nose);
  CHECK(run.run_into->station == Approx(0.2).margin(0.2));
  CHECK(run.shift.rows() == static_cast<Eigen::Index>(run.time.size()));
}
