// Several passages at once give what each gives alone.
#include "catch.hpp"
#include "passage_cases.hpp"

#include "wingnose/layout/surface.hpp"
#include "wingnose/profile/wheel.hpp"
#include "wingnose/words/error.hpp"

#include <memory>
#include <span>
#include <utility>
#include <vector>

using namespace wingnose;

namespace {

// Eleven cases that differ in path and vehicle: more than one group of eight.
std::vector<passage::Passage> eleven(const cases::TrackPtr& track, Direction direction, double longest_step = 0.0) {
  const auto s = cases::settings(35.0, -0.8, 0.8, direction);
  const auto table = passage::step_table(track, s.step);
  const auto long_table = longest_step > 0.0 ? passage::long_step_table(track, longest_step) : nullptr;
  std::vector<passage::Passage> moves;
  for (int i = 0; i < 11; ++i) {
    const auto wheel = vehicle::assemble(vehicle::single_wheel(60e3 + 5e3 * i, 600.0 + 90.0 * i, 1.2e6, 4e3, 0.46));
    const auto path = i % 3 == 0 ? cases::level_path() : cases::kink_path(2e-3 * i, -0.2 + 0.05 * i);
    auto parts = cases::parts(path, track, s, wheel, table);
    parts.longest_step = longest_step;
    parts.long_steps = long_table;
    moves.push_back(passage::make_passage(passage::make_plan(std::move(parts)), passage::run_of(s, 0.0)));
  }
  return moves;
}

} // namespace

TEST_CASE("Cases run together answer as they do one by one") {
  for (const auto& [direction, longest_step] : {std::pair{Direction::facing, 0.0},
                                                {Direction::trailing, 0.0},
                                                {Direction::facing, 160e-6},
                                                {Direction::trailing, 160e-6},
                                                {Direction::facing, 320e-6}}) {
    const auto moves = eleven(cases::usual_track(), direction, longest_step);
    const auto together = passage::simulate_batch(moves);
    REQUIRE(together.size() == moves.size());
    for (std::size_t i = 0; i < moves.size(); ++i) {
      const auto alone = passage::simulate(moves[i]);
      CAPTURE(i);
      CHECK(cases::largest_difference(together[i].force, alone.force) < 1e-9 * cases::largest(alone.force));
      CHECK(cases::largest_difference(together[i].wheel_height, alone.wheel_height) <
            1e-9 * cases::largest(alone.wheel_height));
      CHECK(cases::largest_difference(together[i].rail_deflection, alone.rail_deflection) <
            1e-9 * cases::largest(alone.rail_deflection));
      CHECK(together[i].events.size() == alone.events.size());
      CHECK(together[i].static_load == alone.static_load);
      CHECK(together[i].wheel_peaks[0] == Approx(alone.wheel_peaks[0]).epsilon(1e-9));
    }
  }
}

TEST_CASE("A case gives the same bits in any lane and beside any neighbours") {
  // One step throughout; then long steps, which the kinks shorten in another place in every case and a wheel that
  // flies where it does.
  const double longest_step = GENERATE(0.0, 160e-6, 320e-6);
  auto moves = eleven(cases::usual_track(), Direction::facing, longest_step);
  const auto reference = passage::simulate_batch(moves);
  const auto check = [&](const std::vector<passage::History>& got, const std::vector<std::size_t>& order) {
    REQUIRE(got.size() == order.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
      CAPTURE(i, order[i]);
      CHECK(got[i].force == reference[order[i]].force);
      CHECK(got[i].wheel_height == reference[order[i]].wheel_height);
      CHECK(got[i].rail_deflection == reference[order[i]].rail_deflection);
    }
  };
  const auto pick = [&](const std::vector<std::size_t>& order) {
    std::vector<passage::Passage> some;
    some.reserve(order.size());
    for (const std::size_t i : order) {
      some.push_back(moves[i]);
    }
    check(passage::simulate_batch(some), order);
  };
  pick({10, 9, 8, 7, 6, 5, 4, 3, 2, 1, 0});
  pick({4, 4, 4, 7, 4, 4, 4, 4, 4});
  for (std::size_t i = 0; i < moves.size(); i += 5) {
    pick({i});
  }
}

TEST_CASE(
    "Wheels that fly in different places go on alone from there, with the bits they have when run by themselves") {
  const auto path = cases::given_path({-8.0, 0.0, 0.3, 8.0}, {-0.008, 0.0, 0.006, -0.020});
  const auto s = cases::settings(40.0, -2.0, 4.0);
  const auto track = cases::usual_track();
  const auto table = passage::step_table(track, s.step), long_table = passage::long_step_table(track, 320e-6);
  std::vector<passage::Passage> moves;
  for (int i = 0; i < 8; ++i) {
    const auto wheel = vehicle::assemble(vehicle::single_wheel(40e3 + 20e3 * i, 900.0, 1.2e6, 4e3, 0.46));
    auto parts = cases::parts(path, track, s, wheel, table);
    parts.longest_step = 320e-6;
    parts.long_steps = long_table;
    moves.push_back(passage::make_passage(passage::make_plan(std::move(parts)), passage::run_of(s, 0.0)));
  }
  const auto together = passage::simulate_batch(moves);
  std::size_t landings = 0;
  for (std::size_t i = 0; i < moves.size(); ++i) {
    CAPTURE(i);
    const auto alone = passage::simulate_batch(std::span(moves).subspan(i, 1)).front();
    CHECK(together[i].force == alone.force);
    CHECK(together[i].rail_deflection == alone.rail_deflection);
    CHECK(together[i].wheel_peaks == alone.wheel_peaks);
    landings += alone.events.size() >= 2 ? 1 : 0;
    const auto single = passage::simulate(moves[i]);
    CHECK(cases::largest_difference(single.force, alone.force) < 1e-9 * cases::largest(alone.force));
  }
  CHECK(landings >= 4);
}

TEST_CASE("A case on Hertz's law gives the same bits beside laws of strips, and those answer as they do alone") {
  auto moves = eleven(cases::usual_track(), Direction::facing);
  moves.resize(8);
  const auto plain = passage::simulate_batch(moves);
  for (const std::size_t i : {std::size_t{2}, std::size_t{5}}) {
    moves[i] = cases::with_laws(moves[i], [&](contact::PathLaw& law) {
      law.reach = i == 2 ? contact::strips_reach : law.reach; // further terms, or the reach, or both
      for (contact::ForceLaw& at : law.body.front()) {
        at = {0.5 * at.c0, 25.0 * at.c0, 900.0 * at.c0};
      }
    });
  }
  // Hertz's law that goes straight on well before the static depth.
  moves[7] = cases::with_laws(moves[7], [](contact::PathLaw& law) { law.reach = 2e-5; });
  const auto mixed = passage::simulate_batch(moves);
  for (std::size_t i = 0; i < moves.size(); ++i) {
    CAPTURE(i);
    if (i == 2 || i == 5 || i == 7) {
      const auto alone = passage::simulate(moves[i]);
      CHECK(cases::largest_difference(mixed[i].force, alone.force) < 1e-9 * cases::largest(alone.force));
      CHECK(cases::largest_difference(mixed[i].force, plain[i].force) > 1e-6 * cases::largest(alone.force));
      CHECK(passage::simulate_batch(std::span(moves).subspan(i, 1)).front().force == mixed[i].force);
    } else {
      CHECK(mixed[i].force == plain[i].force);
      CHECK(mixed[i].wheel_height == plain[i].wheel_height);
      CHECK(mixed[i].rail_deflection == plain[i].rail_deflection);
    }
  }
}

TEST_CASE("A batch that does not share track, step, speed and window is refused") {
  const auto track = cases::usual_track();
  const auto s = cases::settings(30.0, -0.3, 0.3);
  const auto table = passage::step_table(track, s.step);
  const auto good = cases::over(cases::level_path(), track, s, 0.0, cases::usual_wheel(), table);
  const auto with = [&](passage::Settings changed, const vehicle::VehicleModel& v = cases::usual_wheel()) {
    return std::vector<passage::Passage>{good, cases::over(cases::level_path(), track, changed, 0.0, v, table)};
  };
  CHECK(passage::simulate_batch(with(s)).size() == 2);
  CHECK(passage::simulate_batch({}).empty());
  auto t = s;
  t.speed = 31.0;
  CHECK_THROWS_AS(passage::simulate_batch(with(t)), InputError);
  t = s;
  t.to = 0.4;
  CHECK_THROWS_AS(passage::simulate_batch(with(t)), InputError);
  t = s;
  t.direction = Direction::trailing;
  CHECK_THROWS_AS(passage::simulate_batch(with(t)), InputError);
  t = s;
  t.probes = true;
  CHECK_THROWS_AS(passage::simulate_batch(with(t)), InputError);
  t = s;
  t.method = passage::Method::adaptive_runge_kutta;
  CHECK_THROWS_AS(passage::simulate_batch(with(t)), InputError);
  CHECK_THROWS_AS(passage::simulate_batch(with(s, vehicle::assemble(vehicle::preset("bogie")))), InputError);
  // The batch knows laws along the path only.
  const auto crossing = layout::generate({});
  const auto wheel = profile::s1002();
  const auto path =
      std::make_shared<const contact::WheelPath>(contact::roll(crossing, wheel, {.from = s.from, .to = s.to}));
  auto parts = cases::parts(path, track, s, cases::usual_wheel(), table);
  parts.courses.front().search =
      std::make_shared<const contact::StepSearch>(*path, crossing, wheel, contact::Ellipse{});
  const auto searched = passage::make_passage(passage::make_plan(parts), passage::run_of(s, 0.0));
  CHECK_THROWS_AS(passage::simulate_batch(std::vector<passage::Passage>{good, searched}), InputError);
  const auto other_table = passage::step_table(track, s.step);
  CHECK_THROWS_AS(passage::simulate_batch(std::vector<passage::Passage>{
                      good, cases::over(cases::level_path(), track, s, 0.0, cases::usual_wheel(), other_table)}),
                  InputError);
}
