// What the track feels of a passage.
#include "catch.hpp"
#include "passage_cases.hpp"

#include "wingnose/track/chain/rows.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>

using namespace wingnose;
using namespace cases;
namespace chain = wingnose::track::chain;

namespace {

using ChainPtr = std::shared_ptr<const chain::Chain>;

track::Track known_rail() {
  track::Track t;
  t.rail.foot_modulus = 375e-6;
  return t;
}
ChainPtr lumped_chain() {
  static const ChainPtr shared = chain::make_chain(chain::one_rail(known_rail()));
  return shared;
}
// Two rails on bearers that bend.
ChainPtr bending_chain() {
  static const ChainPtr shared = [] {
    chain::Model m = chain::one_rail(known_rail());
    m.rails.push_back(m.rails.front());
    for (chain::Bearer& b : m.bearers) {
      b.body = chain::BeamBearer{};
      b.ballast = {};
      b.seat = {{-0.75, b.seat.front().pad}, {0.75, b.seat.front().pad}};
    }
    return chain::make_chain(m);
  }();
  return shared;
}

passage::Passage over_ground(PathPtr path, ChainPtr ground, TrackPtr modes, passage::Settings s,
                             const std::vector<passage::SensorPlace>& sensors = {}) {
  passage::PlanParts p = parts(std::move(path), std::move(modes), s);
  p.chain = std::move(ground);
  s.probes = true;
  passage::Run run = passage::run_of(s, 0.0);
  run.sensors = sensors;
  return passage::make_passage(passage::make_plan(std::move(p)), run);
}

const passage::BearerFelt& at(const passage::History& h, double x) {
  const auto found = std::find_if(h.track.bearers.begin(), h.track.bearers.end(),
                                  [x](const auto& b) { return std::abs(b.station - x) < 1e-6; });
  REQUIRE(found != h.track.bearers.end());
  return *found;
}

// Largest over rests of a wheel along the track.
template <class Of> double most_at_rest(const chain::Chain& c, Of of, double load, double from, double to) {
  double most = -1e300;
  for (double x = from; x <= to; x += 0.005) {
    std::vector<chain::Load> loads{{0, x, load}};
    if (c.rails == 2) {
      loads.push_back({1, x, load});
    }
    most = std::max(most, of(chain::at_rest(c, loads), x));
  }
  return most;
}

} // namespace

TEST_CASE("At rest the seats bear the wheels and the ballast bears the seats") {
  for (const ChainPtr& ground : {lumped_chain(), bending_chain()}) {
    const auto move = over_ground(level_path(), ground, nullptr, settings(20.0, -0.5, 0.5));
    const passage::State state = passage::initial_state(move);
    const chain::Chain& c = *ground;
    double seats = 0.0, ballast = 0.0;
    for (int i = 0; i < c.seats(); ++i) {
      const chain::BearerRows rows = chain::bearer_rows(c, i, chain::places_across(c, i));
      double on_bearer = 0.0, below = 0.0;
      for (int r = 0; r < c.rails; ++r) {
        on_bearer += chain::seat_force(c, *state.motion, i, r);
      }
      for (Eigen::Index p = 0; p < rows.ballast.of.rows(); ++p) {
        below += chain::value(rows.ballast, c, *state.motion, i, static_cast<int>(p));
      }
      CHECK(below == Approx(on_bearer).margin(0.5)); // N
      seats += on_bearer;
      ballast += below;
    }
    const double load = state.force[0] + (c.rails == 2 ? usual_wheel().static_load[0] : 0.0);
    CHECK(seats == Approx(load).epsilon(1e-6));
    CHECK(ballast == Approx(load).epsilon(1e-6));
  }
}

TEST_CASE("A wheel at 2 km/h makes the track feel what it feels at rest") {
  passage::Settings s = settings(2.0 / 3.6, -1.3, 1.3);
  s.step = 2e-4;
  const double load = usual_wheel().static_load[0];
  for (const ChainPtr& ground : {lumped_chain(), bending_chain()}) {
    const chain::Chain& c = *ground;
    const passage::History h = passage::simulate(over_ground(level_path(), ground, nullptr, s));
    const int i = static_cast<int>(std::lower_bound(c.seat.begin(), c.seat.end(), -1e-9) - c.seat.begin());
    REQUIRE(std::abs(c.seat[i]) < 1e-9);
    const auto most = [&](auto of) { return most_at_rest(c, of, load, -1.3, 1.3); };
    const passage::BearerFelt& felt = at(h, 0.0);
    CHECK(felt.seat_force ==
          Approx(most([&](const chain::Motion& m, double) { return chain::seat_force(c, m, i, 0); })).epsilon(2e-3));
    CHECK(felt.ballast_force ==
          Approx(most([&](const chain::Motion& m, double) { return chain::ballast_force(c, m, i); })).epsilon(2e-3));
    CHECK(felt.deflection == Approx(most([&](const chain::Motion& m, double) {
                               return chain::seat_deflection(c, m, i, 0);
                             })).epsilon(2e-3));
    const double moment = most([&](const chain::Motion& m, double x) {
      return std::abs(x) < 0.3 ? chain::rail_moment(c, m, chain::rail_point(c, 0, x), load) : 0.0;
    });
    CHECK(felt.rail_stress == Approx(moment / 375e-6).epsilon(5e-3));
    CHECK(felt.ballast_pressure ==
          Approx(most([&](const chain::Motion& m, double) { return chain::ballast_pressure(c, m, i); })).epsilon(2e-3));
    if (c.rails == 2) {
      const double bend = most(
          [&](const chain::Motion& m, double) { return std::abs(chain::bearer_moment(c, m, i, felt.moment_across)); });
      CHECK(std::abs(felt.moment) == Approx(bend).epsilon(2e-3));
      CHECK(felt.strain == Approx(std::abs(felt.moment) * 0.11 / 6.4e6));
    } else {
      CHECK(std::isnan(felt.moment));
    }
  }
}

TEST_CASE("Seats tell the same by modes as on a chain, at rest and after a blow") {
  const auto path = kink_path(0.010, 0.0);
  const passage::Settings s = settings(30.0, -3.0, 2.0);
  const passage::History a = passage::simulate(over_ground(path, nullptr, usual_track(), s));
  const passage::History b = passage::simulate(over_ground(path, lumped_chain(), nullptr, s));
  REQUIRE(a.track.bearers.size() == b.track.bearers.size());
  for (std::size_t i = 0; i < a.track.bearers.size(); ++i) {
    const passage::BearerFelt &p = a.track.bearers[i], &q = b.track.bearers[i];
    INFO("bearer at " << p.station << " m");
    CHECK(p.seat_force == Approx(q.seat_force).epsilon(0.01));
    CHECK(p.ballast_force == Approx(q.ballast_force).epsilon(0.005));
    CHECK(p.rail_deflection == Approx(q.rail_deflection).epsilon(0.005));
    CHECK(p.deflection == Approx(q.deflection).epsilon(0.005));
    CHECK(std::abs(p.seat_uplift - q.seat_uplift) < 0.01 * q.seat_force);
    CHECK(std::isnan(p.rail_stress));
  }
  CHECK(a.track.coordinates == 0);
  CHECK(a.track.top_mode > 4000.0);
}

TEST_CASE("A blow loads the seat under it more than a smooth passage does") {
  const passage::Settings s = settings(30.0, -3.0, 2.0);
  const auto smooth = passage::simulate(over_ground(level_path(), bending_chain(), nullptr, s));
  const auto blow = passage::simulate(over_ground(kink_path(0.010, 0.0), bending_chain(), nullptr, s));
  CHECK(at(blow, 0.0).seat_force > 1.2 * at(smooth, 0.0).seat_force);
  CHECK(at(blow, 0.0).ballast_pressure > 1.1 * at(smooth, 0.0).ballast_pressure);
  CHECK(at(blow, 0.0).rail_stress > 1.1 * at(smooth, 0.0).rail_stress);
  CHECK(at(blow, -1.8).seat_force == Approx(at(smooth, -1.8).seat_force).epsilon(0.02)); // before it
}

TEST_CASE("Recorded velocities are the rates of recorded displacements, of rail and bearer, by modes and on chains") {
  const auto path = kink_path(0.005, 0.0);
  const passage::Settings s = settings(30.0, -2.0, 1.5);
  const std::vector<passage::SensorPlace> places{{0.31, false, {}}, {0.05, true, {}}};
  std::vector<passage::SensorPlace> across = places;
  across.push_back({0.05, true, 0.2});
  for (const auto& move :
       {over_ground(path, nullptr, usual_track(), s, places), over_ground(path, lumped_chain(), nullptr, s, places),
        over_ground(path, bending_chain(), nullptr, s, across)}) {
    const passage::History h = passage::simulate(move);
    REQUIRE(h.track.points.size() == move.run.sensors.size());
    for (std::size_t p = 1; p < h.track.points.size(); ++p) { // bearers; rails below
      const passage::PointMotion& m = h.track.points[p];
      REQUIRE(m.time.size() == h.time.size());
      double moved = 0.0, worst = 0.0; // integral of the velocity, Simpson over pairs of steps
      for (std::size_t i = 2; i < m.time.size(); i += 2) {
        moved += h.step / 3 * (m.velocity[i - 2] + 4 * m.velocity[i - 1] + m.velocity[i]);
        worst = std::max(worst, std::abs(m.deflection[0] + moved - m.deflection[i]));
      }
      CHECK(worst < 2e-3 * largest(m.deflection));
    }
    const passage::PointMotion& rail = h.track.points[0];
    double moved = 0.0;
    for (std::size_t i = 2; i < rail.time.size(); i += 2) {
      moved += h.step / 3 * (rail.velocity[i - 2] + 4 * rail.velocity[i - 1] + rail.velocity[i]);
    }
    const std::size_t last = (rail.time.size() - 1) / 2 * 2;
    CHECK(rail.deflection[0] + moved == Approx(rail.deflection[last]).margin(5e-3 * largest(rail.deflection)));
    CHECK(h.track.points[1].station == Approx(0.0).margin(1e-9)); // the nearest bearer
  }
}

TEST_CASE("A sensor is refused beyond the track and across a bearer that does not bend") {
  const passage::Settings s = settings(30.0, -1.0, 1.0);
  CHECK_THROWS_AS(passage::simulate(over_ground(level_path(), lumped_chain(), nullptr, s, {{80.0, true, {}}})),
                  InputError);
  CHECK_THROWS_AS(passage::simulate(over_ground(level_path(), lumped_chain(), nullptr, s, {{0.0, true, 0.1}})),
                  InputError);
  CHECK_THROWS_AS(passage::simulate(over_ground(level_path(), nullptr, usual_track(), s, {{0.0, true, 0.1}})),
                  InputError);
}
