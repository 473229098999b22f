// Envelopes and nose loads of made-up histories, small enough to check by hand.
#include "catch.hpp"

#include "wingnose/assess/force_grid.hpp"
#include "wingnose/words/error.hpp"

#include <cmath>
#include <vector>

using namespace wingnose;

namespace {

using Values = std::vector<double>;

// Samples every 5 mm from 0 to 100 mm: force as given, all of it on the nose.
passage::History history(double force, double from = 0.0) {
  passage::History h;
  h.bodies = {"wing", "nose"};
  for (int i = 0; i <= 20; ++i) {
    h.station.push_back(from + 0.005 * i + 1e-6);
    h.force.push_back(force + i);
  }
  h.body_force = {Values(h.force.size(), 0.0), h.force};
  return h;
}

layout::Crossing crossing() {
  layout::Crossing c;
  c.rate = 10.0; // the nose is 1 mm thick 10 mm behind its point
  return c;
}

constexpr assess::ForceGrid grid{0.010, 0.0, 0.1, 0.002, 0.008};

} // namespace

TEST_CASE("An envelope has the largest force of each step, over the passages by their weight") {
  assess::ForcesOfMany forces(grid, 3);
  forces.keep(0, history(1000.0), crossing());
  forces.keep(1, history(2000.0), crossing());
  forces.keep(2, history(9000.0), crossing());
  const std::vector<std::size_t> first_two{0, 1};
  const auto e = forces.envelope(first_two, Values{1.0, 3.0});
  REQUIRE(e.station.size() == 10);
  CHECK(e.station.front() == Approx(0.005));
  CHECK(e.low.front() == 1001.0); // samples at 0 and 5 mm
  CHECK(e.middle.front() == 2001.0);
  CHECK(e.most.back() == 2019.0);
}

TEST_CASE("An envelope is cut to what every passage covers") {
  assess::ForcesOfMany forces(grid, 2);
  forces.keep(0, history(1000.0), crossing());
  forces.keep(1, history(1000.0, 0.05), crossing());
  const auto e = forces.envelope(std::vector<std::size_t>{0, 1}, Values{1.0, 1.0});
  REQUIRE(e.station.size() == 5);
  CHECK(e.station.front() == Approx(0.055));
}

TEST_CASE("The load of the nose stands by its thickness: mean and largest over the passages, and how many bear") {
  assess::ForcesOfMany forces(grid, 2);
  auto unloaded = history(0.0);
  unloaded.body_force[1].assign(unloaded.force.size(), 0.0);
  forces.keep(0, history(1000.0), crossing());
  forces.keep(1, unloaded, crossing());
  const auto load = forces.nose_load(std::vector<std::size_t>{0, 1}, Values{1.0, 1.0});
  REQUIRE(load.from.size() == 4);
  CHECK(load.to.front() == Approx(0.002)); // 0 to 20 mm: samples 0 to 3
  CHECK(load.mean.front() == Approx(0.5 * 1001.5));
  CHECK(load.high.front() == Approx(1003.0));
  CHECK(load.bearing.front() == 0.5);
  const auto [mean, high] = assess::mean_and_high(load, 0.0, 0.004);
  CHECK(mean == Approx(0.5 * (load.mean[0] + load.mean[1])));
  CHECK(high == load.high[1]);
  CHECK(std::isnan(assess::mean_and_high(load, 0.5, 0.6).first));
}

TEST_CASE("A grid whose ends contradict its steps is refused") {
  auto g = grid;
  g.envelope_to = g.envelope_from;
  CHECK_THROWS_AS(assess::check(g), InputError);
  g = grid;
  g.thickness_to = 0.001;
  CHECK_THROWS_AS(assess::check(g), InputError);
}
