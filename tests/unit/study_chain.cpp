// A case whose track is a chain: the same answers from another method.
#include "catch.hpp"

#include "wingnose/study/many.hpp"
#include "wingnose/study/run.hpp"
#include "wingnose/words/error.hpp"

#include <cmath>
#include <string>
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
    cases::Case alone = cases[i];
    alone.passage.probes = false;
    CHECK(many[i].assessment->measures->p2 == study::run(alone).assessment.measures->p2);
  }
  CHECK(many[0].assessment->measures->p2 < many[4].assessment->measures->p2); // softer pads, lower P2
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
