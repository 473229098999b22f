// A case whose track is a chain: the same answers from another method.
#include "catch.hpp"

#include "wingnose/study/many.hpp"
#include "wingnose/study/run.hpp"
#include "wingnose/study/track_response.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

using namespace wingnose;

namespace {

cases::Case joint(double pad) {
  cases::Case c;
  c.excitation = layout::DippedJoint{.dip_angle = 0.010, .half_length = 10.0};
  c.track.method = cases::TrackMethod::chain;
  c.track.seat.pad_stiffness = pad;
  c.track.castings.push_back({-0.95, 0.8, 2.0, 2.0}); // ends within elements and bays
  c.passage.from = -1.5;
  c.passage.to = 1.5;
  return c;
}

} // namespace

TEST_CASE("P1, P2 and the total of a crossing and of a joint do not depend on how the track is stepped") {
  for (const Direction direction : {Direction::facing, Direction::trailing}) {
    for (const bool dipped : {false, true}) {
      cases::Case a = dipped ? joint(120e6) : cases::Case{}, b = a;
      a.track.method = cases::TrackMethod::modes;
      b.track.method = cases::TrackMethod::chain;
      a.passage.direction = b.passage.direction = direction;
      const auto modes = study::run(a).assessment.measures, chain = study::run(b).assessment.measures;
      REQUIRE(modes.has_value());
      REQUIRE(chain.has_value());
      CHECK(chain->first_peak.has_value() == modes->first_peak.has_value());
      CHECK(modes->first_peak.has_value() == dipped); // the crossing as generated has no peak of its own
      if (dipped) {
        CHECK(*chain->first_peak == Approx(*modes->first_peak).epsilon(5e-3));
      }
      CHECK(chain->p2 == Approx(modes->p2).epsilon(2e-3));
      CHECK(chain->peak_total == Approx(modes->peak_total).epsilon(5e-3));
    }
  }
}

TEST_CASE("Many cases on chains of their own give what each gives alone, whatever the threads") {
  std::vector<cases::Case> cases;
  for (const double pad : {60e6, 90e6, 120e6, 200e6, 400e6}) {
    cases.push_back(joint(pad));
  }
  const auto many = study::run_many(cases, {.threads = 2});
  for (std::size_t i = 0; i < cases.size(); ++i) {
    REQUIRE(many[i].assessment);
    CHECK(many[i].assessment->measures->p2 == study::run(cases[i]).assessment.measures->p2);
  }
  CHECK(many[0].assessment->measures->p2 < many[4].assessment->measures->p2); // softer pads, lower P2
}

TEST_CASE("A void below the bearer after a joint lowers the rail there; a gap of nothing changes nothing") {
  // Every gap is counted before the track's own weight, which closes some hundredths of a millimetre.
  const auto with = [](std::vector<cases::VoidBelow> voids) {
    cases::Case c = joint(120e6);
    c.track.voids = std::move(voids);
    return study::run(c).history;
  };
  const auto lowest = [](const passage::History& h) {
    return *std::max_element(h.rail_deflection.begin(), h.rail_deflection.end());
  };
  const auto full = with({}), closed = with({{0.6, 0.0}}), half = with({{0.6, 0.5e-3}}), deep = with({{0.6, 20e-3}});
  CHECK(lowest(half) > 1.02 * lowest(full));
  CHECK(lowest(deep) > 1.05 * lowest(half));
  CHECK(lowest(closed) == Approx(lowest(full)).epsilon(0.01)); // but for ballast that lets go ahead of the wheel
}

TEST_CASE("Voids ask for a chain and for a bearer above them") {
  const auto complaint = [](cases::TrackMethod method, double station) {
    cases::Case c = joint(120e6);
    c.track.method = method;
    c.track.voids = {{station, 1e-3}};
    try {
      cases::check(c);
      (void)study::chain_for(study::track_part(c));
    } catch (const InputError& error) {
      return std::string(error.what());
    }
    return std::string();
  };
  CHECK(complaint(cases::TrackMethod::chain, 0.5).empty());
  CHECK(complaint(cases::TrackMethod::modes, 0.5).find("track.method = \"chain\"") != std::string::npos);
  CHECK(complaint(cases::TrackMethod::chain, 150.0).find("on the track, ") != std::string::npos);
}

TEST_CASE("A chain and the adaptive method do not go together") {
  cases::Case c = joint(120e6);
  c.passage.method = passage::Method::adaptive_runge_kutta;
  try {
    cases::check(c);
    FAIL("it was taken");
  } catch (const InputError& error) {
    CHECK(std::string(error.what()).find("track.method") != std::string::npos);
  }
}

TEST_CASE("A bearer takes one void") {
  cases::Case c = joint(120e6);
  c.track.voids = {{0.6, 1e-3}, {0.7, 2e-3}};
  CHECK_THROWS_AS(study::chain_for(study::track_part(c)), InputError);
}

TEST_CASE("A passage runs over two rails on bending bearers, whose P2 lies near that of one rail on lumped ones") {
  const cases::Case lumped = joint(120e6);
  cases::Case bending = lumped;
  bending.track.bearers.kind = cases::BearerKind::bending;
  const auto a = study::run(lumped).assessment.measures, b = study::run(bending).assessment.measures;
  CHECK(b->static_load == a->static_load);
  CHECK(b->p2 == Approx(a->p2).epsilon(0.05)); // bending takes part of the load off the seats
  CHECK(b->p2 != a->p2);
}
