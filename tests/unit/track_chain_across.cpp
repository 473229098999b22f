// The lateral plane given to a track that was described up and down alone.
#include "catch.hpp"
#include "chain_samples.hpp"

#include "wingnose/track/chain/across.hpp"

using namespace wingnose::track::chain;

namespace {

double sideways_stiffness(const Model& model, double station) { // N/m, under one rail
  const auto chain = make_chain(model);
  const std::vector<Load> load{{0, station, 1e3, Plane::lateral}};
  return 1e3 / rail_deflection(*chain, at_rest(*chain, load), rail_point(*chain, 0, station, Plane::lateral));
}

} // namespace

TEST_CASE("A track given the usual lateral plane bends sideways, and rests up and down as before") {
  const Model plain = chain_samples::plain(12);
  const Model both = with_across(plain);
  REQUIRE(is_lateral(both));
  const double middle = 0.5 * (plain.bearers.front().x + plain.bearers.back().x);
  const double stiffness = sideways_stiffness(both, middle);
  // Beam on an elastic foundation: 2 sqrt(2) EI^(1/4) k^(3/4) (Zimmermann 1888), k of fastening, its roll and the
  // bearer's ballast in series every 0.6 m. The bearer's lean and seats apart are not in it.
  const Across usual;
  const double height = usual.seat.height, beam = std::get<BeamBearer>(plain.bearers[0].body).to * 2.0;
  const double seat = 1.0 / (1.0 / usual.seat.stiffness + height * height / (*usual.seat.roll_stiffness) +
                             1.0 / (usual.bearer.stiffness * beam));
  const double foundation = 2.0 * std::sqrt(2.0) * std::pow(usual.rail.EI, 0.25) * std::pow(seat / 0.6, 0.75);
  CAPTURE(stiffness, foundation);
  CHECK(stiffness == Approx(foundation).epsilon(0.05));
  Across softer;
  softer.bearer.stiffness *= 0.25;
  CHECK(sideways_stiffness(with_across(plain, softer), middle) < 0.9 * stiffness);
}

TEST_CASE("Lateral ballast of a lumped bearer is that of its length, of a bending one per metre") {
  Model model = chain_samples::plain(3);
  model.bearers[1].body = LumpedBearer{125.0, 1.3};
  const Across usual;
  const Model both = with_across(model, usual);
  REQUIRE(both.bearers[0].lateral);
  REQUIRE(both.bearers[1].lateral);
  CHECK(both.bearers[1].lateral->stiffness == Approx(1.3 * usual.bearer.stiffness));
  CHECK(both.bearers[1].lateral->damping == Approx(1.3 * usual.bearer.damping));
  CHECK(both.bearers[0].lateral->stiffness == Approx(usual.bearer.stiffness));
}
