// Gaps below bearers, ballast and pads that let go or stiffen: at rest against direct finite elements.
#include "catch.hpp"
#include "chain_elements.hpp"
#include "chain_samples.hpp"

#include <cmath>
#include <vector>

using namespace chain_samples;

namespace {

Model voided(double gap) {
  Model m = turnout(15);
  m.bearers[7].voids.push_back({-2.0, 9.0, gap});
  m.bearers[8].voids.push_back({-2.0, 0.1, 0.5 * gap}); // one end only
  m.bearers[9].ballast.unilateral = true;
  return m;
}

} // namespace

TEST_CASE("Rest over voids, own weight first, agrees with direct finite elements to 1e-4") {
  for (const double gap : {0.2e-3, 1e-3, 3e-3}) {
    const Model m = voided(gap);
    const auto c = make_chain(m);
    const auto fe = chain_elements::mesh(m, 4, 80);
    const Eigen::VectorXd dead = chain_elements::statics(fe, chain_elements::weight(fe));
    for (const int bearer : {6, 7, 8}) {
      const double x = m.bearers[bearer].x;
      Eigen::VectorXd force = chain_elements::weight(fe);
      for (int r = 0; r < 2; ++r) {
        force[chain_elements::rail_unknown(fe, r, x)] += 1e5;
      }
      const Eigen::VectorXd u = chain_elements::statics(fe, force) - dead;
      const std::vector<Load> loads{{0, x, 1e5}, {1, x, 1e5}};
      const Motion rest = at_rest(*c, loads);
      for (int r = 0; r < 2; ++r) {
        for (const int i : {5, 6, 7, 8, 9, 10}) {
          const double at = m.bearers[i].x;
          INFO(gap << " m, load over " << bearer << ", rail " << r << " over " << i);
          CHECK(rail_deflection(*c, rest, rail_point(*c, r, at)) ==
                Approx(u[chain_elements::rail_unknown(fe, r, at)]).margin(1e-4 * u.maxCoeff()));
        }
      }
      for (int i = 5; i < 11; ++i) {
        INFO(gap << " m, load over " << bearer << ", ballast under " << i);
        CHECK(chain::ballast_force(*c, rest, i) ==
              Approx(chain_elements::ballast_force(fe, i, u + dead) - chain_elements::ballast_force(fe, i, dead))
                  .margin(1e-3 * 1e5));
      }
    }
  }
}

TEST_CASE("The track's own weight rests on its ballast, over voids too") {
  const Model m = voided(1e-3);
  const auto c = make_chain(m);
  const Motion dead = dead_weight(*c);
  double ballast = 0.0, mass = 0.0;
  for (int i = 0; i < c->seats(); ++i) {
    ballast += ballast_force(*c, dead, i);
    const auto& beam = std::get<BeamBearer>(m.bearers[i].body);
    mass += beam.mass_per_m * (beam.to - beam.from);
  }
  const double L = c->end() - c->begin();
  const double casting = m.rails[1].zones[0].end - m.rails[1].zones[0].begin;
  mass += 2 * L * m.rails[0].section.rho_A + casting * m.rails[0].section.rho_A;
  CHECK(ballast == Approx(mass * m.gravity).epsilon(1e-9));
}

TEST_CASE("A gap that never closes leaves a bearer that hangs without ballast") {
  Model m = plain(25);
  m.gravity = 0.0;
  m.bearers[12].voids.push_back({-2.0, 2.0, 0.1});
  Model hanging = m;
  hanging.bearers[12].voids.clear();
  hanging.bearers[12].ballast = {0.0, 0.0};
  const auto c = make_chain(m), h = make_chain(hanging);
  for (const double x : {m.bearers[12].x, m.bearers[12].x + 0.3}) {
    const std::vector<Load> loads{{0, x, 1e5}, {1, x, 6e4}};
    for (int i = 9; i < 16; ++i) {
      const double at = m.bearers[i].x;
      CHECK(deflection(*c, loads, 0, at) == Approx(deflection(*h, loads, 0, at)).epsilon(1e-6));
      CHECK(deflection(*c, loads, 1, at) == Approx(deflection(*h, loads, 1, at)).epsilon(1e-6));
    }
  }
}

TEST_CASE("Without a gap nothing changes while the ballast stays compressed") {
  Model m = plain(25);
  const auto linear = make_chain(m);
  m.bearers[12].voids.push_back({-2.0, 2.0, 0.0});
  const auto c = make_chain(m);
  const std::vector<Load> loads{{0, m.bearers[12].x, 5e4}, {1, m.bearers[12].x, 5e4}};
  const Motion a = at_rest(*linear, loads), b = at_rest(*c, loads);
  CHECK((a.seat - b.seat).cwiseAbs().maxCoeff() < 1e-12);
  CHECK((a.bearer - b.bearer).cwiseAbs().maxCoeff() < 1e-10);
}

TEST_CASE("A bilinear pad follows its two stiffnesses") {
  Model m = on_springs(50e6, 41);
  for (Bearer& b : m.bearers) {
    b.seat[0].pad = {60e6, 0.0};
    b.seat[0].pad.knee = 0.3e-3;
    b.seat[0].pad.stiffness_beyond = 200e6;
  }
  const auto c = make_chain(m);
  const std::vector<Load> loads{{0, m.bearers[20].x, 2e5}};
  const Motion rest = at_rest(*c, loads);
  int beyond = 0;
  for (int i = 15; i < 26; ++i) {
    const double e = rail_deflection(*c, rest, rail_point(*c, 0, m.bearers[i].x)) - seat_deflection(*c, rest, i, 0);
    const double expected = e > 0.3e-3 ? 60e6 * 0.3e-3 + 200e6 * (e - 0.3e-3) : 60e6 * e;
    beyond += e > 0.3e-3 ? 1 : 0;
    CHECK(seat_force(*c, rest, i, 0) == Approx(expected).margin(1e-3));
    CHECK(seat_force(*c, rest, i, 0) == Approx(ballast_force(*c, rest, i)).margin(1e-3));
  }
  CHECK(beyond >= 3);
  CHECK(beyond < 11);
}

TEST_CASE("A fastening holds a lifting rail down with its clip load and no more") {
  Model m = on_springs(50e6, 41);
  for (Bearer& b : m.bearers) {
    b.seat[0].pad.stiffness = 100e6;
    b.seat[0].pad.clip_load = 2e3;
  }
  const auto c = make_chain(m);
  const std::vector<Load> loads{{0, m.bearers[20].x, -3e4}}; // pulled up
  const Motion rest = at_rest(*c, loads);
  double most = 0.0, sum = 0.0;
  for (int i = 0; i < c->seats(); ++i) {
    most = std::min(most, seat_force(*c, rest, i, 0));
    sum += seat_force(*c, rest, i, 0);
  }
  CHECK(most == Approx(-2e3).margin(1e-3));
  CHECK(seat_force(*c, rest, 20, 0) == Approx(-2e3).margin(1e-3));
  CHECK(sum == Approx(-3e4).epsilon(1e-6));
  CHECK(seat_force(*c, rest, 0, 0) > -2e3);
}

TEST_CASE("Bilinear ballast bears more where it stiffens") {
  Model m = plain(31);
  const auto linear = make_chain(m);
  for (Bearer& b : m.bearers) {
    b.ballast.knee = 0.5e-3;
    b.ballast.stiffness_beyond = 120e6;
  }
  m.gravity = 0.0;
  const auto c = make_chain(m);
  const std::vector<Load> loads{{0, m.bearers[15].x, 1.2e5}, {1, m.bearers[15].x, 1.2e5}};
  const Motion a = at_rest(*linear, loads), b = at_rest(*c, loads);
  CHECK(ballast_force(*c, b, 15) > 1.02 * ballast_force(*linear, a, 15));
  double sum = 0.0;
  for (int i = 0; i < c->seats(); ++i) {
    sum += ballast_force(*c, b, i);
  }
  CHECK(sum == Approx(2.4e5).epsilon(1e-8));
}
