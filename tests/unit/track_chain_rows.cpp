#include "catch.hpp"
#include "chain_samples.hpp"

#include "wingnose/track/chain/rows.hpp"
#include "wingnose/words/error.hpp"

#include <cmath>

using namespace chain_samples;

TEST_CASE("Rows tell of a bearer what the answers to its motion tell, in motion and over a void") {
  Model model = turnout(15);
  model.bearers[7].voids = {{-0.5, 0.5, 0.3e-3}};
  const auto chain = make_chain(model);
  Motion motion = at_rest(*chain, std::vector<Load>{{0, 4.3, 90e3}, {1, 4.1, 70e3}});
  for (Eigen::Index j = 0; j < motion.bearer_rate.size(); ++j) { // any motion
    motion.bearer_rate[j] = 1e-3 * std::sin(1.0 + static_cast<double>(j));
  }
  for (const int i : {5, 7, 8}) {
    const BearerRows rows = bearer_rows(*chain, i, places_across(*chain, i));
    REQUIRE(rows.y.size() == 3); // under both rails and between them
    const std::vector<double> force = ballast_forces(*chain, motion, i);
    double most = 0.0;
    for (std::size_t p = 0; p < force.size(); ++p) {
      CHECK(value(rows.ballast, *chain, motion, i, static_cast<int>(p)) == Approx(force[p]).margin(1e-6));
      most = std::max(most, force[p] / rows.area[p]);
    }
    CHECK(most == Approx(ballast_pressure(*chain, motion, i)));
    for (std::size_t y = 0; y < rows.y.size(); ++y) {
      const int r = static_cast<int>(y);
      CHECK(value(rows.moment, *chain, motion, i, r) == Approx(bearer_moment(*chain, motion, i, rows.y[y])));
      CHECK(value(rows.deflection, *chain, motion, i, r) == Approx(bearer_deflection(*chain, motion, i, rows.y[y])));
    }
    CHECK(rate(rows.deflection, *chain, motion, i, 0) == Approx(seat_velocity(*chain, motion, i, 0)));
  }
  CHECK_THROWS_AS(bearer_rows(*chain, 5, {9.0}), wingnose::InputError);
}

TEST_CASE("The moment of a rail under a wheel is what the seats before it hold up") {
  // Free ends: of all that stands before the wheel only seat forces turn the rail there.
  const auto chain = make_chain(turnout(25));
  for (const int rail : {0, 1}) {
    for (const double x : {6.0, 6.31, 7.05, 7.3, 7.77, 8.1}) { // over seats, between them, in the casting
      const double load = 100e3;
      const Motion motion = at_rest(*chain, std::vector<Load>{{rail, x, load}});
      double moment = 0.0;
      for (int i = 0; i < chain->seats() && chain->seat[i] < x; ++i) {
        moment += seat_force(*chain, motion, i, rail) * (x - chain->seat[i]);
      }
      INFO("rail " << rail << " at " << x << " m");
      CHECK(rail_moment(*chain, motion, rail_point(*chain, rail, x), load) == Approx(moment).epsilon(1e-6));
    }
  }
}

TEST_CASE("On closely spaced springs the moment is that of a beam on an elastic foundation") {
  Model m;
  m.rails.push_back({{6.38e6, 1e13, 60.21, 0.0}, {}});
  m.gravity = 0.0;
  constexpr double spacing = 0.1, foundation = 50e6; // m, N/m2
  for (int i = 0; i < 240; ++i) {
    Bearer b;
    b.x = spacing * i;
    b.width = 0.05;
    b.body = LumpedBearer{50.0};
    b.seat = {{0.0, {1e12, 0.0}}};
    b.ballast = {foundation * spacing, 0.0};
    m.bearers.push_back(b);
  }
  const auto chain = make_chain(m);
  const double load = 100e3, x = 12.05;
  const Motion motion = at_rest(*chain, std::vector<Load>{{0, x, load}});
  const double beta = std::pow(foundation / (4 * 6.38e6), 0.25);
  CHECK(rail_moment(*chain, motion, rail_point(*chain, 0, x), load) == Approx(load / (4 * beta)).epsilon(0.005));
}
