// Vehicles in space: one mistake, one message; links beyond small motion; what can be left out.
#include "catch.hpp"
#include "said.hpp"
#include "vehicle_space_samples.hpp"
#include "wingnose/vehicle/space/link_force.hpp"
#include "wingnose/words/error.hpp"

#include <cmath>
#include <complex>
#include <functional>
#include <limits>
#include <string>

using namespace wingnose;
using namespace space_samples;

namespace {

std::string message_after(const std::function<void(SpatialVehicle&)>& mistake) {
  SpatialVehicle coach = preset("coach_1998");
  mistake(coach);
  return said::refusal<InputError>([&] { (void)assemble(coach); });
}

void check_says(const std::string& message, const std::string& part) {
  INFO(message);
  CHECK(said::has(message, part));
}

} // namespace

TEST_CASE("A sound vehicle in space assembles without complaint") {
  for (const std::string& name : preset_names()) {
    CHECK(said::refusal<InputError>([&] { (void)assemble(preset(name)); }).empty());
    CHECK(!preset(name).source.empty());
  }
}

TEST_CASE("A link's misspelt end is answered with the name that was meant") {
  const std::string message = message_after([](SpatialVehicle& v) { v.links[0].upper = "front bogey"; });
  check_says(message, "link[1].upper: unknown name \"front bogey\"");
  check_says(message, "Did you mean \"front bogie\"?");
  check_says(message_after([](SpatialVehicle& v) { v.links[0].lower = v.links[0].upper; }), "joined to itself");
  check_says(message_after([](SpatialVehicle& v) { v.bodies[1].name = "body"; }), "\"body\" used twice");
  check_says(message_after([](SpatialVehicle& v) { v.bodies[1].name = ""; }), "an empty name");
}

TEST_CASE("A vehicle whose links do not carry it is refused by the motion they leave free") {
  const auto without = [](std::size_t axis) {
    return message_after([axis](SpatialVehicle& v) {
      for (Link& link : v.links) {
        link.along[axis].stiffness = link.upper == "body" ? 0.0 : link.along[axis].stiffness;
      }
    });
  };
  check_says(without(2), "links of the vehicle: a motion that no link carries (body z)");
  check_says(without(1), "a motion that no link carries (body y");
  check_says(without(1), "hold that coordinate of the body");
  // Hung on one bogie alone, the body tips; so it does with its centre of gravity beyond the wheels.
  check_says(message_after([](SpatialVehicle& v) {
               std::erase_if(v.links, [](const Link& l) { return l.upper == "body" && l.lower == "rear bogie"; });
             }),
             "a static wheel load of");
  check_says(message_after([](SpatialVehicle& v) { v.bodies[0].y = 2.0; }), "a static wheel load of");
}

TEST_CASE("In space wheelsets are listed from the leading one backwards, starting at zero") {
  check_says(message_after([](SpatialVehicle& v) { v.wheelsets.clear(); }), "wheelsets of the vehicle: none");
  check_says(message_after([](SpatialVehicle& v) { v.wheelsets[0].x = -0.5; }), "x of wheelset[1]: -0.5 m");
  check_says(message_after([](SpatialVehicle& v) { std::swap(v.wheelsets[1], v.wheelsets[2]); }),
             "allowed: less than -19 m, the wheelset before it");
}

TEST_CASE("Values of a vehicle in space have their ranges") {
  const double no_number = std::numeric_limits<double>::quiet_NaN();
  check_says(message_after([](SpatialVehicle& v) { v.bodies[0].mass = 0.0; }), "body \"body\" mass: 0 kg");
  check_says(message_after([&](SpatialVehicle& v) { v.bodies[0].roll_inertia = no_number; }), "roll_inertia");
  check_says(message_after([](SpatialVehicle& v) { v.wheelsets[1].wheel[1].radius = 0.0; }),
             "wheel of wheelset \"wheelset 2\" radius: 0 m");
  check_says(message_after([](SpatialVehicle& v) { v.links[0].along[1].stiffness = -1.0; }),
             "link[1] along y stiffness: -1 N/m");
  check_says(message_after([](SpatialVehicle& v) { v.links[0].about[2].damping = -1.0; }), "link[1] about z damping");
  check_says(message_after([](SpatialVehicle& v) { v.links[0].axes_with_upper = 1.5; }), "axes_with_upper");
}

TEST_CASE("A link's parts need each other") {
  check_says(message_after([](SpatialVehicle& v) { v.links[0].along = {}; }), "link[1]: a link that does nothing");
  check_says(message_after([](SpatialVehicle& v) { v.links[0].along[2].damping = 0.0; }), "0 where damping is 0");
  check_says(message_after([](SpatialVehicle& v) { v.links[0].along[0].clearance = 0.01; }),
             "above 0 where there is a clearance");
  check_says(message_after([](SpatialVehicle& v) {
               v.links[0].along[0].blow_off_force = 3e3;
               v.links[0].along[0].blow_off_damping = 1e6;
             }),
             "below damping, 15000 N s/m");
  check_says(message_after([](SpatialVehicle& v) { v.links[0].along[2].blow_off_force = 3e3; }),
             "above 0 where the damper has a spring in series");
}

TEST_CASE("A preset that is not there is answered with those that are") {
  check_says(said::refusal<InputError>([] { (void)preset("coach_1989"); }), "coach_1998");
}

TEST_CASE("A stop pushes back beyond its clearance, either way") {
  const LinkDirection one{.stiffness = 160e3, .clearance = 0.025, .stop_stiffness = 600e3};
  CHECK(spring_force(one, 0.025) == Approx(4e3));
  CHECK(spring_force(one, 0.030) == Approx(160e3 * 0.030 + 600e3 * 0.005));
  CHECK(spring_force(one, -0.030) == -spring_force(one, 0.030));
  CHECK(spring_force({.stiffness = 1e3}, 0.5) == 500.0);
}

// Yaw damper of a table read in print: 300 kN s/m up to 3000 N at 0.01 m/s, then 20 kN s/m.
TEST_CASE("A damper gives way at its blow-off force, and its speed is known from its force") {
  const LinkDirection yaw{.damping = 300e3, .series_stiffness = 1e7, .blow_off_force = 3e3, .blow_off_damping = 20e3};
  CHECK(damper_force(yaw, 0.005) == Approx(1500.0));
  CHECK(damper_force(yaw, 0.01) == Approx(3000.0));
  CHECK(damper_force(yaw, 0.05) == Approx(3800.0));
  for (const double speed : {-0.2, -0.01, -0.003, 0.0, 0.004, 0.0100001, 0.3}) {
    CHECK(damper_speed(yaw, damper_force(yaw, speed)) == Approx(speed).margin(1e-12));
    CHECK(damper_force(yaw, -speed) == -damper_force(yaw, speed));
  }
}

TEST_CASE("Terms left out are left out, and matter where they are meant to") {
  const SpatialModel coach = assemble(preset("coach_1998"));
  const auto sway = [&](const Terms& terms) { return undamped_frequencies(wheelsets_held(coach, terms))[0]; };
  CHECK(sway({.geometric = true}) < sway({.geometric = false})); // the swayed weight pulls further
  CHECK(sway({.series = true}) == sway({.series = false}));      // undamped: dampers take no part
  const AnalyticContact contact{.conicity = 0.1, .roll_per_shift = 0.034};
  const auto with = [&](bool gyroscopic) {
    return growth_rate(running(coach, contact, 60.0, {.gyroscopic = gyroscopic}));
  };
  CHECK(with(true) != with(false));
  const AnalyticContact level{.conicity = 0.1};
  CHECK(growth_rate(running(coach, level, 60.0, {.gyroscopic = true})) ==
        growth_rate(running(coach, level, 60.0, {.gyroscopic = false}))); // without roll there are none
}

TEST_CASE("A vehicle that never hunts has no critical speed, one that always does the least asked for") {
  const SpatialModel coach = assemble(preset("coach_1998"));
  CHECK(!critical_speed(coach, {.conicity = 0.05}, {10.0, 30.0}));
  SpatialVehicle vehicle;
  vehicle.wheelsets = {lone_wheelset()};
  const auto free = critical_speed(assemble(vehicle), {.conicity = 0.1}, {5.0, 30.0});
  REQUIRE(free);
  CHECK(free->speed == 5.0);
}

TEST_CASE("Values of the analytic contact and of a run have their ranges") {
  const SpatialModel set = assemble(preset("wheelset"));
  check_says(said::refusal<InputError>([&] { (void)running(set, {.conicity = 0.0}, 10.0); }), "contact conicity: 0");
  check_says(said::refusal<InputError>([&] { (void)running(set, {}, 0.0); }), "speed");
  check_says(said::refusal<InputError>([&] { (void)hunt(set, {}, {.start = {1.0}}); }), "start of hunting: 1 numbers");
  check_says(said::refusal<ComputeError>([&] { (void)hunt(set, {}, {.speed = 1.0, .step = 5e-3}); }),
             "the step is too long for the creep's damping");
}

TEST_CASE("A shift that rolls the wheelset is told at rail level") {
  SpatialVehicle vehicle = preset("wheelset");
  const Hunting run{.duration = 0.01, .shift = 1e-3};
  const double roll = 0.034; // rad/m
  const HuntingHistory history = hunt(assemble(vehicle), {.roll_per_shift = roll}, run);
  CHECK(history.shift(0, 0) == Approx(1e-3 * (1.0 + 0.46 * roll)));
}
