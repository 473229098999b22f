// What a chain with lateral bending must satisfy whatever its numbers.
#include "catch.hpp"
#include "chain_motion.hpp"

#include "wingnose/track/chain/stepper.hpp"

#include <cmath>
#include <vector>

using namespace chain_samples;

namespace {

// Nothing above or below the neutral line: nothing leans.
Model flat(Model m) {
  for (Bearer& b : m.bearers) {
    b.lateral->pad_above = b.lateral->ballast_below = 0.0;
    for (RailSeat& s : b.seat) {
      s.lateral->height = 0.0;
    }
  }
  return m;
}

} // namespace

TEST_CASE("Energy of a chain that also bends laterally stays without damping, to 1e-9 over 8000 steps") {
  Model one = sideways(on_springs(50e6, 30)), two = sideways(turnout(30));
  for (const Model& m : {one, two}) {
    const auto c = make_chain(without_damping(m));
    const auto [before, after] = energy_of_swinging(*c);
    CHECK(after == Approx(before).epsilon(1e-9));
  }
}

TEST_CASE("Work of a lateral force that grows and dies away is the energy it leaves, without damping") {
  const auto c = make_chain(without_damping(sideways(turnout(20))));
  const double h = 1e-5;
  Stepper stepper(*c, 1);
  const StepFactor f = step_factor(*c, h);
  Motion motion(*c);
  std::vector<WheelForce> from{{rail_point(*c, 0, 6.05, Plane::lateral)}}, to = from;
  double work = 0.0, before = 0.0;
  for (int i = 1; i <= 800; ++i) {
    to[0].force = 2e4 * std::pow(std::sin(3.14159265358979 * i / 800), 2);
    stepper.begin(motion, f, from, to);
    stepper.end(motion);
    const double now = rail_deflection(*c, motion, to[0].at);
    work += 0.5 * (from[0].force + to[0].force) * (now - before);
    before = now;
    from = to;
  }
  CHECK(energy(*c, motion) == Approx(work).epsilon(1e-4)); // trapezoids of 10 us
  CHECK(work > 0.1);
}

TEST_CASE("A lateral force found within a step moves the track as one known before it") {
  const auto c = make_chain(sideways(turnout(30)));
  const StepFactor f = step_factor(*c, 1e-4);
  const std::vector<Load> start{{0, 8.0, 9e4}, {0, 8.0, 1e4, Plane::lateral}, {1, 8.1, -1e4, Plane::lateral}};
  std::vector<WheelForce> from, known, guessed;
  for (const Load& load : start) {
    from.push_back({rail_point(*c, load.rail, load.x, load.plane), load.force});
    known.push_back({rail_point(*c, load.rail, load.x + 0.02, load.plane), 1.3 * load.force});
    guessed.push_back({known.back().at, 0.4 * load.force});
  }
  Motion a = at_rest(*c, start), b = a;
  Stepper one(*c, 3), other(*c, 3);
  one.begin(a, f, from, known);
  other.begin(b, f, from, guessed);
  for (int w = 0; w < 3; ++w) {
    other.set_force(w, known[w].force);
  }
  std::vector<double> told;
  for (int w = 0; w < 3; ++w) {
    told.push_back(other.free_deflection(w) + other.compliance(w) * known[w].force);
    CHECK(one.free_deflection(w) == Approx(other.free_deflection(w)).epsilon(1e-9));
  }
  one.end(a);
  other.end(b);
  CHECK(largest(a.seat - b.seat) < 1e-10 * largest(a.seat));
  CHECK(largest(a.bearer_rate - b.bearer_rate) < 1e-9 * largest(a.bearer_rate));
  for (int w = 0; w < 3; ++w) { // what was told of the end of the step is what comes
    CHECK(rail_deflection(*c, b, known[w].at) + known[w].at.residual * known[w].force == Approx(told[w]).epsilon(1e-9));
  }
}

TEST_CASE("A chain at rest under lateral and vertical loads stays at rest") {
  const auto c = make_chain(sideways(turnout(30)));
  const std::vector<Load> loads{{0, 8.0, 9e4}, {0, 8.0, 2e4, Plane::lateral}, {1, 9.1, -1e4, Plane::lateral}};
  const Motion before = at_rest(*c, loads), after = roll(*c, loads, 500, {1e-4}, 0.0);
  CHECK(largest(after.seat - before.seat) < 1e-9 * largest(before.seat));
  CHECK(largest(after.bearer - before.bearer) < 1e-9 * largest(before.bearer));
  CHECK(largest(after.seat_rate) < 1e-8);
}

TEST_CASE("What a load at a moves at b a load at b moves at a, across rails and planes") {
  const auto c = make_chain(sideways(turnout(16)));
  const auto at = [&](int p, double a, Plane along, int q, double b, Plane answer) {
    const std::vector<Load> one{{p, a, 1.0, along}};
    const std::vector<RailPoint> there{rail_point(*c, q, b, answer)};
    return static_deflection(*c, one, there)[0];
  };
  constexpr Plane v = Plane::vertical, l = Plane::lateral;
  for (const auto& [p, a, along, q, b, answer] :
       {std::tuple{0, 4.0, l, 1, 4.0, l}, {0, 3.1, l, 0, 3.3, l}, {1, 5.05, l, 0, 7.7, v}, {0, 5.0, v, 0, 5.01, l}}) {
    CHECK(at(p, a, along, q, b, answer) == Approx(at(q, b, answer, p, a, along)).epsilon(1e-8).margin(1e-19));
    CHECK(std::abs(at(p, a, along, q, b, answer)) > 1e-13);
  }
}

TEST_CASE(
    "Without heights the planes do not feel each other, and the vertical one is that of a track without lateral") {
  const Model vertical = turnout(25);
  const auto c = make_chain(flat(sideways(vertical))), alone = make_chain(vertical);
  const std::vector<Load> down{{0, 6.0, 9e4}, {1, 6.1, 7e4}}, aside{{0, 6.0, 2e4, Plane::lateral}};
  std::vector<Load> both = down;
  both.insert(both.end(), aside.begin(), aside.end());
  const Motion all = roll(*c, both, 600, {4e-5}), only_down = roll(*alone, down, 600, {4e-5}),
               only_aside = roll(*c, aside, 600, {4e-5});
  const double scale = largest(only_down.seat), sideways_scale = largest(only_aside.seat);
  CHECK(sideways_scale > 1e-4);
  for (int i = 0; i < 25; ++i) {
    for (int k = 0; k < 4; ++k) {
      CHECK(all.seat[8 * i + k] == Approx(only_down.seat[4 * i + k]).margin(1e-10 * scale));
      CHECK(all.seat_rate[8 * i + k] ==
            Approx(only_down.seat_rate[4 * i + k]).margin(1e-9 * largest(only_down.seat_rate)));
      CHECK(std::abs(only_aside.seat[8 * i + k]) < 1e-12 * sideways_scale);
      CHECK(all.seat[8 * i + 4 + k] == Approx(only_aside.seat[8 * i + 4 + k]).margin(1e-10 * sideways_scale));
    }
  }
}

TEST_CASE("A track without lateral values has no unknown more than before they were known") {
  const auto c = make_chain(turnout(20)), more = make_chain(sideways(turnout(20)));
  CHECK(c->lines == 2);
  CHECK(Field(*c).seat.size() == 20 * 4);
  CHECK(more->lines == 4);
  CHECK(Field(*more).seat.size() == 20 * 8);
  for (const BearerShape& bearer : c->bearer_kind) {
    CHECK(bearer.pad.size() == 2);
    CHECK(bearer.shift.size() == 0);
  }
}

TEST_CASE("On a symmetric track equal lateral forces roll it and opposite ones spread it, neither does both") {
  const auto c = make_chain(sideways(plain(31, {-2.25, 2.25, 150.0, 8e6})));
  const std::vector<Load> equal{{0, 9.1, 1e4, Plane::lateral}, {1, 9.1, 1e4, Plane::lateral}},
      opposite{{0, 9.1, -1e4, Plane::lateral}, {1, 9.1, 1e4, Plane::lateral}};
  const Motion sum = roll(*c, equal, 300, {4e-5}), difference = roll(*c, opposite, 300, {4e-5});
  for (int i = 0; i < 31; ++i) {
    const int left = 8 * i, right = left + 2, left_aside = left + 4, right_aside = left + 6;
    CHECK(sum.seat[left] == Approx(-sum.seat[right]).margin(1e-9 * largest(sum.seat)));
    CHECK(sum.seat[left_aside] == Approx(sum.seat[right_aside]).margin(1e-9 * largest(sum.seat)));
    CHECK(difference.seat[left] == Approx(difference.seat[right]).margin(1e-9 * largest(difference.seat)));
    CHECK(difference.seat[left_aside] == Approx(-difference.seat[right_aside]).margin(1e-9 * largest(difference.seat)));
    CHECK(bearer_shift(*c, difference, i) == Approx(0.0).margin(1e-9 * largest(difference.seat)));
  }
}

TEST_CASE("A fastening that cannot roll is one whose roll is very stiff") {
  Model m = sideways(turnout(16)), stiff = m;
  for (std::size_t i = 0; i < m.bearers.size(); ++i) {
    for (std::size_t r = 0; r < 2; ++r) {
      m.bearers[i].seat[r].lateral->roll_stiffness.reset();
      stiff.bearers[i].seat[r].lateral->roll_stiffness = 1e12;
    }
  }
  const std::vector<Load> loads{{0, 4.0, 2e4, Plane::lateral}};
  const Motion a = at_rest(*make_chain(m), loads), b = at_rest(*make_chain(stiff), loads);
  CHECK(largest(a.seat - b.seat) < 1e-5 * largest(a.seat));
}
