// The contact force of one wheel inside a time step: F = sum f_b(d_b - S F).
#include "catch.hpp"

#include "../../src/passage/contact_solve.hpp"
#include "../../src/passage/kernels.hpp"

#include <array>
#include <cmath>
#include <initializer_list>
#include <limits>
#include <vector>

using wingnose::contact::ForceLaw;

namespace {

using Pair = std::array<double, 2>;

constexpr double unlimited = std::numeric_limits<double>::infinity();

// Two bodies that follow Hertz's law.
double solve_contact(const Pair& d, const Pair& c, int bodies, double S, double start, Pair& share) {
  return wingnose::passage::solve_contact(d, {ForceLaw{c[0]}, ForceLaw{c[1]}}, unlimited, bodies, S, start, share);
}

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

TEST_CASE("Eight wheels at once find what each finds alone, with laws of strips and of Hertz side by side") {
  using wingnose::passage::kernels::ContactLanes;
  // Laws of strips: convex up to their reach, the last with a falling third term.
  const std::array<ForceLaw, 4> laws{ForceLaw{typical}, {5e10, 2e12, 1e14}, {2e10, 8e12, -9e13}, {1.2e11, -1e12, 3e13}};
  constexpr double reach = 0.55e-3, none = -std::numeric_limits<double>::infinity();
  ContactLanes lanes{};
  std::array<std::array<ForceLaw, 2>, 8> law{};
  std::array<double, 8> start{};
  for (std::size_t j = 0; j < 8; ++j) {
    law[j] = {laws[j % 4], laws[(j / 2) % 4]};
    const Pair d{j == 3 ? none : 2e-5 * static_cast<double>(j) - 2e-5,
                 j == 6 ? 9e-4 : 1.5e-4 - 2e-5 * static_cast<double>(j)};
    start[j] = 1e4 * static_cast<double>(j);
    for (std::size_t b = 0; b < 2; ++b) {
      lanes.approach[b][j] = d[b];
      lanes.c0[b][j] = law[j][b].c0;
      lanes.c1[b][j] = law[j][b].c1;
      lanes.c2[b][j] = law[j][b].c2;
    }
    lanes.compliance[j] = 6e-10;
    lanes.reach[j] = j % 4 == 0 ? unlimited : reach;
    lanes.force[j] = start[j];
  }
  wingnose::passage::kernels::solve_contact8(lanes, true);
  for (std::size_t j = 0; j < 8; ++j) {
    CAPTURE(j);
    Pair share{};
    const double alone = wingnose::passage::solve_contact({lanes.approach[0][j], lanes.approach[1][j]}, law[j],
                                                          lanes.reach[j], 2, 6e-10, start[j], share);
    CHECK(alone > 0.0);
    CHECK(lanes.force[j] == Approx(alone).epsilon(1e-9));
    double carried = 0.0; // the found force is what the laws carry at the depth it leaves
    for (std::size_t b = 0; b < 2; ++b) {
      CHECK(lanes.body_force[b][j] == Approx(share[b]).epsilon(1e-9).margin(1e-6));
      carried += law[j][b].at(lanes.approach[b][j] - 6e-10 * lanes.force[j], lanes.reach[j]).force;
    }
    CHECK(carried == Approx(lanes.force[j]).epsilon(1e-6));
  }
}

TEST_CASE("Wheels on Hertz's law give the same bits whether a neighbour's law has further terms or not") {
  using wingnose::passage::kernels::ContactLanes;
  constexpr double none = -std::numeric_limits<double>::infinity();
  const auto lanes_at = [](int k) {
    ContactLanes lanes{}; // no further terms
    for (std::size_t j = 0; j < 8; ++j) {
      const double shift = 1e-6 * k + 3e-7 * static_cast<double>(j);
      lanes.approach[0][j] = j == 3 ? none : 1.1e-4 - shift; // on both bodies, on either, on none
      lanes.approach[1][j] = j == 5 ? -1e-3 : 2.0 * shift - 4e-5;
      lanes.c0[0][j] = typical * (1.0 + 0.03 * static_cast<double>(j));
      lanes.c0[1][j] = 0.4 * typical;
      lanes.reach[j] = unlimited;
      lanes.compliance[j] = 6e-10 + 1e-11 * static_cast<double>(j);
      lanes.force[j] = 1e4 * static_cast<double>(j);
    }
    return lanes;
  };
  for (int k = 0; k < 150; ++k) {
    ContactLanes alone = lanes_at(k), beside = lanes_at(k);
    beside.c1[0][7] = 2e12; // the last lane takes a law of strips
    beside.c2[0][7] = 1e14;
    beside.reach[7] = 0.55e-3;
    wingnose::passage::kernels::solve_contact8(alone, false);
    wingnose::passage::kernels::solve_contact8(beside, true);
    for (std::size_t j = 0; j < 7; ++j) {
      CAPTURE(k, j);
      CHECK(alone.force[j] == beside.force[j]);
      CHECK(alone.body_force[0][j] == beside.body_force[0][j]);
      CHECK(alone.body_force[1][j] == beside.body_force[1][j]);
    }
  }
}

TEST_CASE("The modes of one case give the bits they give among eight") {
  namespace kernels = wingnose::passage::kernels;
  constexpr int n = 24;
  const auto wave = [](int i) { return std::sin(1.0 + 0.7 * i); };
  std::vector<double> decay_re(n), decay_im(n), shape_re(4 * n), shape_im(4 * n), y_re(8 * n), y_im(8 * n);
  for (int i = 0; i < 8 * n; ++i) {
    y_re[i] = wave(i);
    y_im[i] = wave(3 * i);
    if (i < 4 * n) {
      shape_re[i] = wave(5 * i);
      shape_im[i] = wave(7 * i);
    }
    if (i < n) {
      decay_re[i] = 0.9 * wave(11 * i);
      decay_im[i] = 0.4 * wave(13 * i);
    }
  }
  constexpr int lane = 5;
  std::vector<double> one_re(n), one_im(n), theta_re(n, 0.3), theta_im(n, 0.2);
  for (int k = 0; k < n; ++k) {
    one_re[k] = y_re[8 * k + lane];
    one_im[k] = y_im[8 * k + lane];
  }
  std::vector<double> alone_re = theta_re, alone_im = theta_im;
  const kernels::Modes modes{n, decay_re.data(), decay_im.data()};
  for (int step = 0; step < 50; ++step) {
    const kernels::Place place{shape_re.data(), shape_im.data(), 0.02 * step};
    std::array<double, 8> force{}, deflection{};
    for (int j = 0; j < 8; ++j) {
      force[j] = wave(step + 17 * j);
    }
    kernels::advance8(modes, y_re.data(), y_im.data(), theta_re.data(), theta_im.data(), force.data(), place,
                      deflection.data());
    const double alone =
        kernels::advance(modes, one_re.data(), one_im.data(), alone_re.data(), alone_im.data(), force[lane], place);
    CHECK(alone == deflection[lane]);
  }
}
