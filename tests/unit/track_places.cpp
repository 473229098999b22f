// A track around what wheels cover, and its answers at typical places.
#include "catch.hpp"

#include "wingnose/track/places.hpp"

#include <cmath>

using namespace wingnose::track;

TEST_CASE("A track that covers a stretch reaches some metres beyond it and is never made shorter") {
  const Track t = covering({}, -20.0, 30.0);
  CHECK(t.centre == 5.0);
  CHECK(t.bays * t.spacing >= 50.0 + 2.0 * 6.0);
  CHECK((t.bays - 1) * t.spacing < 50.0 + 2.0 * 6.0);
  CHECK(covering({}, 0.0, 1.0).bays == Track{}.bays);
}

TEST_CASE("Rail over a bearer is stiffer than mid-span, and the receptance tends to the static deflection") {
  Track track;
  track.bays = 20;
  const Assembly a = assemble(track);
  const std::vector<double> low{0.01};
  const auto places = typical_places(a, 90e3, low);
  REQUIRE(places.size() == 2);
  CHECK(places[1].station - places[0].station == Approx(0.3));
  CHECK(places[0].stiffness > places[1].stiffness);
  for (const Place& p : places) {
    CAPTURE(p.name);
    CHECK(p.stiffness == Approx(90e3 / p.deflection));
    CHECK(std::abs(p.receptance.front()) == Approx(1.0 / p.stiffness).epsilon(1e-4));
  }
}
