// What a passage refuses, and what it starts from.
#include "catch.hpp"
#include "passage_cases.hpp"

#include "wingnose/words/error.hpp"

#include <array>
#include <limits>
#include <string>

using namespace wingnose;

namespace {

std::string refusal(const passage::Settings& s, const vehicle::VehicleModel& v = cases::usual_wheel(),
                    cases::PathPtr path = cases::level_path()) {
  try {
    static_cast<void>(cases::over(std::move(path), cases::usual_track(), s, 0.0, v));
  } catch (const InputError& e) {
    return e.what();
  }
  return {};
}
bool names(const std::string& sentence, const std::string& word) { return sentence.find(word) != std::string::npos; }

} // namespace

TEST_CASE("Impossible speeds, steps, windows and wheels are refused by name") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const auto good = cases::settings(30.0, -1.0, 1.0);
  CHECK(refusal(good).empty());
  SECTION("speed") {
    for (const double v : {0.0, -20.0, 250.0, nan}) {
      auto s = good;
      s.speed = v;
      CHECK(names(refusal(s), "speed"));
    }
  }
  SECTION("window turned round or empty") {
    for (const double to : {-1.0, -2.0, nan}) {
      auto s = good;
      s.to = to;
      CHECK(names(refusal(s), "window"));
    }
  }
  SECTION("window beyond the track") {
    auto s = good;
    s.to = 12.5;
    CHECK(names(refusal(s), "track"));
    s = good;
    s.from = -12.01;
    CHECK(names(refusal(s), "track"));
  }
  SECTION("a second wheel beyond the track, in either sense") {
    const auto bogie = vehicle::assemble(vehicle::preset("bogie")); // 2.56 m between wheels
    CHECK(refusal(cases::settings(30.0, -9.4, 1.0), bogie).empty());
    CHECK(names(refusal(cases::settings(30.0, -9.5, 1.0), bogie), "wheel 2"));
    CHECK(refusal(cases::settings(30.0, -1.0, 9.4, Direction::trailing), bogie).empty());
    CHECK(names(refusal(cases::settings(30.0, -1.0, 9.5, Direction::trailing), bogie), "wheel 2"));
    auto s = cases::settings(30.0, -1.0, 9.5);
    CHECK(refusal(s, bogie).empty());
    s.reported_wheel = 1; // now the leading wheel is ahead of it
    CHECK(names(refusal(s, bogie), "wheel 1"));
  }
  SECTION("time step") {
    for (const double h : {0.0, -1e-5, 1e-3, nan}) {
      auto s = good;
      s.step = h;
      CHECK(names(refusal(s), "step"));
    }
  }
  SECTION("reported wheel") {
    for (const int wheel : {-1, 1, 7}) {
      auto s = good;
      s.reported_wheel = wheel;
      CHECK(names(refusal(s), "wheel"));
    }
  }
  SECTION("a path without stations") {
    CHECK(names(refusal(good, cases::usual_wheel(), std::make_shared<const contact::WheelPath>()), "path"));
  }
  SECTION("a step table of another step") {
    const auto table = passage::step_table(cases::usual_track(), 2e-5);
    CHECK_THROWS_AS(cases::over(cases::level_path(), cases::usual_track(), good, 0.0, cases::usual_wheel(), table),
                    InputError);
  }
  SECTION("a passage of fewer than ten steps") {
    const auto s = cases::over(cases::level_path(), cases::usual_track(), cases::settings(30.0, 0.0, 0.005));
    CHECK_THROWS_AS(passage::simulate(s), InputError);
  }
  SECTION("a wheel that starts where there is no rail") {
    const double none = -std::numeric_limits<double>::infinity();
    const auto hole = cases::two_body_path({-3.0, -0.5, 0.0, 3.0}, {none, none, 0.0, 0.0}, {none, none, none, none});
    const auto s = cases::over(hole, cases::usual_track(), good);
    CHECK_THROWS_AS(passage::simulate(s), ComputeError);
  }
}

TEST_CASE("At rest the wheel sinks by track deflection and Hertz approach, and its load is the static one") {
  const auto s = cases::over(cases::level_path(), cases::usual_track(), cases::settings(30.0, -1.0, 1.0));
  const double load = s.vehicle->model.static_load[0];
  CHECK(load == Approx(90e3).epsilon(1e-9));
  for (const double x : {-1.0, -0.3, 0.0, 0.171, 0.6}) {
    const auto still = passage::equilibrium(s, x);
    CHECK(still.force[0] == Approx(load).epsilon(1e-9));
    const std::array<double, 1> at{x};
    const double rail = track::static_deflection(s.plan->track->assembly, load, x, at)[0];
    CHECK(-still.displacement[0] == Approx(rail + std::pow(load / cases::plain_stiffness(), 2.0 / 3.0)).epsilon(1e-6));
  }
}

TEST_CASE("A coach at rest stands on all its wheels with the loads of the level track") {
  track::Track t;
  t.bays = 60;
  t.elements_per_bay = 4;
  t.centre = -11.0;
  const auto coach = vehicle::assemble(vehicle::preset("coach"));
  const auto s =
      cases::over(cases::level_path(-40.0, 10.0), track::modal_track(t), cases::settings(30.0, -1.0, 1.0), 0.0, coach);
  const auto still = passage::equilibrium(s, 0.3);
  double sum = 0.0, static_sum = 0.0;
  for (int w = 0; w < 4; ++w) {
    CHECK(still.force[w] == Approx(coach.static_load[w]).epsilon(5e-3)); // sleepers give way a little unevenly
    sum += still.force[w];
    static_sum += coach.static_load[w];
  }
  CHECK(sum == Approx(static_sum).epsilon(1e-9));
}

TEST_CASE("One plan serves every speed, direction and load, with the bits of plans made for each") {
  const auto track = track::modal_track(cases::short_track());
  const auto path = cases::kink_path(10e-3, 0.1);
  const auto s = cases::settings(30.0, -1.0, 1.2);
  const auto plan = passage::make_plan(cases::parts(path, track, s));
  for (const auto direction : {Direction::facing, Direction::trailing}) {
    for (const double speed : {20.0, 45.0}) {
      const auto other = cases::settings(speed, s.from, s.to, direction);
      const auto shared = passage::simulate(plan, passage::run_of(other, 0.1));
      CHECK(shared.force == passage::simulate(cases::over(path, track, other, 0.1)).force);
    }
  }
  for (const double load : {40e3, 125e3}) {
    auto run = passage::run_of(s, 0.1);
    run.load = load;
    const auto shared = passage::simulate(plan, run);
    const auto v = vehicle::preset("wheel");
    const auto made = vehicle::assemble(vehicle::single_wheel(
        load, v.wheels[0].unsprung_mass, v.suspensions[0].stiffness, v.suspensions[0].damping, v.wheels[0].radius));
    const auto alone = passage::simulate(cases::over(path, track, s, 0.1, made));
    CHECK(shared.static_load == Approx(load).epsilon(1e-12));
    CHECK(cases::largest_difference(shared.force, alone.force) < 1e-9 * load);
  }
}

TEST_CASE("A load laid on a coach lies on all its bodies alike") {
  const auto coach = vehicle::assemble(vehicle::preset("coach"));
  const double own = coach.weight[1], before = coach.static_load[1];
  const auto full = vehicle::laden(coach, 1, 1.3 * before);
  CHECK(full.static_load[1] == Approx(1.3 * before).epsilon(1e-12));
  const double factor = (1.3 * before - own) / (before - own);
  double weight = 0.0, loads = 0.0;
  for (int w = 0; w < 4; ++w) {
    CHECK(full.static_load[w] - coach.weight[w] == Approx(factor * (coach.static_load[w] - coach.weight[w])));
    loads += full.static_load[w];
  }
  for (Eigen::Index i = 0; i < full.weight.size(); ++i) {
    weight += full.weight[i];
    CHECK(full.M(i, i) == Approx((i < 4 ? 1.0 : factor) * coach.M(i, i)));
  }
  CHECK(loads == Approx(weight).epsilon(1e-12));
  CHECK_THROWS_AS(vehicle::laden(coach, 1, own), InputError);
  CHECK_THROWS_AS(vehicle::laden(coach, 1, std::numeric_limits<double>::quiet_NaN()), InputError);
}

TEST_CASE("Paths that do not belong to the wheels of a plan are refused") {
  const auto track = cases::usual_track();
  const auto s = cases::settings(30.0, -1.0, 1.0);
  auto parts = cases::parts(cases::level_path(), track, s, vehicle::assemble(vehicle::preset("coach")));
  parts.courses.resize(3, parts.courses.front());
  CHECK_THROWS_AS(passage::make_plan(parts), InputError);
  auto other = cases::parts(cases::level_path(), track, s);
  other.courses.front().law =
      std::make_shared<const contact::PathLaw>(contact::ellipse_law(*cases::kink_path(5e-3, 0.0)));
  CHECK_THROWS_AS(passage::make_plan(other), InputError);
  // A path over a crossing is that of a wheel of one radius.
  const double none = -std::numeric_limits<double>::infinity();
  auto rolled = cases::parts(cases::two_body_path({-3.0, 3.0}, {0.0, 0.0}, {none, none}), track, s);
  CHECK_NOTHROW(passage::make_plan(rolled));
  rolled.vehicle.wheel_radius.front() = 0.30;
  CHECK_THROWS_AS(passage::make_plan(rolled), InputError);
}
