// Touch, lift-off and transfer are found between the samples, not at them.
#include "catch.hpp"
#include "passage_cases.hpp"

#include <cmath>
#include <limits>
#include <optional>
#include <string>
#include <vector>

using namespace wingnose;
using passage::Event;

namespace {

std::optional<Event> first(const passage::History& h, Event::Kind kind, const std::string& body) {
  const auto it =
      std::find_if(h.events.begin(), h.events.end(), [&](const Event& e) { return e.kind == kind && e.body == body; });
  return it == h.events.end() ? std::nullopt : std::optional<Event>(*it);
}

constexpr double none = -std::numeric_limits<double>::infinity();
constexpr double speed = 30.0;

// Level wing; a nose that rises at 20 mrad and meets the wing's height at `meets`.
cases::PathPtr rising_nose(double meets) {
  return cases::two_body_path({-6.0, -1.0, meets, meets + 0.05, 6.0}, {0.0, 0.0, 0.0, 0.0, 0.0},
                              {none, 0.02 * (-1.0 - meets), 0.0, 1e-3, 1e-3});
}

passage::History run(const cases::PathPtr& path, double step, double from = -1.5, double to = 0.5,
                     passage::Method method = passage::Method::modal_exponential) {
  auto s = cases::settings(speed, from, to);
  s.step = step;
  s.method = method;
  return passage::simulate(cases::over(path, cases::usual_track(), s));
}

} // namespace

TEST_CASE(
    "The nose is touched where it comes within the wheel's own approach, and carries more once it stands higher") {
  // Before the touch the wheel rolls on the level wing, sunk in by the Hertz approach of its load: about 70 um. With
  // equal stiffness the bodies carry the same where they are level: that station is known whatever the dynamics.
  constexpr double meets = 0.0037; // between samples for any step below
  for (const double step : {4e-5, 2.5e-5, 1e-5}) {
    CAPTURE(step);
    const auto h = run(rising_nose(meets), step);
    const auto touch = first(h, Event::Kind::touch, "nose");
    const auto transfer = first(h, Event::Kind::transfer, "nose");
    const auto leave = first(h, Event::Kind::lift_off, "wing");
    REQUIRE(touch);
    REQUIRE(transfer);
    REQUIRE(leave);
    // Force on the wing at the last sample before the touch; it varies by the sleeper ripple only.
    const auto before = static_cast<std::size_t>((touch->time - h.time.front()) / h.step);
    const double sunk = std::pow(h.force[before] / cases::plain_stiffness(), 2.0 / 3.0);
    CHECK(h.body_force[1][before] == 0.0);
    CHECK(h.body_force[1][before + 1] > 0.0);
    CHECK(touch->station == Approx(meets - sunk / 0.02).margin(3e-5)); // 30 um of travel: 1 us, a tenth of the step
    CHECK(transfer->station == Approx(meets).margin(3e-6));
    CHECK(touch->time < transfer->time);
    CHECK(transfer->time < leave->time);
    CHECK(transfer->time == Approx((transfer->station + 1.5) / speed).epsilon(1e-9));
  }
}

TEST_CASE("A wheel that runs off an edge lifts off there, wherever the samples lie") {
  // The rail under the wheel ends in a drop of 30 m per metre: its own approach of 70 um is gone after 2 um.
  for (const double edge : {0.10003, 0.1002, 0.1005}) {
    const auto path = cases::given_path({-6.0, edge, edge + 0.001, 6.0}, {0.0, 0.0, -0.03, -0.03});
    for (const double step : {4e-5, 2.5e-5}) {
      CAPTURE(edge, step);
      const auto h = run(path, step, -1.0, 0.4);
      const auto leave = first(h, Event::Kind::lift_off, "path");
      REQUIRE(leave);
      CHECK(leave->station == Approx(edge).margin(1e-5)); // the step itself is 750 um or more
    }
  }
}

TEST_CASE(
    "The instants of flight and landing converge with the square of the step, towards those of the other method") {
  // A drop of 4 mm in 20 mm: the wheel flies, the rail springs back, the wheel lands. An instant taken from the samples
  // would be off by up to a step and would not fall with its square.
  const auto path = cases::given_path({-6.0, 0.0, 0.02, 6.0}, {0.0, 0.0, -0.004, -0.004});
  const auto times = [&](double step, passage::Method method) {
    auto s = cases::settings(speed, -0.6, 0.9);
    s.step = step;
    s.method = method;
    s.tolerance = 1e-10;
    const auto h = passage::simulate(cases::over(path, cases::usual_track(), s));
    const auto leave = first(h, Event::Kind::lift_off, "path"), land = first(h, Event::Kind::touch, "path");
    REQUIRE(leave);
    REQUIRE(land);
    CHECK(leave->time < land->time);
    return std::pair{leave->time, land->time};
  };
  const auto reference = times(5e-6, passage::Method::adaptive_runge_kutta);
  const auto error = [&](double step) {
    const auto t = times(step, passage::Method::modal_exponential);
    return std::pair{std::abs(t.first - reference.first), std::abs(t.second - reference.second)};
  };
  const auto e40 = error(40e-6), e20 = error(20e-6), e10 = error(10e-6);
  CAPTURE(reference.first, reference.second, e40.first, e20.first, e10.first, e40.second, e20.second, e10.second);
  CHECK(std::log2(e40.second / e10.second) / 2.0 > 1.8);
  CHECK(e40.first < 0.05 * 40e-6);
  CHECK(e10.first < 0.05 * 10e-6);
  CHECK(e10.second < 0.1 * 10e-6);
}

TEST_CASE("A passage without any change of contact has no events") {
  for (const auto direction : {Direction::facing, Direction::trailing}) {
    const auto s = cases::settings(speed, -0.5, 0.5, direction);
    const auto h = passage::simulate(cases::over(cases::level_path(), cases::usual_track(), s));
    CHECK(h.events.empty());
  }
}

TEST_CASE("At the start the force is on the body that bears it, for whichever wheel is reported") {
  // Nose alone behind 0, wing alone ahead of it, side by side in between; a bogie, both senses.
  const auto path = cases::two_body_path({-8.0, -0.02, 0.02, 8.0}, {0.0, 0.0, -0.02, -0.1}, {none, -0.02, 0.0, 0.0});
  const auto bogie = vehicle::assemble(vehicle::preset("bogie"));
  for (const auto direction : {Direction::facing, Direction::trailing}) {
    for (const int wheel : {0, 1}) {
      auto s = cases::settings(speed, -3.0, 3.0, direction);
      s.reported_wheel = wheel;
      const auto h = passage::simulate(cases::over(path, cases::usual_track(), s, 0.0, bogie));
      CAPTURE(direction == Direction::facing, wheel);
      const std::size_t bearing = direction == Direction::facing ? 0 : 1;
      CHECK(h.body_force[bearing].front() == Approx(h.force.front()).epsilon(1e-9));
      CHECK(h.body_force[1 - bearing].front() == 0.0);
      REQUIRE(!h.events.empty());
      CHECK(h.events.front().time > 10.0 * h.step);                                // nothing happens at the start
      const double approach = -h.rail_deflection.front() - h.wheel_height.front(); // the bearing body is level there
      CHECK(approach == Approx(std::pow(h.force.front() / cases::plain_stiffness(), 2.0 / 3.0)).epsilon(1e-6));
    }
  }
}
