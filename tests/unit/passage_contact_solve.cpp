// The contact force of one wheel inside a time step: F = sum C_b max(0, d_b - S F)^1.5.
#include "catch.hpp"

#include "../../src/passage/contact_solve.hpp"

#include <array>
#include <cmath>
#include <initializer_list>
#include <limits>

using wingnose::passage::solve_contact;

namespace {

using Pair = std::array<double, 2>;

double law(double stiffness, double approach) {
  return approach > 0.0 ? stiffness * approach * std::sqrt(approach) : 0.0;
}

// Independent of Newton's method: the right-hand side falls in F, so halving an interval finds the only root.
double by_bisection(const Pair& d, const Pair& c, int bodies, double S) {
  double low = 0.0, high = law(c[0], d[0]) + (bodies > 1 ? law(c[1], d[1]) : 0.0);
  for (int i = 0; i < 200; ++i) {
    const double middle = 0.5 * (low + high);
    const double right = law(c[0], d[0] - S * middle) + (bodies > 1 ? law(c[1], d[1] - S * middle) : 0.0);
    (right > middle ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

constexpr double typical = 9.4e10; // N/m^1.5, wheel of 0.46 m on a head of 0.3 m

} // namespace

TEST_CASE("The force on one body solves Hertz' law with the compliance of rail and wheel, from any first guess") {
  Pair share{};
  for (const double d : {1e-9, 1e-7, 1e-6, 2e-5, 1e-4, 1e-3}) {
    for (const double S : {1e-12, 1e-10, 1e-9, 1e-8}) {
      const double exact = by_bisection({d, 0.0}, {typical, 0.0}, 1, S);
      for (const double start : {0.0, exact, 0.5 * exact, 1e3, 1e9}) {
        CAPTURE(d, S, start);
        const double F = solve_contact({d, 0.0}, {typical, 0.0}, 1, S, start, share);
        CHECK(F == Approx(exact).epsilon(1e-8).margin(1e-5));
        CHECK(share[0] == Approx(F).epsilon(1e-12).margin(1e-12));
      }
    }
  }
}

TEST_CASE("Wing and nose in contact at once share the force as each one's own approach says") {
  constexpr double S = 6e-10;
  for (const Pair d : {Pair{8e-5, 8e-5}, Pair{9e-5, 3e-5}, Pair{1e-5, 1.2e-4}, Pair{7e-5, -2e-4}, Pair{1e-4, 9.9e-5}}) {
    for (const Pair c : {Pair{typical, typical}, Pair{typical, 0.4 * typical}}) {
      Pair share{};
      const double exact = by_bisection(d, c, 2, S);
      const double F = solve_contact(d, c, 2, S, 4e4, share);
      CAPTURE(d[0], d[1], c[1]);
      CHECK(F == Approx(exact).epsilon(1e-8));
      CHECK(share[0] + share[1] == Approx(F).epsilon(1e-12)); // the wheel feels what the two bodies give
      for (std::size_t b = 0; b < 2; ++b) {
        CHECK(share[b] == Approx(law(c[b], d[b] - S * exact)).epsilon(1e-5).margin(1e-2)); // N
      }
    }
  }
}

TEST_CASE("A wheel above both bodies, or over no body at all, feels nothing") {
  constexpr double none = -std::numeric_limits<double>::infinity();
  for (const Pair d : {Pair{-1e-6, -1e-3}, Pair{0.0, 0.0}, Pair{none, none}, Pair{none, -1e-5}}) {
    Pair share{5.0, 5.0};
    CHECK(solve_contact(d, {typical, typical}, 2, 1e-9, 9e4, share) == 0.0);
    CHECK(share[0] == 0.0);
    CHECK(share[1] == 0.0);
  }
  Pair share{};
  const double alone = by_bisection({8e-5, 0.0}, {typical, 0.0}, 1, 1e-9);
  CHECK(solve_contact({8e-5, none}, {typical, 0.0}, 2, 1e-9, 0.0, share) == Approx(alone).epsilon(1e-8));
  CHECK(solve_contact({none, 8e-5}, {0.0, typical}, 2, 1e-9, 0.0, share) == Approx(alone).epsilon(1e-8));
  CHECK(share[0] == 0.0);
}

TEST_CASE("More approach never gives less force, more compliance never gives more") {
  Pair share{};
  double last = 0.0;
  for (int i = -20; i <= 200; ++i) {
    const double F = solve_contact({i * 1e-6, i * 1e-6 - 3e-5}, {typical, typical}, 2, 8e-10, last, share);
    CHECK(F >= last);
    CHECK((i <= 0 || F > last));
    last = F;
  }
  last = std::numeric_limits<double>::infinity();
  for (const double S : {1e-11, 1e-10, 5e-10, 1e-9, 5e-9, 1e-8}) {
    const double F = solve_contact({1e-4, 8e-5}, {typical, typical}, 2, S, 5e4, share);
    CHECK(F < last);
    last = F;
  }
}
