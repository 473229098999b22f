// What any chain must satisfy whatever its numbers.
#include "catch.hpp"
#include "chain_motion.hpp"

#include "wingnose/track/chain/stepper.hpp"

#include <cmath>
#include <vector>

using namespace chain_samples;

TEST_CASE("Energy of a chain without damping stays, to 1e-9 over 8000 steps of changing length") {
  for (const int rails : {1, 2}) {
    const auto c = make_chain(without_damping(rails == 2 ? turnout(30) : on_springs(50e6, 30)));
    const auto [before, after] = energy_of_swinging(*c);
    CHECK(after == Approx(before).epsilon(1e-9));
  }
}

TEST_CASE("A chain at rest under its loads stays at rest") {
  const auto c = make_chain(turnout(30));
  const std::vector<Load> loads{{0, 8.0, 9e4}, {1, 9.1, 5e4}};
  const Motion before = at_rest(*c, loads), after = roll(*c, loads, 500, {4e-5, 2.5e-4}, 0.0);
  CHECK(largest(after.seat - before.seat) < 1e-9 * largest(before.seat));
  CHECK(largest(after.bearer - before.bearer) < 1e-9 * largest(before.bearer));
  CHECK(largest(after.seat_rate) < 1e-8);
}

TEST_CASE("Deflection at b under a load at a is that at a under a load at b, across rails and bays") {
  const auto c = make_chain(turnout(16));
  const auto at = [&](int p, double a, int q, double b) { return deflection(*c, {{p, a, 1.0}}, q, b); };
  for (const auto& [p, a, q, b] :
       {std::tuple{0, 4.0, 1, 4.0}, {0, 3.1, 0, 3.3}, {1, 5.05, 0, 7.7}, {1, 5.0, 1, 5.01}}) {
    CHECK(at(p, a, q, b) == Approx(at(q, b, p, a)).epsilon(1e-9).margin(1e-18));
  }
}

TEST_CASE("Equal loads on rigid symmetric bearers move two rails as one, on its share of the ballast") {
  const int n = 41;
  const auto two = make_chain(plain(n, {-1.3, 1.3, 300.0 / 2.6, 6.4e12}));
  Model m = on_springs(0.0, n);
  m.rails[0] = Rail{};
  for (Bearer& b : m.bearers) {
    b.body = LumpedBearer{150.0};
    b.ballast = {Ballast{}.stiffness * 1.3, Ballast{}.damping * 1.3};
    b.seat[0].pad = {};
  }
  const auto one = make_chain(m);
  for (const double x : {12.0, 12.3, 12.17}) {
    const std::vector<Load> both{{0, x, 1e5}, {1, x, 1e5}};
    for (const double at : {12.0, 12.3, 13.1}) {
      const double single = deflection(*one, {{0, x, 1e5}}, 0, at);
      CHECK(deflection(*two, both, 0, at) == Approx(single).epsilon(1e-6));
      CHECK(deflection(*two, both, 1, at) == Approx(single).epsilon(1e-6));
    }
  }
  // In motion too.
  const Motion a = roll(*two, {{0, 12.0, 1e5}, {1, 12.0, 1e5}}, 300, {4e-5}),
               b = roll(*one, {{0, 12.0, 1e5}}, 300, {4e-5});
  for (int i = 0; i < n; ++i) {
    CHECK(a.seat[4 * i] == Approx(b.seat[2 * i]).margin(1e-6 * largest(b.seat)));
    CHECK(a.seat[4 * i + 2] == Approx(b.seat[2 * i]).margin(1e-6 * largest(b.seat)));
    CHECK(a.seat_rate[4 * i] == Approx(b.seat_rate[2 * i]).margin(1e-5 * largest(b.seat_rate)));
  }
}

TEST_CASE("On symmetric bearers equal and opposite loads do not feel each other") {
  // 4.5 m, where the rails feel each other's loads.
  const auto c = make_chain(plain(31, {-2.25, 2.25, 150.0, 8e6}));
  const std::vector<Load> equal{{0, 9.1, 1e5}, {1, 9.1, 1e5}}, opposite{{0, 9.1, 4e4}, {1, 9.1, -4e4}},
      all{{0, 9.1, 1.4e5}, {1, 9.1, 0.6e5}};
  const Motion sum = roll(*c, equal, 400, {4e-5}), difference = roll(*c, opposite, 400, {4e-5}),
               together = roll(*c, all, 400, {4e-5});
  const double scale = largest(together.seat);
  for (int i = 0; i < 31; ++i) {
    for (int k = 0; k < 2; ++k) {
      const int left = 4 * i + k, right = left + 2;
      CHECK(sum.seat[left] == Approx(sum.seat[right]).margin(1e-9 * scale));
      CHECK(difference.seat[left] == Approx(-difference.seat[right]).margin(1e-9 * scale));
      CHECK(together.seat[left] == Approx(sum.seat[left] + difference.seat[left]).margin(1e-9 * scale));
    }
  }
  // And each does feel a single one.
  CHECK(deflection(*c, {{0, 9.1, 1e5}}, 1, 9.1) > 0.02 * deflection(*c, {{0, 9.1, 1e5}}, 0, 9.1));
}

TEST_CASE("A gap of zero changes nothing in motion while the ballast stays compressed") {
  Model m = plain(31);
  m.gravity = 200.0; // heavy enough that no wave lifts a bearer
  const auto linear = make_chain(m);
  for (const int i : {14, 15, 16}) {
    m.bearers[i].voids.push_back({-2.0, 2.0, 0.0});
  }
  const auto c = make_chain(m);
  const std::vector<Load> loads{{0, 8.0, 1e5}, {1, 8.0, 7e4}};
  const Motion a = roll(*linear, loads, 1500, {4e-5}), b = roll(*c, loads, 1500, {4e-5});
  CHECK(largest(a.seat - b.seat) < 1e-9 * largest(a.seat));
  CHECK(largest(a.bearer_rate - b.bearer_rate) < 1e-9 * largest(a.bearer_rate));
}

TEST_CASE("A gap beyond reach moves as a bearer that hangs without ballast") {
  Model m = plain(31);
  m.bearers[15].voids.push_back({-2.0, 2.0, 0.1});
  Model hanging = m;
  hanging.bearers[15].voids.clear();
  hanging.bearers[15].ballast = {0.0, 0.0};
  const auto c = make_chain(m), h = make_chain(hanging);
  const std::vector<Load> loads{{0, 8.0, 1e5}, {1, 8.0, 7e4}};
  const Motion a = roll(*c, loads, 1500, {4e-5}), b = roll(*h, loads, 1500, {4e-5});
  // Forces of links vary linearly within a step, those of a bearer without ballast do not exist: second order.
  CHECK(largest(a.seat - b.seat) < 2e-5 * largest(a.seat));
  double most = 0.0;
  for (const double force : ballast_forces(*c, a, 15)) {
    most = std::max(most, std::abs(force));
  }
  CHECK(most < 1e-3);
}

TEST_CASE(
    "A load that rolls over a void passes its share to the neighbours and closes the gap no further than it can") {
  Model m = plain(31);
  m.bearers[15].voids.push_back({-2.0, 2.0, 0.5e-3});
  const auto c = make_chain(m), full = make_chain(plain(31));
  const std::vector<Load> loads{{0, 8.0, 1e5}, {1, 8.0, 1e5}};
  const Motion a = roll(*c, loads, 834, {4e-5}), b = roll(*full, loads, 834, {4e-5}); // 1 m on, over bearer 15
  CHECK(ballast_force(*c, a, 15) < 0.9 * ballast_force(*full, b, 15));
  CHECK(ballast_force(*c, a, 14) > 1.05 * ballast_force(*full, b, 14));
  CHECK(ballast_force(*c, a, 16) > 1.05 * ballast_force(*full, b, 16));
  for (const double force :
       ballast_forces(*c, a, 15)) { // never pulls: what it adds is no less than minus its dead load
    CHECK(force > -150.0);
  }
}
