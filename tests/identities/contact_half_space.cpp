// What must hold for any contact of half-spaces, whatever the gap.
#include "catch.hpp"
#include "wingnose/contact/half_space/half_space_gap.hpp"

#include <boost/math/constants/constants.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

using namespace wingnose::contact;

namespace {

constexpr double pi = boost::math::constants::pi<double>();
constexpr double pitch = 0.25e-3; // m
const HalfSpaceSettings tight{1e-10, 500};

// A wheel over a rail whose lateral curvature jumps, as at the joint of two arcs of a rail head, with a ripple.
std::vector<double> rail_like_gap(const HalfSpaceGrid& grid) {
  std::vector<double> lateral(grid.ny());
  for (std::size_t iy = 0; iy < grid.ny(); ++iy) {
    const double y = grid.y(iy);
    lateral[iy] = 0.5 * y * y * (y > 0.0 ? 1.0 / 0.08 : 1.0 / 0.3) + 2e-6 * std::sin(y / 1.3e-3);
  }
  return rolling_gap(grid, lateral, 0.46);
}

double worst_difference(const std::vector<double>& a, const std::vector<double>& b) {
  double worst = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    worst = std::max(worst, std::abs(a[i] - b[i]));
  }
  return worst;
}

} // namespace

TEST_CASE("Bodies press or part, never both, never overlap, and the pressures add up to the wheel load") {
  const HalfSpaceGrid grid(64, 96, pitch, pitch);
  HalfSpaceWorkspace workspace(grid);
  const auto gap = rail_like_gap(grid);
  const auto contact = solve_for_force(grid, workspace, gap, 80e3, {}, tight);
  REQUIRE_FALSE(contact.touches_edge);
  const auto deflection = surface_deflection(grid, workspace, contact.pressure);
  double sum = 0.0;
  double overlap = 0.0, gap_under_pressure = 0.0;
  for (std::size_t i = 0; i < grid.cells(); ++i) {
    const double p = contact.pressure[i];
    const double left = gap[i] + deflection[i] - contact.approach;
    REQUIRE(p >= 0.0);
    sum += p;
    overlap = std::max(overlap, -left);
    if (p > 0.0) {
      gap_under_pressure = std::max(gap_under_pressure, left);
    }
  }
  CHECK(sum * pitch * pitch == Approx(80e3).epsilon(1e-12));
  CHECK(contact.force == Approx(80e3).epsilon(1e-12));
  CHECK(overlap < 1e-9 * contact.approach);
  CHECK(gap_under_pressure < 1e-9 * contact.approach);
  CHECK(contact.mismatch == Approx(std::max(overlap, gap_under_pressure)).margin(1e-12 * contact.approach));
}

TEST_CASE("The approach found for a load gives back that load and the same pressures") {
  const HalfSpaceGrid grid(64, 96, pitch, pitch);
  HalfSpaceWorkspace workspace(grid);
  const auto gap = rail_like_gap(grid);
  for (const double load : {10e3, 80e3}) {
    const auto by_force = solve_for_force(grid, workspace, gap, load, {}, tight);
    const auto by_approach = solve_for_approach(grid, workspace, gap, by_force.approach, {}, tight);
    CHECK(by_approach.force == Approx(load).epsilon(1e-8));
    CHECK(worst_difference(by_force.pressure, by_approach.pressure) < 1e-6 * by_force.peak_pressure);
  }
}

TEST_CASE("A mirrored rail gives the mirrored pressure") {
  const HalfSpaceGrid grid(64, 96, pitch, pitch);
  HalfSpaceWorkspace workspace(grid);
  const auto gap = rail_like_gap(grid);
  std::vector<double> mirrored(gap.size());
  const auto mirror = [&](const std::vector<double>& from, std::vector<double>& to) {
    for (std::size_t iy = 0; iy < grid.ny(); ++iy) {
      for (std::size_t ix = 0; ix < grid.nx(); ++ix) {
        to[(grid.ny() - 1 - iy) * grid.nx() + ix] = from[iy * grid.nx() + ix];
      }
    }
  };
  mirror(gap, mirrored);
  const auto contact = solve_for_force(grid, workspace, gap, 80e3, {}, tight);
  const auto other = solve_for_force(grid, workspace, mirrored, 80e3, {}, tight);
  std::vector<double> back(gap.size());
  mirror(other.pressure, back);
  CHECK(worst_difference(contact.pressure, back) < 1e-6 * contact.peak_pressure);
  CHECK(other.approach == Approx(contact.approach).epsilon(1e-9));
}

TEST_CASE("Eight times the load on a quadratic gap doubles patch and peak pressure and makes four times the approach") {
  // The grid grows with the patch, so both solve the same numbers. Hertz 1881: a ~ F^(1/3), approach ~ F^(2/3).
  const HalfSpaceGrid small(48, 48, pitch, pitch), large(48, 48, 2.0 * pitch, 2.0 * pitch);
  HalfSpaceWorkspace small_workspace(small), large_workspace(large);
  const auto one = solve_for_force(small, small_workspace, quadratic_gap(small, 2.0, 4.0), 40e3, {}, tight);
  const auto eight = solve_for_force(large, large_workspace, quadratic_gap(large, 2.0, 4.0), 320e3, {}, tight);
  CHECK(eight.peak_pressure == Approx(2.0 * one.peak_pressure).epsilon(1e-8));
  CHECK(eight.area == Approx(4.0 * one.area).epsilon(1e-12));
  CHECK(eight.approach == Approx(4.0 * one.approach).epsilon(1e-8));
}

TEST_CASE("The deflection under two pressure fields is the sum of the deflections under each") {
  const HalfSpaceGrid grid(20, 30, pitch, 2.0 * pitch); // sizes that are no powers of two
  HalfSpaceWorkspace workspace(grid);
  std::vector<double> one(grid.cells()), two(grid.cells()), both(grid.cells());
  for (std::size_t i = 0; i < grid.cells(); ++i) {
    one[i] = 1e8 * static_cast<double>(i % 7);
    two[i] = 1e8 * static_cast<double>(i * i % 11);
    both[i] = 2.0 * one[i] + two[i];
  }
  const auto u_one = surface_deflection(grid, workspace, one);
  const auto u_two = surface_deflection(grid, workspace, two);
  auto sum = u_one;
  for (std::size_t i = 0; i < grid.cells(); ++i) {
    sum[i] = 2.0 * u_one[i] + u_two[i];
  }
  const auto u_both = surface_deflection(grid, workspace, both);
  CHECK(worst_difference(sum, u_both) < 1e-13 * *std::max_element(u_both.begin(), u_both.end()));
}

TEST_CASE("Deflections by transforms are those summed cell by cell") {
  const HalfSpaceGrid grid(13, 10, pitch, 1.7 * pitch);
  HalfSpaceWorkspace workspace(grid);
  std::vector<double> pressure(grid.cells());
  for (std::size_t i = 0; i < grid.cells(); ++i) {
    pressure[i] = 1e8 * static_cast<double>(i * i % 17);
  }
  std::vector<double> direct(grid.cells(), 0.0);
  for (std::size_t i = 0; i < grid.cells(); ++i) {
    for (std::size_t j = 0; j < grid.cells(); ++j) {
      direct[i] +=
          pressure[j] / (pi * Elastic{}.combined()) *
          rectangle_influence(grid.x(i % 13) - grid.x(j % 13), grid.y(i / 13) - grid.y(j / 13), grid.dx(), grid.dy());
    }
  }
  const auto deflection = surface_deflection(grid, workspace, pressure);
  CHECK(worst_difference(direct, deflection) < 1e-13 * *std::max_element(direct.begin(), direct.end()));
}

TEST_CASE("More load never takes pressure away from the middle and never lessens the approach") {
  const HalfSpaceGrid grid(48, 64, pitch, pitch);
  HalfSpaceWorkspace workspace(grid);
  const auto gap = rail_like_gap(grid);
  double approach = 0.0, area = 0.0, peak = 0.0;
  for (const double load : {1e3, 5e3, 20e3, 40e3}) {
    const auto contact = solve_for_force(grid, workspace, gap, load);
    CHECK(contact.approach > approach);
    CHECK(contact.area >= area);
    CHECK(contact.peak_pressure > peak);
    approach = contact.approach;
    area = contact.area;
    peak = contact.peak_pressure;
  }
}
