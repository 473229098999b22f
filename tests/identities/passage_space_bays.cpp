// A vehicle in space on two rails that bend: what holds whatever the numbers.
#include "space_on_bays.hpp"

#include "catch.hpp"
#include "wingnose/words/error.hpp"
#include "wingnose/words/frame.hpp"

using namespace wingnose;
using namespace space_on_bays;

namespace {

double largest(const Eigen::MatrixXd& m) { return m.cwiseAbs().maxCoeff(); }

} // namespace

TEST_CASE("A crossing at -y on a track seen in the mirror is the crossing at +y") {
  // Everything assembled for the other side: bodies, curvature, rails, bearers longer on one side and stiffer by turns.
  const double from = -2.0, length = 3.5;
  track::chain::Model model = on_bearers(from - 6.0, from + length + 3.0);
  for (std::size_t i = 0; i < model.bearers.size(); ++i) {
    std::get<track::chain::BeamBearer>(model.bearers[i].body).to = 1.3 + 0.05 * static_cast<double>(i);
    model.bearers[i].seat[1].pad.stiffness = 100e6;
  }
  model.rails[1].section.EI *= 1.3;
  track::chain::Model mirrored = model;
  for (track::chain::Bearer& bearer : mirrored.bearers) {
    auto& body = std::get<track::chain::BeamBearer>(bearer.body);
    std::swap(body.from, body.to);
    body.from = -body.from;
    body.to = -body.to;
    std::swap(bearer.seat[0], bearer.seat[1]);
    bearer.seat[0].y = -bearer.seat[0].y;
    bearer.seat[1].y = -bearer.seat[1].y;
  }
  std::swap(mirrored.rails[0], mirrored.rails[1]);
  Ground left = crossing(false);
  left.route = layout::turnout::Route(from, {{1e3, 1.0 / 800.0, 1.0 / 800.0, 0.0, 0.0}});
  left.bends = bays(model);
  Ground right = left;
  right.route = layout::turnout::Route(from, {{1e3, -1.0 / 800.0, -1.0 / 800.0, 0.0, 0.0}});
  right.bends = bays(mirrored);
  for (layout::Body& body : right.bodies) {
    body.side = body.side == Side::crossing ? Side::opposite : Side::crossing;
  }
  const Ride ride{.speed = 20.0, .begin = from, .length = length, .step = 1e-4, .stride = 1};
  const Rolling bogie = rolling(vehicle::space::preset("bogie"), profile::s1002());
  const SpaceHistory a = simulate(bogie, left, ride), b = simulate(bogie, right, ride);
  REQUIRE(a.shift.rows() == b.shift.rows());
  CHECK(largest(a.shift + b.shift) < 1e-9 * largest(a.shift));
  CHECK(largest(a.yaw + b.yaw) < 1e-9 * largest(a.yaw));
  for (Eigen::Index set = 0; set < a.wheelsets(); ++set) {
    for (const int wheel : {0, 1}) {
      CHECK(largest(a.Q.col(2 * set + wheel) - b.Q.col(2 * set + 1 - wheel)) < 1e-9 * largest(a.Q));
      CHECK(largest(a.Y.col(2 * set + wheel) + b.Y.col(2 * set + 1 - wheel)) < 1e-9 * largest(a.Q));
    }
  }
}

TEST_CASE("On rails that bend, too, what drives a vehicle goes into creep, dampers and what is stored") {
  // The drive pulls wheels out of the trough they press into rails that take power.
  for (const bool across : {false, true}) {
    Ground ground = plain_60e1();
    ground.bends = bays(across ? on_bearers(-6.0, 63.0) : apart(-6.0, 63.0));
    const Rolling bogie = rolling(vehicle::space::preset("bogie"), profile::s1002());
    const SpaceHistory run = simulate(
        bogie, ground,
        {.speed = 30.0, .begin = 0.0, .length = 60.0, .step = 2e-4, .stride = 1, .shift = 4e-3, .energy = true});
    const EnergyBalance sum = energy_balance(run);
    CAPTURE(across, sum.drive, sum.creep, sum.damping, sum.stored);
    CHECK(sum.creep > 0.0);
    CHECK(sum.damping > 0.0);
    CHECK(std::abs(sum.residual()) < 0.01 * (sum.creep + sum.damping));
  }
}

TEST_CASE("In a steady curve on rails that bend up and across forces add up to weight and centrifugal force") {
  constexpr double radius = 500.0, speed = 20.0, run_in = 12.0;
  Ground ground = plain_60e1();
  ground.route =
      layout::turnout::Route(run_in, {{20.0, 0.0, 1.0 / radius, 0.0, 0.0}, {1e3, 1.0 / radius, 1.0 / radius}});
  const Rolling one = coach();
  const Ride ride{.speed = speed, .begin = 0.0, .length = 190.0, .step = 4e-4, .stride = 5};
  ground.bends = bays(on_bearers(one.model.vehicle.wheelsets.back().x - 1.0, ride.length + 1.0));
  const SpaceHistory run = simulate(one, ground, ride);
  double mass = 0.0;
  for (const auto& body : one.model.vehicle.bodies) {
    mass += body.mass;
  }
  for (const auto& set : one.model.vehicle.wheelsets) {
    mass += set.mass;
  }
  // Means over ten bays, in which bearers pass.
  const Eigen::MatrixXd Y = sliding_mean(run, run.Y, 6.0), Q = sliding_mean(run, run.Q, 6.0);
  CHECK(Q.row(last(run)).sum() == Approx(mass * gravity).epsilon(1e-3));
  CHECK(-Y.row(last(run)).sum() == Approx(mass * speed * speed / radius).epsilon(1e-3));
}

TEST_CASE("Rails that end under a wheelset, or are not two, are refused") {
  Ground ground = crossing(false);
  const Rolling one = rolled(wheelset(false));
  ground.bends = bays(apart(-4.0, 0.5));
  CHECK_THROWS_AS(simulate(one, ground, {.begin = -3.0, .length = 5.0}), InputError);
  ground.bends = bays(chain_samples::panel(3, 30));
  CHECK_THROWS_AS(simulate(one, ground, {.begin = 1.0, .length = 5.0}), InputError);
}

TEST_CASE("Where bearers lie over voids wheels in space load their neighbours more") {
  const auto most = [](double gap) {
    track::chain::Model m = apart(-3.0, 6.0);
    for (track::chain::Bearer& bearer : m.bearers) {
      if (std::abs(bearer.x - 1.8) < 0.1 && gap > 0.0) {
        bearer.voids.push_back({-2.0, 2.0, gap});
      }
    }
    Ground ground = plain_60e1();
    ground.bends = bays(m);
    return simulate(rolled(wheelset(false)), ground,
                    {.speed = 20.0, .begin = 0.0, .length = 4.0, .step = 1e-4, .stride = 1})
        .height.minCoeff();
  };
  CHECK(most(1e-3) < most(0.0) - 1e-4); // m: the wheelset goes down there
}
