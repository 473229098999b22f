#include "catch.hpp"
#include "wingnose/contact/half_space/half_space_gap.hpp"
#include "wingnose/words/error.hpp"

#include <cmath>
#include <limits>
#include <string>
#include <vector>

using namespace wingnose;
using namespace wingnose::contact;

namespace {

template <class Work> std::string refusal(Work&& work) {
  try {
    work();
  } catch (const InputError& error) {
    return error.what();
  }
  return "accepted";
}

bool says(const std::string& message, const std::string& part) {
  INFO(message);
  return message.find(part) != std::string::npos;
}

} // namespace

TEST_CASE("A flat punch presses at its edges and sinks in evenly") {
  const HalfSpaceGrid grid(48, 48, 1e-3, 1e-3);
  HalfSpaceWorkspace workspace(grid);
  // A disc of radius 16 mm, far above the other body outside.
  std::vector<double> gap(grid.cells());
  for (std::size_t iy = 0; iy < 48; ++iy) {
    for (std::size_t ix = 0; ix < 48; ++ix) {
      gap[iy * 48 + ix] = std::hypot(grid.x(ix), grid.y(iy)) < 16e-3 ? 0.0 : 1.0;
    }
  }
  const auto contact = solve_for_force(grid, workspace, gap, 100e3);
  // Johnson (1985) eq. 3.36: F = 2 a E* delta. The staircase disc is as large as its cells.
  const double radius = std::sqrt(contact.area / std::acos(-1.0));
  CHECK(contact.approach == Approx(100e3 / (2.0 * radius * Elastic{}.combined())).epsilon(0.01));
  const double centre = contact.pressure[24 * 48 + 24];
  // Johnson (1985) eq. 3.34: half the mean pressure in the middle.
  CHECK(centre == Approx(0.5 * 100e3 / contact.area).epsilon(0.02));
  CHECK(contact.peak_pressure > 2.0 * centre);
}

TEST_CASE("A patch that grows over the edge of the grid is reported") {
  const HertzPatch hertz = hertz_patch(100e3, 2.0, 4.0);
  const HalfSpaceGrid wide = grid_for_hertz(32, 32, hertz);
  const HalfSpaceGrid narrow(32, 32, 0.6 * wide.dx(), 0.6 * wide.dy());
  HalfSpaceWorkspace in_wide(wide), in_narrow(narrow);
  CHECK_FALSE(solve_for_force(wide, in_wide, quadratic_gap(wide, 2.0, 4.0), 100e3).touches_edge);
  CHECK(solve_for_force(narrow, in_narrow, quadratic_gap(narrow, 2.0, 4.0), 100e3).touches_edge);
}

TEST_CASE("Bodies that do not reach each other carry nothing") {
  const HalfSpaceGrid grid(16, 16, 1e-3, 1e-3);
  HalfSpaceWorkspace workspace(grid);
  auto gap = quadratic_gap(grid, 2.0, 4.0);
  for (double& h : gap) {
    h += 1e-5;
  }
  const auto apart = solve_for_approach(grid, workspace, gap, 1e-5);
  CHECK(apart.force == 0.0);
  CHECK(apart.area == 0.0);
  CHECK(apart.pressure.size() == grid.cells());
  CHECK(solve_for_approach(grid, workspace, gap, 3e-5).force > 0.0);
}

TEST_CASE("The datum of the gap moves the approach and nothing else") {
  const HertzPatch hertz = hertz_patch(50e3, 2.0, 4.0);
  const HalfSpaceGrid grid = grid_for_hertz(32, 32, hertz);
  HalfSpaceWorkspace workspace(grid);
  auto gap = quadratic_gap(grid, 2.0, 4.0);
  const auto first = solve_for_force(grid, workspace, gap, 50e3);
  for (double& h : gap) {
    h += 7e-6;
  }
  const auto shifted = solve_for_force(grid, workspace, gap, 50e3);
  CHECK(shifted.approach == Approx(first.approach + 7e-6).epsilon(1e-6));
  CHECK(shifted.peak_pressure == Approx(first.peak_pressure).epsilon(1e-6));
}

TEST_CASE("A good first guess saves iterations and leads to the same pressure") {
  const HertzPatch hertz = hertz_patch(50e3, 2.0, 4.0);
  const HalfSpaceGrid grid = grid_for_hertz(64, 64, hertz);
  HalfSpaceWorkspace workspace(grid);
  const auto gap = quadratic_gap(grid, 2.0, 4.0);
  const auto own = solve_for_force(grid, workspace, gap, 50e3);
  const auto again = solve_for_force(grid, workspace, gap, 50e3, {}, {}, own.pressure);
  CHECK(again.iterations < own.iterations);
  CHECK(again.peak_pressure == Approx(own.peak_pressure).epsilon(1e-4));
  // Any guess will do.
  const std::vector<double> even(grid.cells(), 1.0);
  CHECK(solve_for_force(grid, workspace, gap, 50e3, {}, {}, even).peak_pressure ==
        Approx(own.peak_pressure).epsilon(1e-4));
}

TEST_CASE("Two patches at once share the load as their gaps demand") {
  // Two equal bumps of one rail under a flat wheel; raising one of them takes load over.
  const HalfSpaceGrid grid(64, 32, 0.5e-3, 0.5e-3);
  HalfSpaceWorkspace workspace(grid);
  const auto two_bumps = [&](double step) {
    std::vector<double> gap(grid.cells());
    for (std::size_t iy = 0; iy < grid.ny(); ++iy) {
      for (std::size_t ix = 0; ix < grid.nx(); ++ix) {
        const double x = std::abs(grid.x(ix)) - 8e-3;
        gap[iy * grid.nx() + ix] = 5.0 * (x * x + grid.y(iy) * grid.y(iy)) + (grid.x(ix) > 0.0 ? step : 0.0);
      }
    }
    return gap;
  };
  const auto right_share = [&](const HalfSpaceContact& contact) {
    double right = 0.0;
    for (std::size_t i = 0; i < grid.cells(); ++i) {
      right += grid.x(i % grid.nx()) > 0.0 ? contact.pressure[i] : 0.0;
    }
    return right * grid.dx() * grid.dy() / contact.force;
  };
  CHECK(right_share(solve_for_force(grid, workspace, two_bumps(0.0), 40e3)) == Approx(0.5).epsilon(1e-4));
  const double lifted = right_share(solve_for_force(grid, workspace, two_bumps(1e-5), 40e3));
  CHECK(lifted < 0.49);
  CHECK(lifted > 0.2);
}

TEST_CASE("The turn of the contact normal counts loaded rows only and is flagged beyond 0.15 rad") {
  const HalfSpaceGrid grid(8, 10, 1e-3, 1e-3);
  std::vector<double> pressure(grid.cells(), 0.0), angle(grid.ny());
  for (std::size_t iy = 0; iy < grid.ny(); ++iy) {
    angle[iy] = 0.04 * static_cast<double>(iy);
  }
  CHECK(normal_turn(grid, pressure, angle).turn == 0.0);
  for (const std::size_t row : {3u, 6u}) {
    pressure[row * 8 + 4] = 1e8;
  }
  CHECK(normal_turn(grid, pressure, angle).turn == Approx(0.12));
  CHECK_FALSE(normal_turn(grid, pressure, angle).stretched);
  pressure[7 * 8 + 1] = 1e8;
  CHECK(normal_turn(grid, pressure, angle).turn == Approx(0.16));
  CHECK(normal_turn(grid, pressure, angle).stretched);
}

TEST_CASE("Half-space input that cannot be right is refused with the value and the range") {
  CHECK(says(refusal([] { (void)HalfSpaceGrid(3, 16, 1e-3, 1e-3); }), "3 is not allowed; allowed: 4 to 4096"));
  CHECK(says(refusal([] { (void)HalfSpaceGrid(16, 16, 0.0, 1e-3); }), "0 m is not allowed; allowed: greater than 0"));
  CHECK(says(refusal([] { (void)HalfSpaceGrid(16, 16, 1e-3, 2e-7); }), "5000 is not allowed; allowed: 0.001 to 1000"));
  const HalfSpaceGrid grid(16, 16, 1e-3, 1e-3);
  HalfSpaceWorkspace workspace(grid);
  const auto gap = quadratic_gap(grid, 2.0, 4.0);
  const auto solve = [&](const std::vector<double>& h, double force, const HalfSpaceSettings& settings = {},
                         const std::vector<double>& initial = {}, const Elastic& material = {}) {
    return refusal([&] { (void)solve_for_force(grid, workspace, h, force, material, settings, initial); });
  };
  CHECK(solve(gap, 1e3) == "accepted");
  CHECK(says(solve(std::vector<double>(10), 1e3), "values of the gap: 10 is not allowed; allowed: 256"));
  CHECK(says(solve(gap, 0.0), "contact force: 0 N is not allowed; allowed: greater than 0"));
  auto hole = gap;
  hole[5] = std::numeric_limits<double>::quiet_NaN();
  CHECK(says(solve(hole, 1e3), "gap: nan m is not allowed; allowed: finite"));
  CHECK(says(solve(gap, 1e3, {}, std::vector<double>(256, -1.0)), "initial pressure: -1 Pa is not allowed"));
  CHECK(says(solve(gap, 1e3, {}, std::vector<double>(256, 0.0)), "initial pressure: 0 Pa everywhere"));
  CHECK(says(solve(gap, 1e3, {0.5, 100}), "tolerance of the half-space solver: 0.5 is not allowed"));
  CHECK(says(solve(gap, 1e3, {}, {}, Elastic{210e9, 0.6}), "Poisson's ratio: 0.6 is not allowed"));
  const HalfSpaceGrid other(20, 16, 1e-3, 1e-3);
  HalfSpaceWorkspace foreign(other);
  CHECK(says(refusal([&] { (void)solve_for_force(grid, foreign, gap, 1e3); }),
             "cells of the workspace: 320 is not allowed; allowed: 256"));
  CHECK(says(refusal([&] { (void)rolling_gap(grid, std::vector<double>(3), 0.46); }), "values of the lateral gap: 3"));
  CHECK(says(refusal([&] { (void)rolling_gap(grid, std::vector<double>(16), 0.0); }), "rolling radius: 0 m"));
  CHECK(says(refusal([&] { (void)grid_for_hertz(16, 16, hertz_patch(0.0, 2.0, 4.0)); }), "semi-axes of the patch"));
}

TEST_CASE("A half-space solution that does not come says how far it got") {
  const HertzPatch hertz = hertz_patch(50e3, 2.0, 4.0);
  const HalfSpaceGrid grid = grid_for_hertz(32, 32, hertz);
  HalfSpaceWorkspace workspace(grid);
  try {
    (void)solve_for_force(grid, workspace, quadratic_gap(grid, 2.0, 4.0), 50e3, {}, {1e-12, 2});
    FAIL("two iterations cannot reach 1e-12");
  } catch (const ComputeError& error) {
    CHECK(says(error.what(), "in iteration 2; the tolerance is 1e-12"));
  }
}
