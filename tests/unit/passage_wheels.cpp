// Every wheel has its own radius, profile and path; what a coordinate or a body is called decides nothing.
#include "catch.hpp"
#include "passage_cases.hpp"

#include "wingnose/layout/surface.hpp"
#include "wingnose/profile/wheel.hpp"

#include <cmath>
#include <memory>
#include <string>
#include <vector>

using namespace wingnose;

namespace {

constexpr double apart = 9.0; // m: too far for one wheel to feel the other through the rail

vehicle::Wheel wheel_of(const std::string& name, double x, double radius) { return {name, 900.0, x, radius}; }
vehicle::Body body_above(const std::string& name, double x) { return {name, 8274.0, 0.0, x}; }
vehicle::Suspension between(const std::string& upper, const std::string& lower, double x) {
  return {upper, lower, x, 1.2e6, 4e3};
}

passage::Course course(const layout::Crossing& crossing, const profile::WheelProfile& profile, double radius) {
  return {std::make_shared<const contact::WheelPath>(
      contact::roll(crossing, profile, {.from = -3.0, .to = 3.0, .wheel_radius = radius}))};
}

cases::TrackPtr long_track() {
  track::Track t;
  t.bays = 50;
  t.elements_per_bay = 4;
  t.cut_off = 3000.0;
  return track::modal_track(t);
}

} // namespace

TEST_CASE("Two unequal wheels each follow their own path, and answer as each does alone") {
  // No suspension joins them: only the rail could, and it is long.
  const vehicle::Vehicle pair{"two wheels",
                              {body_above("first mass", 0.0), body_above("second mass", -apart)},
                              {wheel_of("first", 0.0, 0.46), wheel_of("second", -apart, 0.30)},
                              {between("first mass", "first", 0.0), between("second mass", "second", -apart)},
                              "made for this test"};
  const auto crossing = layout::generate({});
  const std::vector<passage::Course> courses{course(crossing, profile::s1002(), 0.46),
                                             course(crossing, profile::cone(1.0 / 20.0), 0.30)};
  const auto track = long_track();
  const auto s = cases::settings(25.0, -1.5, 1.5);
  const auto steps = passage::step_table(track, s.step);
  const auto plan_of = [&](const std::vector<passage::Course>& of, const vehicle::Vehicle& v) {
    auto parts = cases::parts(nullptr, track, s, vehicle::assemble(v), steps);
    parts.courses = of;
    return passage::make_plan(parts);
  };
  const auto together = plan_of(courses, pair);
  std::vector<passage::History> alone;
  for (int w = 0; w < 2; ++w) {
    auto run = passage::run_of(s);
    run.reported_wheel = w;
    const passage::History in_company = passage::simulate(together, run);
    const vehicle::Vehicle one{"one wheel",
                               {body_above("mass", 0.0)},
                               {wheel_of("wheel", 0.0, pair.wheels[w].radius)},
                               {between("mass", "wheel", 0.0)},
                               "made for this test"};
    alone.push_back(passage::simulate(plan_of({courses[w]}, one), passage::run_of(s)));
    CAPTURE(w);
    CHECK(cases::largest_difference(in_company.force, alone.back().force) < 1e-3 * cases::largest(alone.back().force));
    // The wheel under study may be any: the largest force of each is the same whichever is reported.
    CHECK(in_company.wheel_peaks[w] == Approx(cases::largest(in_company.force)).epsilon(1e-12));
  }
  // They are really unequal: with the path of the other each would be far off.
  CHECK(cases::largest_difference(alone[0].force, alone[1].force) > 0.1 * cases::largest(alone[0].force));
}

TEST_CASE("At walking speed each of two unequal wheels rises and falls with the path of its own") {
  const vehicle::Vehicle pair{
      "two wheels", {}, {wheel_of("first", 0.0, 0.46), wheel_of("second", -apart, 0.30)}, {}, "made for this test"};
  const auto crossing = layout::generate({});
  const std::vector<passage::Course> courses{course(crossing, profile::s1002(), 0.46),
                                             course(crossing, profile::cone(1.0 / 20.0), 0.30)};
  auto s = cases::settings(0.5, 0.35, 0.45);
  auto parts = cases::parts(nullptr, long_track(), s, vehicle::assemble(pair));
  parts.courses = courses;
  const auto plan = passage::make_plan(parts);
  std::vector<double> risen;
  for (int w = 0; w < 2; ++w) {
    auto run = passage::run_of(s);
    run.reported_wheel = w;
    run.probes = false;
    const passage::History h = passage::simulate(plan, run);
    const contact::WheelPath& path = *courses[w].path;
    const auto height = [&](double x) {
      const auto i = static_cast<std::size_t>(std::lower_bound(path.station.begin(), path.station.end(), x) -
                                              path.station.begin());
      return std::max(path.bodies[0].height[i], path.bodies[1].height[i]);
    };
    const double path_rise = height(h.station.back()) - height(h.station.front());
    const double wheel_rise =
        h.wheel_height.back() + h.rail_deflection.back() - h.wheel_height.front() - h.rail_deflection.front();
    CAPTURE(w, path_rise, wheel_rise);
    CHECK(wheel_rise == Approx(path_rise).margin(5e-6)); // the approach changes by some micrometres between the bodies
    risen.push_back(path_rise);
  }
  CHECK(std::abs(risen[0] - risen[1]) > 5e-5);
}

TEST_CASE("What a body of a vehicle is called does not decide how it starts on a ramp") {
  const auto rising = cases::given_path({-6.0, 6.0}, {-0.012, 0.012}); // 2 mrad
  const auto start_of = [&](const std::string& name) {
    const vehicle::Vehicle v{"named",
                             {body_above(name, 0.0)},
                             {wheel_of("wheel", 0.0, 0.46)},
                             {between(name, "wheel", 0.0)},
                             "made for this test"};
    return passage::initial_state(
               cases::over(rising, cases::usual_track(), cases::settings(30.0, -1.0, 1.0), 0.0, vehicle::assemble(v)))
        .vehicle;
  };
  const Eigen::VectorXd plain = start_of("mass"), other = start_of("pitch arm");
  CHECK(plain == other);
  CHECK(other[3] == Approx(0.002 * 30.0)); // the mass rises with the ramp
}
