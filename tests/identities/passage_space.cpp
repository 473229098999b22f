// What a vehicle in space must satisfy whatever its numbers: mirror, balance, the step's length, rest.
#include "space_samples.hpp"

#include "catch.hpp"
#include "wingnose/words/frame.hpp"

using namespace wingnose;
using namespace space_rides;

namespace {

double largest(const Eigen::MatrixXd& m) { return m.cwiseAbs().maxCoeff(); }

} // namespace

TEST_CASE("A curve to the other side gives the mirrored answer") {
  const Ride ride{.speed = 15.0, .length = 70.0, .step = 4e-4, .stride = 50};
  const SpaceHistory left = simulate(coach(), curve(1.0 / 500.0, 0.03), ride);
  const SpaceHistory right = simulate(coach(), curve(-1.0 / 500.0, -0.03), ride);
  CHECK(largest(left.shift + right.shift) < 1e-9 * largest(left.shift));
  CHECK(largest(left.yaw + right.yaw) < 1e-9 * largest(left.yaw));
  for (Eigen::Index set = 0; set < left.wheelsets(); ++set) {
    CHECK(largest(left.Y.col(2 * set) + right.Y.col(2 * set + 1)) < 1e-9 * largest(left.Q));
    CHECK(largest(left.Q.col(2 * set) - right.Q.col(2 * set + 1)) < 1e-9 * largest(left.Q));
  }
}

TEST_CASE("A coach settled on straight plain rail stays there") {
  const SpaceHistory run = simulate(coach(), plain_60e1(), {.speed = 30.0, .length = 30.0, .step = 4e-4, .stride = 50});
  const double load = 44482.0 * gravity / 8.0;
  CHECK(largest(run.shift) < 1e-9);
  CHECK(largest((run.Q.array() - load).matrix()) < 1e-3 * load);
  CHECK(largest((run.Q.bottomRows(1).array() - load).matrix()) < 1e-5 * load);
}

TEST_CASE("In the balance of cant and speed wheels carry alike and rails are not pushed in sum") {
  constexpr double radius = 600.0, speed = 20.0;
  const double cant = 1.5 * std::sin(std::atan(speed * speed / radius / gravity));
  const SpaceHistory run = simulate(coach(), curve(1.0 / radius, cant, 50.0),
                                    {.speed = speed, .length = 260.0, .step = 4e-4, .stride = 100});
  const Eigen::Index end = last(run);
  const double weight = 44482.0 * std::hypot(gravity, speed * speed / radius);
  CHECK(run.Q.row(end).sum() == Approx(weight).epsilon(1e-4));
  CHECK(std::abs(run.Y.row(end).sum()) < 1e-3 * weight);
}

TEST_CASE("Half of the step changes a run into a curve by little") {
  // What the contact swings with the rail's mass, some 450 Hz, is five of the longer steps: means are compared.
  Ride ride{.speed = 50.0 / 3.6, .length = 90.0, .step = 4e-4, .stride = 1};
  const SpaceHistory coarse = simulate(coach(), curve(1.0 / 300.0), ride);
  ride.step = 2e-4;
  ride.stride = 2;
  const SpaceHistory fine = simulate(coach(), curve(1.0 / 300.0), ride);
  REQUIRE(coarse.shift.rows() == fine.shift.rows());
  CHECK(largest(coarse.shift - fine.shift) < 2e-3 * largest(fine.shift));
  const auto apart = [&](const Eigen::MatrixXd& a, const Eigen::MatrixXd& b) {
    const Eigen::Index behind_start = a.rows() / 9; // rails settle sideways over the first metres
    const Eigen::MatrixXd mean = sliding_mean(fine, b, 2.0), other = sliding_mean(coarse, a, 2.0);
    return largest((other - mean).bottomRows(a.rows() - behind_start)) / largest(mean);
  };
  CHECK(apart(coarse.Q, fine.Q) < 1e-3);
  CHECK(apart(coarse.Y, fine.Y) < 2e-3);
  CHECK(apart(coarse.sum_of_Y(), fine.sum_of_Y()) < 2e-3);
}

TEST_CASE("At walking speed creep stays as it is at speed") {
  // Creep's damping is stiff there: an explicit step of this length would chatter.
  const Rolling wheelset = free_wheelset(profile::s1002());
  Ride ride{.speed = 2.0, .length = 3.0, .step = 4e-4, .stride = 25, .shift = 2e-3};
  const SpaceHistory slow = simulate(wheelset, plain_60e1(), ride);
  ride.step = 1e-4;
  ride.stride = 100;
  const SpaceHistory fine = simulate(wheelset, plain_60e1(), ride);
  CHECK(largest(slow.shift - fine.shift) < 5e-6);
}

TEST_CASE("What drives the wheelsets goes into creep, dampers and what is stored") {
  // The contact told by means over the penetration has no exact potential: that is what the residual is, at any step.
  for (const double speed : {20.0, 50.0}) {
    const SpaceHistory run =
        simulate(coach(), plain_60e1(),
                 {.speed = speed, .length = 60.0, .step = 4e-4, .stride = 1, .shift = 4e-3, .energy = true});
    const EnergyBalance sum = energy_balance(run);
    CHECK(sum.creep > 0.0);
    CHECK(std::abs(sum.residual()) < 0.01 * (sum.creep + sum.damping));
  }
}
