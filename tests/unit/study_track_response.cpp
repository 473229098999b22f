// What a track as a chain answers at rest, beside the same track by its modes and beside equilibrium.
#include "catch.hpp"
#include "said.hpp"

#include "wingnose/study/track_response.hpp"

#include <algorithm>
#include <cmath>

using namespace wingnose;
using said::says;

namespace {

cases::Case joint() {
  cases::Case c;
  c.excitation = layout::DippedJoint{.dip_angle = 0.010, .half_length = 10.0};
  c.track.method = cases::TrackMethod::chain;
  c.passage.from = -1.5;
  c.passage.to = 1.5;
  return c;
}

} // namespace

TEST_CASE("One rail on lumped bearers answers as a chain what it answers by its modes") {
  cases::Case c = joint();
  const study::TrackResponse chain = study::track_response(c);
  c.track.method = cases::TrackMethod::modes;
  const study::TrackResponse modes = study::track_response(c);
  REQUIRE(chain.places.size() == modes.places.size());
  for (std::size_t p = 0; p < modes.places.size(); ++p) {
    CHECK(chain.places[p].deflection == Approx(modes.places[p].deflection).epsilon(1e-4));
    for (std::size_t f = 0; f < 8; ++f) { // to 800 Hz
      CHECK(std::abs(chain.places[p].receptance[f]) == Approx(std::abs(modes.places[p].receptance[f])).epsilon(5e-3));
    }
  }
}

TEST_CASE("Both rails loaded alike on stiff symmetric bearers deflect as one rail on lumped bearers") {
  cases::Case c = joint();
  const double one = study::track_response(c).places[0].deflection;
  c.track.bearers.kind = cases::BearerKind::bending;
  c.track.bearers.all.EI = 1e9;
  CHECK(study::track_response(c).places[0].deflection == Approx(one).epsilon(2e-3));
  c.track.bearers.all.EI = 6.4e6;
  CHECK(study::track_response(c).places[0].deflection > 1.01 * one); // they bend
}

TEST_CASE("What bearers carry is in equilibrium, and a moment bends a bearer down under its seats") {
  cases::Case c = joint();
  c.track.bearers.kind = cases::BearerKind::bending;
  const study::TrackResponse r = study::track_response(c);
  REQUIRE(r.chain->bearers.size() > 3);
  for (const track::chain::LoadedBearer& b : r.chain->bearers) {
    CHECK(b.ballast_force == Approx(2 * b.seat_force).epsilon(1e-6)); // both rails
    CHECK(b.seat_force < r.load);
    CHECK(b.seat_force > 0.25 * r.load);
    CHECK(b.pressure > b.ballast_force / (2.6 * 0.28)); // more than the mean
    CHECK(b.moment > 0.0);                              // tension below, under the seats
    CHECK(b.strain == Approx(b.moment * 0.11 / 6.4e6).epsilon(1e-9));
  }
  CHECK(r.chain->shape.size() == r.chain->shape_other.size());
  const auto lowest = std::max_element(r.chain->shape.begin(), r.chain->shape.end());
  CHECK(std::abs(r.chain->shape_station[lowest - r.chain->shape.begin()]) < 0.3);
}

TEST_CASE("A void makes the track softer until the load closes it; its neighbours' stiffness goes on beyond") {
  cases::Case c = joint();
  c.track.voids = {{0.0, 1e-3}};
  const study::TrackResponse r = study::track_response(c);
  REQUIRE(r.chain->voids.size() == 1);
  const track::chain::Closing& v = r.chain->voids[0];
  CHECK(v.gap == 1e-3);
  CHECK(v.left < v.gap); // the rail's weight, shared by neighbours, lowers the hanging bearer a little
  CHECK(v.left > 0.8 * v.gap);
  REQUIRE(std::isfinite(v.closes_at));
  for (std::size_t i = 0; i < r.chain->loads.size(); ++i) {
    CAPTURE(r.chain->loads[i], v.closes_at);
    CHECK((v.ballast_force[i] > 1e-3) == (r.chain->loads[i] > v.closes_at));
  }
  // Secant to a load below the closing one: softer by what the bearer would have carried.
  cases::Case full = c;
  full.track.voids.clear();
  const study::TrackResponse sound = study::track_response(full);
  const auto softest = std::min_element(r.chain->stiffness.begin(), r.chain->stiffness.end());
  CHECK(std::abs(r.chain->station[softest - r.chain->stiffness.begin()]) <
        0.3); // beside the one that hangs: over it the load closes the void
  CHECK(*softest < 0.9 * sound.places[0].stiffness);
  CHECK(says(quantity::findings_of(study::tell(c, r)), "receptances"));
  CHECK(quantity::findings_of(study::tell(full, sound)).empty());
}
