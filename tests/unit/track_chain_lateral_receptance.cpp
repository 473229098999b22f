// Lateral receptance of the chain against direct finite elements.
#include "catch.hpp"
#include "chain_lateral_elements.hpp"
#include "chain_samples.hpp"

#include <cmath>
#include <complex>
#include <vector>

using namespace chain_samples;

namespace {

// Fastenings without dashpots, because in series with their roll these are exact only in slow motion; loss instead.
Model damped(Model m) {
  m = sideways(std::move(m));
  m.rail_loss = 0.01;
  for (Bearer& b : m.bearers) {
    b.ballast.damping = 40e3;
    for (RailSeat& s : b.seat) {
      s.pad.loss = s.lateral->loss = 0.1;
      s.lateral->damping = s.lateral->roll_damping = 0.0;
    }
  }
  return m;
}

void agree(const Model& m, const std::vector<double>& hertz, double bar) {
  const auto c = make_chain(m);
  const auto fe = chain_elements::lateral_mesh(m, 24, 40);
  const int middle = c->seats() / 2;
  const double seat = c->seat[middle], next = c->seat[middle + 1];
  for (const double f : hertz) {
    for (const double x : {seat, 0.5 * (seat + next)}) {
      const Eigen::VectorXcd u = chain_elements::harmonic(fe.all, chain_elements::unknown(fe, 0, x, Plane::lateral), f);
      const RailPoint load = rail_point(*c, 0, x, Plane::lateral);
      const double size = std::abs(u[chain_elements::unknown(fe, 0, x, Plane::lateral)]);
      for (const Plane plane : {Plane::lateral, Plane::vertical}) {
        for (const auto& [rail, at] : {std::pair{0, x}, {1, x}, {0, next}}) {
          INFO(f << " Hz, load at " << x - seat << " m, rail " << rail << " at " << at - seat << " m, "
                 << (plane == Plane::lateral ? "lateral" : "vertical"));
          const Complex found = receptance(*c, load, rail_point(*c, rail, at, plane), std::vector<double>{f})[0];
          CHECK(std::abs(found - u[chain_elements::unknown(fe, rail, at, plane)]) / size <= bar);
        }
      }
    }
  }
}

} // namespace

TEST_CASE("Lateral receptance agrees with direct finite elements within 0.2 % to 400 Hz, on short and long bearers") {
  for (const Model& m : {damped(plain(31)), damped(plain(31, {-1.3, 3.2, 150.0, 10e6}))}) {
    agree(m, {5.0, 20.0, 40.0, 71.0, 85.0, 120.0, 200.0, 267.0, 330.0, 400.0}, 0.002);
  }
}

TEST_CASE("Dashpots of a fastening in series with its roll keep lateral receptance within 1 % to 100 Hz") {
  Model m = damped(plain(31));
  for (Bearer& b : m.bearers) {
    for (RailSeat& s : b.seat) {
      s.lateral->damping = 20e3;
      s.lateral->roll_damping = 300.0;
    }
  }
  agree(m, {5.0, 20.0, 50.0, 100.0}, 0.01);
}
