// Where a passage takes long steps, and that they are steps of the same motion.
#include "catch.hpp"
#include "passage_cases.hpp"

#include "wingnose/passage/step_plan.hpp"

#include <algorithm>
#include <cmath>

using namespace wingnose;

namespace {

passage::Passage in_long_steps(cases::PathPtr path, const passage::Settings& s, double longest_step,
                               const vehicle::VehicleModel& vehicle = cases::usual_wheel()) {
  auto parts = cases::parts(std::move(path), cases::usual_track(), s, vehicle);
  parts.longest_step = longest_step;
  return passage::make_passage(passage::make_plan(std::move(parts)), passage::run_of(s, 0.0));
}

// Length of the steps with which the reported wheel passes a station, in short steps.
int stride_at(const passage::Passage& p, double x) {
  const double sample = std::abs(x - p.start()) / (p.run.speed * p.plan->step);
  for (const passage::Stretch& stretch : p.stretches) {
    if (sample >= stretch.begin && sample < stretch.end) {
      return stretch.stride;
    }
  }
  return 0;
}

} // namespace

TEST_CASE("Steps are short from just before a kink until the wheel's bounce has settled, and long elsewhere") {
  for (const auto direction : {Direction::facing, Direction::trailing}) {
    const auto s = cases::settings(30.0, -3.0, 3.0, direction);
    const auto p = in_long_steps(cases::kink_path(10e-3, 0.3), s, 165e-6);
    CHECK(p.plan->stride == 4); // 160 us
    const double ahead = sense(direction);
    for (const double x : {-2.0, -1.0, 1.5, 2.5}) {
      CHECK(stride_at(p, x) == 4);
    }
    for (const double x : {0.3 - 0.01 * ahead, 0.3, 0.3 + 0.05 * ahead}) {
      CHECK(stride_at(p, x) == 1);
    }
    CHECK(stride_at(p, 0.3 - 0.1 * ahead) == 4);
    // From the first to the last sample without a gap.
    CHECK(p.stretches.front().begin == 0);
    CHECK(p.stretches.back().end == passage::sample_count(p) - 1);
    for (std::size_t i = 0; i < p.stretches.size(); ++i) {
      const auto& stretch = p.stretches[i];
      CHECK((stretch.end - stretch.begin) % stretch.stride == 0);
      CHECK((i == 0 || stretch.begin == p.stretches[i - 1].end));
    }
  }
}

TEST_CASE("Steps are long throughout on a level path, and short throughout where no long ones are asked for") {
  const auto s = cases::settings(30.0, -3.0, 3.0);
  const auto level = in_long_steps(cases::level_path(), s, 200e-6);
  CHECK(level.plan->stride == 5);
  CHECK(level.stretches.front() == passage::Stretch{0, 5000, 5});
  for (const double longest : {0.0, 10e-6, s.step, 1.9 * s.step}) {
    const auto p = in_long_steps(cases::kink_path(10e-3, 0.3), s, longest);
    CHECK(p.stretches == std::vector<passage::Stretch>{{0, 5000, 1}});
    CHECK(p.plan->long_steps == nullptr);
  }
  auto adaptive = s;
  adaptive.method = passage::Method::adaptive_runge_kutta;
  CHECK(in_long_steps(cases::level_path(), adaptive, 200e-6).stretches.front().stride == 1);
}

TEST_CASE("Every wheel's kinks shorten the steps of all") {
  const auto bogie = vehicle::assemble(vehicle::preset("bogie"));
  const double base = std::abs(bogie.wheel_x[0] - bogie.wheel_x[1]);
  const auto s = cases::settings(30.0, -3.0, 3.0);
  const auto p = in_long_steps(cases::kink_path(10e-3, 0.0, 50.0, -9.0, 9.0), s, 160e-6, bogie);
  CHECK(stride_at(p, 0.05) == 1);        // the leading wheel, which is reported
  CHECK(stride_at(p, base + 0.05) == 1); // the second
  CHECK(stride_at(p, -0.5) == 4);
  CHECK(stride_at(p, 0.5 * base + 0.4) == 4);
}

TEST_CASE("A long step is as many short ones where the force hardly changes") {
  // So slowly over a level rail that the force stays the static load: what remains is how the modes go on, and what the
  // parabolas in each table of compliances leave out.
  const auto s = cases::settings(0.2, -0.01, 0.01);
  const auto one = passage::simulate(in_long_steps(cases::level_path(), s, 0.0));
  const auto other = passage::simulate(in_long_steps(cases::level_path(), s, 160e-6));
  REQUIRE(one.time == other.time);
  CHECK(cases::largest_difference(one.force, other.force) < 5e-5 * cases::largest(one.force));
  CHECK(cases::largest_difference(one.rail_deflection, other.rail_deflection) <
        5e-5 * cases::largest(one.rail_deflection));
  CHECK(cases::largest_difference(one.station, other.station) < 1e-12);
}

TEST_CASE("A wheel that flies and lands where steps would be long is followed in shorter ones") {
  // A steep little ramp throws the wheel into the air; it lands long after the bounce on the contact would have died
  // away.
  const auto path = cases::given_path({-8.0, 0.0, 0.3, 8.0}, {-0.008, 0.0, 0.006, -0.020});
  const auto s = cases::settings(40.0, -2.0, 4.0);
  const auto one = passage::simulate(in_long_steps(path, s, 0.0));
  const auto other = passage::simulate(in_long_steps(path, s, GENERATE(160e-6, 320e-6)));
  REQUIRE(one.events.size() >= 2); // it left the rail and came back
  REQUIRE(one.events.size() == other.events.size());
  for (std::size_t i = 0; i < one.events.size(); ++i) {
    CHECK(one.events[i].kind == other.events[i].kind);
    CHECK(other.events[i].station == Approx(one.events[i].station).margin(1e-5));
  }
  CHECK(cases::largest(other.force) == Approx(cases::largest(one.force)).epsilon(1e-3));
}

TEST_CASE("Steps are shortened from a sample on for as long as asked, or as far as is worth a change") {
  using Stretches = std::vector<passage::Stretch>;
  const Stretches given{{0, 800, 8}, {800, 900, 1}, {900, 1700, 8}};
  CHECK(passage::shortened(given, 400, 520) ==
        Stretches{{0, 400, 8}, {400, 520, 1}, {520, 800, 8}, {800, 900, 1}, {900, 1700, 8}});
  CHECK(passage::shortened(given, 400, 515).at(2) == passage::Stretch{520, 800, 8}); // on by whole steps
  CHECK(passage::shortened(given, 400, 790) == Stretches{{0, 400, 8}, {400, 900, 1}, {900, 1700, 8}});
  CHECK(passage::shortened(given, 400, 1000) == Stretches{{0, 400, 8}, {400, 1004, 1}, {1004, 1700, 8}});
  CHECK(passage::shortened(given, 0, 1700) == Stretches{{0, 1700, 1}});
  CHECK(passage::with_stride(given, 4) == Stretches{{0, 800, 4}, {800, 900, 1}, {900, 1700, 4}});
}
