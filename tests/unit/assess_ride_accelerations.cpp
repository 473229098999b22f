// What accelerometers on a vehicle in space show: of motions that are known, and of a ride.
#include "catch.hpp"

#include "wingnose/assess/measures.hpp"
#include "wingnose/assess/ride_accelerations.hpp"
#include "wingnose/profile/rail.hpp"
#include "wingnose/vehicle/space/presets.hpp"
#include "wingnose/words/frame.hpp"

#include <algorithm>
#include <cmath>

using namespace wingnose;
namespace space = passage::space;

namespace {

constexpr double pi = 3.14159265358979323846;

space::Rolling coach() { return space::rolling(vehicle::space::preset("coach_1998"), profile::s1002()); }
space::Ground plain() { return space::plain_track(profile::rail_head("60E1", std::atan(1.0 / 40.0))); }
space::Ground curve(double curvature, double cant) {
  space::Ground ground = plain();
  ground.route =
      layout::turnout::Route(20.0, {{400.0, 0.0, curvature, 0.0, cant}, {1e4, curvature, curvature, cant, cant}});
  return ground;
}

const assess::PartAcceleration& of(const std::vector<assess::PartAcceleration>& list, const std::string& name) {
  const auto found = std::find_if(list.begin(), list.end(), [&](const auto& one) { return one.name == name; });
  REQUIRE(found != list.end());
  return *found;
}

// All parts of the coach swing alike, up and down, at 25 m/s; every fifth step is twice as long.
space::SpaceHistory swinging(double frequency, double amplitude) {
  space::SpaceHistory h;
  constexpr double step = 5e-4, speed = 25.0; // s, m/s
  for (double t = 0.0; t < 4.0; t += h.time.size() % 5 == 0 ? 2.0 * step : step) {
    h.time.push_back(t);
    h.station.push_back(speed * t);
  }
  const auto rows = static_cast<Eigen::Index>(h.time.size());
  h.shift = Eigen::MatrixXd::Zero(rows, 4);
  for (Eigen::MatrixXd* m : {&h.shift_rate, &h.rise_rate, &h.roll_rate, &h.part_roll}) {
    *m = Eigen::MatrixXd::Zero(rows, 7);
  }
  const double omega = 2.0 * pi * frequency;
  for (Eigen::Index row = 0; row < rows; ++row) {
    h.rise_rate.row(row).setConstant(amplitude * omega * std::cos(omega * h.time[static_cast<std::size_t>(row)]));
  }
  return h;
}

} // namespace

TEST_CASE("Of a swing of known amplitude each part shows what its low-pass leaves") {
  constexpr double amplitude = 1e-3; // m
  const space::Rolling rolling = coach();
  for (const double frequency : {2.0, 10.0, 25.0, 50.0}) {
    const auto list = assess::accelerations(swinging(frequency, amplitude), rolling, plain());
    const double whole = amplitude * std::pow(2.0 * pi * frequency, 2);
    // Butterworth of order 2, run twice.
    const auto left = [&](double cut_off) { return whole / (1.0 + std::pow(frequency / cut_off, 4)); };
    INFO(frequency);
    if (frequency < 50.0) { // of which a thousandth is left, and an end is felt by as much
      CHECK(*of(list, "body").vertical == Approx(left(10.0)).epsilon(0.02));
    }
    CHECK(*of(list, "front bogie").vertical == Approx(left(100.0)).epsilon(0.02));
    CHECK(*of(list, "body").lateral == 0.0);
  }
}

TEST_CASE("Car bodies carry nothing, frames do; axle boxes are told on rails that bend") {
  const space::Rolling rolling = coach();
  space::SpaceHistory h = swinging(2.0, 1e-3);
  auto list = assess::accelerations(h, rolling, plain());
  CHECK(list.size() == 3);
  CHECK(of(list, "body").part == assess::VehiclePart::car_body);
  CHECK(of(list, "rear bogie").part == assess::VehiclePart::frame);
  h.rails_bend = true;
  list = assess::accelerations(h, rolling, plain());
  CHECK(list.size() == 7);
  CHECK(*of(list, "wheelset 4").vertical == Approx(1e-3 * std::pow(4.0 * pi, 2)).epsilon(0.01));
  const space::Rolling bogie = space::rolling(vehicle::space::preset("bogie"), profile::s1002());
  const space::SpaceHistory run = simulate(bogie, plain(), {.speed = 20.0, .length = 12.0, .step = 4e-4, .stride = 1});
  CHECK(of(assess::accelerations(run, bogie, plain()), "body").vertical); // which is held in all but its heave
  CHECK_FALSE(of(assess::accelerations(run, bogie, plain()), "body").lateral);
  const space::SpaceHistory brief = simulate(bogie, plain(), {.speed = 20.0, .length = 5.0, .step = 4e-4, .stride = 1});
  CHECK_FALSE(of(assess::accelerations(brief, bogie, plain()), "body").vertical); // three periods of 10 Hz are 6 m
  CHECK(of(assess::accelerations(brief, bogie, plain()), "bogie").vertical);
}

TEST_CASE("In a curve a car body shows what cant leaves of the centrifugal acceleration, and the gravity of its lean") {
  constexpr double radius = 500.0, speed = 25.0, cant = 0.06; // m, m/s, m
  const space::Ground ground = curve(1.0 / radius, cant);
  const space::Rolling rolling = coach();
  const space::SpaceHistory run =
      simulate(rolling, ground, {.speed = speed, .begin = 0.0, .length = 500.0, .step = 4e-4, .stride = 2});
  const auto list = assess::accelerations(run, rolling, ground);
  const double angle = std::asin(cant / 1.5), towards = speed * speed / radius;
  const double left = towards * std::cos(angle) - gravity * std::sin(angle);
  const double lean = run.part_roll(run.part_roll.rows() - 1, 4);
  CAPTURE(left, lean);
  CHECK(lean > 5e-3); // outward
  CHECK(*of(list, "body").lateral == Approx(left + gravity * lean).epsilon(0.02));
  CHECK(*of(list, "body").vertical ==
        Approx(towards * std::sin(angle) - gravity * (1.0 - std::cos(angle))).epsilon(0.05));
}

TEST_CASE("Speeds kept of a ride are those of the places kept, and their acceleration that of forces over masses") {
  // A coach set down aside: wheelsets swing back.
  const space::Rolling rolling = coach();
  const space::SpaceHistory run = simulate(
      rolling, plain(), {.speed = 30.0, .begin = 0.0, .length = 20.0, .step = 2e-4, .stride = 1, .shift = 3e-3});
  double most = 0.0, force = 0.0, by_masses = 0.0;
  for (Eigen::Index k = 200; k + 1 < run.shift.rows(); ++k) {
    const double step = run.time[static_cast<std::size_t>(k + 1)] - run.time[static_cast<std::size_t>(k)];
    for (Eigen::Index set = 0; set < 4; ++set) {
      const double speed = (run.shift(k + 1, set) - run.shift(k - 1, set)) / (2.0 * step);
      most = std::max(most, std::abs(speed - run.shift_rate(k, set)));
    }
    double all = 0.0; // N, mass times acceleration of all parts, between the instants
    for (Eigen::Index part = 0; part < 7; ++part) {
      const auto& table = rolling.model.vehicle;
      const double mass = part < 4 ? table.wheelsets[static_cast<std::size_t>(part)].mass
                                   : table.bodies[static_cast<std::size_t>(part - 4)].mass;
      all += mass * (run.shift_rate(k + 1, part) - run.shift_rate(k, part)) / step;
    }
    const double given = -0.5 * (run.Y.row(k).sum() + run.Y.row(k + 1).sum());
    force = std::max(force, std::abs(given));
    by_masses = std::max(by_masses, std::abs(all - given));
  }
  CHECK(most < 0.01 * run.shift_rate.cwiseAbs().maxCoeff());
  CHECK(force > 100.0);
  CHECK(by_masses < 0.02 * force);
}
