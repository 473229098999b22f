// Up to four rails on the long bearers of a panel, against direct finite elements.
#include "catch.hpp"
#include "chain_lateral_elements.hpp"
#include "chain_samples.hpp"

#include "wingnose/track/chain/stepper.hpp"

#include <cmath>
#include <vector>

using namespace chain_samples;

TEST_CASE("Three and four rails on bearers of 4.9 m rest as direct finite elements do, to 1e-5") {
  for (const int rails : {3, 4}) {
    const Model m = panel(rails, 13);
    const auto c = make_chain(m);
    const auto fe = chain_elements::mesh(m, 6, 100);
    for (const int loaded : {0, 2}) {
      const double x = m.bearers[6].x + (loaded == 2 ? 0.3 : 0.0);
      Eigen::VectorXd force = Eigen::VectorXd::Zero(fe.unknowns);
      force[chain_elements::rail_unknown(fe, loaded, x)] = 1e5;
      const Eigen::VectorXd u = chain_elements::statics(fe, force);
      const double largest = u[chain_elements::rail_unknown(fe, loaded, x)];
      for (int r = 0; r < rails; ++r) {
        for (const double at : {m.bearers[4].x, m.bearers[6].x, x, m.bearers[7].x}) {
          INFO(rails << " rails, load on " << loaded << ", rail " << r << " at " << at);
          CHECK(deflection(*c, {{loaded, x, 1e5}}, r, at) ==
                Approx(u[chain_elements::rail_unknown(fe, r, at)]).margin(1e-5 * largest));
        }
      }
    }
  }
}

TEST_CASE("Four rails that also bend laterally rest as direct finite elements do, to 1e-5") {
  const Model m = sideways(panel(4, 11));
  const auto c = make_chain(m);
  const auto fe = chain_elements::lateral_mesh(m, 6, 100);
  const double x = m.bearers[5].x;
  const std::vector<Load> loads{{1, x, 3e4, Plane::lateral}};
  Eigen::VectorXd force = Eigen::VectorXd::Zero(fe.all.unknowns);
  force[chain_elements::unknown(fe, 1, x, Plane::lateral)] = 3e4;
  const Eigen::VectorXd u = chain_elements::statics(fe.all, force);
  const double largest = u[chain_elements::unknown(fe, 1, x, Plane::lateral)];
  for (const Plane plane : {Plane::vertical, Plane::lateral}) {
    for (int r = 0; r < 4; ++r) {
      const std::vector<RailPoint> at{rail_point(*c, r, x, plane)};
      CHECK(static_deflection(*c, loads, at)[0] ==
            Approx(u[chain_elements::unknown(fe, r, x, plane)]).margin(1e-5 * largest));
    }
  }
}

TEST_CASE("Rails of a panel keep their energy without damping, however many there are") {
  for (int rails = 1; rails <= 4; ++rails) {
    for (const bool lateral : {false, true}) {
      Model m = panel(rails, 12);
      m = lateral ? sideways(m) : m;
      for (Bearer& b : m.bearers) {
        b.ballast.damping = 0.0;
        for (RailSeat& s : b.seat) {
          s.pad.damping = 0.0;
          if (lateral) {
            b.lateral->damping = s.lateral->damping = s.lateral->roll_damping = 0.0;
          }
        }
      }
      const auto c = make_chain(m);
      CHECK(c->lines == rails * (lateral ? 2 : 1));
      Motion motion(*c);
      for (Eigen::Index i = 0; i < motion.seat_rate.size(); ++i) {
        motion.seat_rate[i] = std::sin(1.7 * static_cast<double>(i));
      }
      const double before = energy(*c, motion);
      Stepper stepper(*c, 0);
      const StepFactor f = step_factor(*c, 1e-4);
      for (int i = 0; i < 1000; ++i) {
        stepper.begin(motion, f, {}, {});
        stepper.end(motion);
      }
      CHECK(energy(*c, motion) == Approx(before).epsilon(1e-9));
    }
  }
}

TEST_CASE("A void, a stretch without ballast and clips fit under four rails that also bend laterally") {
  Model m = sideways(panel(4, 13));
  Bearer& b = m.bearers[6];
  b.zones.push_back({0.9, 1.3, {0.0, 0.0}});
  b.voids.push_back({-0.9, 0.5, 0.5e-3});
  for (RailSeat& seat : b.seat) {
    seat.pad.clip_load = 20e3;
  }
  const auto c = make_chain(m), full = make_chain(sideways(panel(4, 13)));
  const std::vector<Load> loads{{0, b.x, 9e4}, {0, b.x, 1e4, Plane::lateral}};
  const std::vector<RailPoint> under{rail_point(*c, 0, b.x)};
  CHECK(static_deflection(*c, loads, under)[0] > 1.05 * static_deflection(*full, loads, under)[0]);
  double lateral = 0.0;
  const Motion rest = at_rest(*c, loads);
  for (int i = 0; i < c->seats(); ++i) {
    lateral += ballast_force(*c, rest, i, Plane::lateral);
  }
  CHECK(lateral == Approx(1e4).epsilon(1e-8));
}

TEST_CASE("A rail of a panel far from the load feels it through the bearers alone") {
  const auto c = make_chain(panel(4, 31));
  const double x = c->seat[15];
  const double own = deflection(*c, {{0, x, 1e5}}, 0, x);
  CHECK(std::abs(deflection(*c, {{0, x, 1e5}}, 3, x)) < 0.1 * own);
  CHECK(std::abs(deflection(*c, {{0, x, 1e5}}, 1, x)) > 1e-3 * own);
  CHECK(deflection(*c, {{3, x, 1e5}}, 0, x) == Approx(deflection(*c, {{0, x, 1e5}}, 3, x)).epsilon(1e-7));
}
