// The chain at rest against direct finite elements.
#include "catch.hpp"
#include "chain_elements.hpp"
#include "chain_samples.hpp"

#include "wingnose/track/assembly.hpp"

#include <cmath>
#include <vector>

using namespace chain_samples;

TEST_CASE("One rail on lumped bearers deflects as today's track does, between and over bearers") {
  Track t;
  t.bays = 20;
  RailProperties casting = t.rail;
  casting.EI *= 2.0;
  t.zones.push_back({-0.975, 0.75, casting}); // ends on nodes within bays
  Seat soft = t.seat;
  soft.ballast_stiffness = 10e6;
  t.overrides = {{0.6, soft}};
  const Assembly a = assemble(t);
  const auto c = make_chain(one_rail(t));
  for (const double load : {0.0, 0.3, 0.137, -0.9}) {
    const std::vector<double> at{load, load + 0.05, load + 0.2, load + 0.6, load - 1.7};
    const std::vector<double> expected = static_deflection(a, 1e5, load, at);
    for (std::size_t i = 0; i < at.size(); ++i) {
      CHECK(deflection(*c, {{0, load, 1e5}}, 0, at[i]) == Approx(expected[i]).epsilon(1e-9).margin(1e-15));
    }
  }
}

TEST_CASE("Two rails on bearers of every length rest as direct finite elements do, to 1e-5") {
  const Model m = turnout(13);
  const auto c = make_chain(m);
  const auto fe = chain_elements::mesh(m, 6, 60);
  for (const auto& [rail, bearer, part] : {std::tuple{0, 5, 0.0}, {1, 7, 0.5}, {0, 6, 1.0 / 3.0}}) {
    const double x = m.bearers[bearer].x + part * (m.bearers[bearer + 1].x - m.bearers[bearer].x);
    Eigen::VectorXd force = Eigen::VectorXd::Zero(fe.unknowns);
    force[chain_elements::rail_unknown(fe, rail, x)] = 1e5;
    const Eigen::VectorXd u = chain_elements::statics(fe, force);
    const double largest = u[chain_elements::rail_unknown(fe, rail, x)];
    for (int r = 0; r < 2; ++r) {
      for (const int i : {4, 5, 6, 7, 8}) {
        const double at = m.bearers[i].x;
        CHECK(deflection(*c, {{rail, x, 1e5}}, r, at) ==
              Approx(u[chain_elements::rail_unknown(fe, r, at)]).margin(1e-5 * largest));
      }
    }
    CHECK(deflection(*c, {{rail, x, 1e5}}, rail, x) == Approx(largest).epsilon(1e-5));
    const std::vector<Load> one{{rail, x, 1e5}};
    const Motion rest = at_rest(*c, one);
    for (int i = 3; i < 10; ++i) {
      const auto& beam = std::get<BeamBearer>(m.bearers[i].body);
      for (const double y : {beam.from, -0.75, 0.0, 0.5, beam.to}) {
        CHECK(bearer_deflection(*c, rest, i, y) ==
              Approx(chain_elements::value(chain_elements::bearer_row(fe, i, y), u)).margin(1e-5 * largest));
      }
      CHECK(chain::ballast_force(*c, rest, i) == Approx(chain_elements::ballast_force(fe, i, u)).margin(1.0));
    }
  }
}

TEST_CASE("Ballast bears the load, and pads hand it on") {
  const auto c = make_chain(turnout(30));
  const std::vector<Load> loads{{0, 8.0, 9e4}, {1, 9.1, 5e4}};
  const Motion rest = at_rest(*c, loads);
  double ballast = 0.0, pads[2] = {0.0, 0.0};
  for (int i = 0; i < c->seats(); ++i) {
    ballast += ballast_force(*c, rest, i);
    pads[0] += seat_force(*c, rest, i, 0);
    pads[1] += seat_force(*c, rest, i, 1);
  }
  CHECK(ballast == Approx(14e4).epsilon(1e-9));
  CHECK(pads[0] == Approx(9e4).epsilon(1e-9));
  CHECK(pads[1] == Approx(5e4).epsilon(1e-9));
}

TEST_CASE("Moments along a bearer balance what acts on one side of them") {
  const Model m = turnout(20);
  const auto c = make_chain(m);
  const std::vector<Load> loads{{0, 6.0, 9e4}, {1, 6.0, 6e4}};
  const Motion rest = at_rest(*c, loads);
  for (const int i : {9, 10, 11}) {
    const double scale = bearer_moment(*c, rest, i, -0.75);
    for (const double y : {-0.75, -0.4, 0.0, 0.33, 0.6}) {
      // Whole pieces of ballast lie on either side only as far as the spots tell: a bar of 1 % for these sums.
      double moment = 0.0;
      const std::vector<double> force = ballast_forces(*c, rest, i);
      const BearerShape& bearer = c->bearer_of(i);
      for (std::size_t p = 0; p < force.size(); ++p) {
        moment += force[p] * std::max(y - bearer.ballast[p].y, 0.0);
      }
      for (int r = 0; r < 2; ++r) {
        moment -= seat_force(*c, rest, i, r) * std::max(y - m.bearers[i].seat[r].y, 0.0);
      }
      CHECK(bearer_moment(*c, rest, i, y) == Approx(moment).margin(0.02 * std::abs(scale)));
    }
    CHECK(bearer_strain(*c, rest, i, 0.0) ==
          Approx(bearer_moment(*c, rest, i, 0.0) * 0.11 / std::get<BeamBearer>(m.bearers[i].body).EI));
  }
}

TEST_CASE("Static stiffness along the track is the load over the deflection, and softer over softer ballast") {
  Model m = plain(41);
  for (int i = 20; i < 41; ++i) {
    m.bearers[i].ballast.stiffness = 20e6;
  }
  const auto c = make_chain(m);
  const std::vector<double> x{6.0, 6.3, 18.0, 18.3};
  const std::vector<double> k = static_stiffness(*c, 0, 1e5, x);
  for (std::size_t i = 0; i < x.size(); ++i) {
    CHECK(k[i] == Approx(1e5 / deflection(*c, {{0, x[i], 1e5}}, 0, x[i])).epsilon(1e-4));
  }
  CHECK(k[2] < 0.7 * k[0]);
  CHECK(k[3] < 0.7 * k[1]);
}
