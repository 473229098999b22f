// Lateral bending of the rails, shift and roll of the bearers: at rest against direct finite elements.
#include "catch.hpp"
#include "chain_lateral_elements.hpp"
#include "chain_samples.hpp"

#include "wingnose/words/error.hpp"

#include <cmath>
#include <string>
#include <vector>

using namespace chain_samples;

namespace {

constexpr Plane planes[] = {Plane::vertical, Plane::lateral};

double deflection_in(const Chain& c, const std::vector<Load>& loads, int rail, double x, Plane plane) {
  const std::vector<RailPoint> at{rail_point(c, rail, x, plane)};
  return static_deflection(c, loads, at)[0];
}

Eigen::VectorXd direct(const chain_elements::LateralElements& fe, const std::vector<Load>& loads) {
  Eigen::VectorXd force = Eigen::VectorXd::Zero(fe.all.unknowns);
  for (const Load& load : loads) {
    force[chain_elements::unknown(fe, load.rail, load.x, load.plane)] += load.force;
  }
  return chain_elements::statics(fe.all, force);
}

// Rails and bearers around the loads, in both planes; `largest` of what moves.
void agree(const Model& m, const std::vector<Load>& loads, const std::vector<double>& stations) {
  const auto c = make_chain(m);
  const auto fe = chain_elements::lateral_mesh(m, 6, 60);
  const Eigen::VectorXd u = direct(fe, loads);
  double largest = 0.0;
  for (const Load& load : loads) {
    largest = std::max(largest, std::abs(u[chain_elements::unknown(fe, load.rail, load.x, load.plane)]));
  }
  for (const Plane plane : planes) {
    for (int r = 0; r < c->rails; ++r) {
      for (const double x : stations) {
        INFO((plane == Plane::lateral ? "lateral" : "vertical") << ", rail " << r << " at " << x << " m");
        CHECK(deflection_in(*c, loads, r, x, plane) ==
              Approx(u[chain_elements::unknown(fe, r, x, plane)]).margin(1e-5 * largest));
      }
    }
  }
  const Motion rest = at_rest(*c, loads);
  for (int i = 3; i < 10; ++i) {
    INFO("bearer " << i);
    CHECK(bearer_shift(*c, rest, i) == Approx(u[fe.shift[i]]).margin(1e-5 * largest));
    const auto& beam = std::get<BeamBearer>(m.bearers[i].body);
    for (const double y : {beam.from, -0.75, 0.0, 0.5, beam.to}) {
      CHECK(bearer_deflection(*c, rest, i, y) ==
            Approx(chain_elements::value(chain_elements::bearer_row(fe.all, i, y), u)).margin(1e-5 * largest));
    }
    for (const double y : {beam.from, m.bearers[i].seat[0].y, m.bearers[i].seat[1].y, beam.to}) {
      CHECK(bearer_slope(*c, rest, i, y) ==
            Approx(chain_elements::value(chain_elements::slope_row(fe.all, i, y), u)).margin(1e-5 * largest));
    }
  }
}

} // namespace

TEST_CASE("Under a lateral force a turnout's track rests as direct finite elements do, to 1e-5") {
  const Model m = sideways(turnout(13));
  for (const auto& [rail, bearer, part] : {std::tuple{0, 5, 0.0}, {1, 7, 0.5}, {0, 6, 1.0 / 3.0}}) {
    const double x = m.bearers[bearer].x + part * (m.bearers[bearer + 1].x - m.bearers[bearer].x);
    std::vector<double> stations{x};
    for (const int i : {4, 5, 6, 7, 8}) {
      stations.push_back(m.bearers[i].x);
    }
    agree(m, {{rail, x, 3e4, Plane::lateral}}, stations);
    agree(m, {{rail, x, 3e4, Plane::lateral}, {rail, x, 9e4}}, stations);
  }
}

TEST_CASE("Two opposite lateral forces spread the gauge as direct finite elements have it, to 1e-5") {
  const Model m = sideways(plain(13));
  for (const double x : {m.bearers[6].x, m.bearers[6].x + 0.3}) {
    const std::vector<Load> loads{{0, x, -2e4, Plane::lateral}, {1, x, 2e4, Plane::lateral}};
    agree(m, loads, {x, m.bearers[6].x, m.bearers[8].x});
    const auto c = make_chain(m);
    const double left = deflection_in(*c, loads, 0, x, Plane::lateral),
                 right = deflection_in(*c, loads, 1, x, Plane::lateral);
    CHECK(right == Approx(-left).epsilon(1e-9)); // the track as a whole stays where it is
    CHECK(right - left > 0.5e-3);
  }
}

TEST_CASE("A lateral force on one rail of a bearer of 4.5 m lifts the other as direct finite elements have it") {
  const Model m = sideways(plain(13, {-1.3, 3.2, 150.0, 10e6}));
  const double x = m.bearers[6].x;
  const std::vector<Load> loads{{0, x, 3e4, Plane::lateral}};
  const auto c = make_chain(m);
  const auto fe = chain_elements::lateral_mesh(m, 6, 90);
  const Eigen::VectorXd u = direct(fe, loads);
  const double under = deflection_in(*c, loads, 0, x, Plane::vertical),
               other = deflection_in(*c, loads, 1, x, Plane::vertical);
  CHECK(under == Approx(u[chain_elements::unknown(fe, 0, x, Plane::vertical)]).epsilon(1e-5));
  CHECK(other == Approx(u[chain_elements::unknown(fe, 1, x, Plane::vertical)]).epsilon(1e-5));
  CHECK(under < 0.0); // pushed towards the other rail, its own rises ...
  CHECK(other > 0.0); // ... and the other sinks
  // And the other way round: where that rail sinks under a wheel, the first is pushed as Maxwell and Betti have it.
  CHECK(deflection_in(*c, {{1, x, 3e4}}, 0, x, Plane::lateral) == Approx(other).epsilon(1e-9));
}

TEST_CASE("Lumped bearers give way laterally as springs do, pad and ballast in series") {
  Model m = sideways(plain(21));
  for (Bearer& b : m.bearers) {
    b.body = LumpedBearer{150.0};
    b.ballast = {40e6, 50e3};
    b.lateral->stiffness = 12e6;
  }
  const double x = m.bearers[10].x + 0.3;
  const std::vector<Load> loads{{0, x, 2e4, Plane::lateral}};
  const auto c = make_chain(m);
  const auto fe = chain_elements::lateral_mesh(m, 6, 2);
  const Eigen::VectorXd u = direct(fe, loads);
  for (const double at : {x, m.bearers[8].x}) {
    CHECK(deflection_in(*c, loads, 0, at, Plane::lateral) ==
          Approx(u[chain_elements::unknown(fe, 0, at, Plane::lateral)]).epsilon(1e-5));
  }
  for (const double at : {x, m.bearers[8].x}) { // nothing leans
    CHECK(std::abs(deflection_in(*c, loads, 0, at, Plane::vertical)) < 1e-18);
    CHECK(std::abs(deflection_in(*c, loads, 1, at, Plane::lateral)) < 1e-18);
  }
}

TEST_CASE("Ballast and fastenings bear the lateral load, and the bearers lean by its couple") {
  const Model m = sideways(turnout(30));
  const auto c = make_chain(m);
  const std::vector<Load> loads{{0, 8.0, 2e4, Plane::lateral}, {1, 9.1, -5e3, Plane::lateral}};
  const Motion rest = at_rest(*c, loads);
  double ballast = 0.0, fastenings[2] = {0.0, 0.0}, down = 0.0;
  for (int i = 0; i < c->seats(); ++i) {
    ballast += ballast_force(*c, rest, i, Plane::lateral);
    down += ballast_force(*c, rest, i);
    for (int r = 0; r < 2; ++r) {
      fastenings[r] += seat_force(*c, rest, i, r, Plane::lateral);
    }
    // About the bearer's neutral line: vertical ballast, vertical pads, lateral fastenings, lateral ballast.
    const Bearer& b = m.bearers[i];
    double couple = 0.0;
    const std::vector<double> force = ballast_forces(*c, rest, i);
    for (std::size_t p = 0; p < force.size(); ++p) {
      couple -= force[p] * c->bearer_of(i).ballast[p].y;
    }
    for (int r = 0; r < 2; ++r) {
      couple += seat_force(*c, rest, i, r) * b.seat[r].y +
                seat_force(*c, rest, i, r, Plane::lateral) * (b.seat[r].lateral->height + b.lateral->pad_above);
    }
    couple += ballast_force(*c, rest, i, Plane::lateral) * b.lateral->ballast_below;
    CHECK(couple == Approx(0.0).margin(1e-7 * 2e4));
  }
  CHECK(ballast == Approx(1.5e4).epsilon(1e-9));
  CHECK(fastenings[0] == Approx(2e4).epsilon(1e-9));
  CHECK(fastenings[1] == Approx(-5e3).epsilon(1e-9));
  CHECK(std::abs(down) < 1e-6);
}

TEST_CASE("Lateral static stiffness along the track is the force over the deflection under it") {
  Model m = sideways(plain(31));
  const auto linear = make_chain(m);
  m.bearers[5].voids.push_back({-2.0, 2.0, 1e-3}); // far away, but no longer one factor for all
  const auto c = make_chain(m);
  const std::vector<double> x{9.0, 9.3};
  const std::vector<double> k = static_stiffness(*linear, 0, 1e4, x, Plane::lateral),
                            same = static_stiffness(*c, 0, 1e4, x, Plane::lateral);
  for (std::size_t i = 0; i < x.size(); ++i) {
    const double under = deflection_in(*linear, {{0, x[i], 1e4, Plane::lateral}}, 0, x[i], Plane::lateral);
    CHECK(k[i] == Approx(1e4 / under).epsilon(1e-6));
    CHECK(same[i] == Approx(k[i]).epsilon(1e-3));
  }
  CHECK(k[1] < k[0]); // softer between bearers
}

TEST_CASE("Lateral values are given of everything or of nothing, and asked for only then") {
  const auto complaint = [](const Model& m) -> std::string {
    try {
      check(m);
    } catch (const wingnose::InputError& e) {
      return e.what();
    }
    return "";
  };
  const auto mentions = [](const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
  };
  Model m = sideways(turnout(12));
  CHECK(complaint(m).empty());
  SECTION("a seat without") {
    m.bearers[4].seat[1].lateral.reset();
    CHECK(mentions(complaint(m), "missing"));
  }
  SECTION("a rail without") {
    m.rails[1].lateral.reset();
    CHECK(mentions(complaint(m), "rail 2 lateral values"));
  }
  SECTION("a bearer of a vertical track with") {
    m = turnout(12);
    m.bearers[3].lateral = LateralBearer{1e6};
    CHECK(mentions(complaint(m), "or none"));
  }
  SECTION("a fastening without stiffness") {
    m.bearers[4].seat[1].lateral->stiffness = 0.0;
    CHECK(mentions(complaint(m), "lateral stiffness"));
  }
  SECTION("a casting beyond the track") {
    m.rails[0].lateral_zones.push_back({50.0, 60.0, *m.rails[0].lateral});
    CHECK(mentions(complaint(m), "on the track"));
  }
  SECTION("a point of a vertical track") {
    const auto c = make_chain(turnout(12));
    CHECK_THROWS_AS(rail_point(*c, 0, 3.0, Plane::lateral), wingnose::InputError);
    const Motion rest(*c);
    CHECK_THROWS_AS(bearer_shift(*c, rest, 3), wingnose::InputError);
    CHECK_THROWS_AS(ballast_force(*c, rest, 3, Plane::lateral), wingnose::InputError);
  }
  SECTION("no lateral resistance at all") {
    for (Bearer& b : m.bearers) {
      b.lateral->stiffness = 0.0;
    }
    const auto c = make_chain(m);
    const std::vector<Load> loads{{0, 3.0, 1e4, Plane::lateral}};
    CHECK_THROWS_AS(at_rest(*c, loads), wingnose::ComputeError);
  }
}
