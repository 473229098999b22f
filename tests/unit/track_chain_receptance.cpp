// Receptance of the chain against direct finite elements: rails on bearers that bend.
#include "catch.hpp"
#include "chain_elements.hpp"
#include "chain_samples.hpp"

#include <cmath>
#include <complex>
#include <vector>

using namespace chain_samples;

namespace {

// Long bearers at one end of which a track lies: their bending modes from 80 Hz on couple into the rails.
Model long_bearers(int bearers) {
  Model m = plain(bearers, {-1.3, 3.1, 150.0, 10e6, 0.22});
  for (Bearer& b : m.bearers) {
    b.ballast = {30e6, 40e3, 0.0};
    b.seat[0].pad = b.seat[1].pad = {120e6, 30e3, 0.1};
  }
  m.rail_loss = 0.01;
  return m;
}

// Relative to the size the answer has around that frequency at the loaded rail: differences at an anti-resonance do not
// count for more than elsewhere.
double allowed(double hertz) { return hertz <= 400.0 ? 0.002 : 0.005; }

} // namespace

TEST_CASE("Receptance of rails on long bearers agrees with direct finite elements: 0.2 % to 400 Hz, 0.5 % to 1 kHz") {
  const Model m = long_bearers(41);
  const auto c = make_chain(m);
  const auto fe = chain_elements::mesh(m, 48, 50);
  const double seat = m.bearers[20].x;
  // Between bearers nothing is asked within a tenth of the pinned-pinned frequency, some 1070 Hz.
  for (const double hertz : {20.0, 50.0, 71.0, 85.0, 120.0, 150.0, 200.0, 267.0, 330.0, 400.0, 500.0, 700.0, 900.0}) {
    for (const double x : {seat, seat + 0.3, seat + 0.15}) {
      const Eigen::VectorXcd u = chain_elements::harmonic(fe, chain_elements::rail_unknown(fe, 0, x), hertz);
      const RailPoint load = rail_point(*c, 0, x);
      const std::vector<double> f{hertz};
      const auto expected = [&](int rail, double at) { return u[chain_elements::rail_unknown(fe, rail, at)]; };
      const Complex own = receptance(*c, load, load, f)[0];
      INFO(hertz << " Hz at " << x - seat << " m from a bearer");
      CHECK(std::abs(own - expected(0, x)) / std::abs(expected(0, x)) <= allowed(hertz));
      // The other rail is moved through the bearers alone; the next seat through the rail.
      for (const auto& [rail, at] : {std::pair{1, x}, {0, seat + 0.6}}) {
        const Complex there = receptance(*c, load, rail_point(*c, rail, at), f)[0];
        CHECK(std::abs(there - expected(rail, at)) / std::abs(expected(0, x)) <= allowed(hertz));
      }
      for (const double y : {-1.3, -0.75, 0.75, 3.1}) {
        Complex bearer = 0.0;
        for (const auto& [i, a] : chain_elements::bearer_row(fe, 20, y)) {
          bearer += a * u[i];
        }
        const Complex found = bearer_receptance(*c, load, 20, 0, y, f)[0];
        CHECK(std::abs(found - bearer) / std::abs(expected(0, x)) <= allowed(hertz));
      }
    }
  }
}
