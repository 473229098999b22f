// One mistake in a vehicle table, one message that names it.
#include "catch.hpp"
#include "wingnose/vehicle/vehicle.hpp"
#include "wingnose/words/error.hpp"

#include <functional>
#include <limits>
#include <string>

using namespace wingnose;
using namespace wingnose::vehicle;

namespace {

std::string message_after(const std::function<void(Vehicle&)>& mistake) {
  Vehicle coach = preset("coach");
  mistake(coach);
  try {
    (void)assemble(coach);
  } catch (const InputError& error) {
    return error.what();
  }
  return "no error";
}

bool says(const std::string& message, const std::string& part) {
  INFO(message);
  CHECK(message.find(part) != std::string::npos);
  return message.find(part) != std::string::npos;
}

} // namespace

TEST_CASE("A sound vehicle assembles without complaint") {
  CHECK(message_after([](Vehicle&) {}) == "no error");
}

TEST_CASE("A misspelt name in a suspension is answered with the name that was meant") {
  const std::string message = message_after([](Vehicle& v) { v.suspensions[0].upper = "front bogey"; });
  CHECK(says(message, "suspension[1].upper: unknown name \"front bogey\""));
  CHECK(says(message, "Did you mean \"front bogie\"?"));
  CHECK(says(message_after([](Vehicle& v) { v.suspensions[2].lower = "weel 3"; }), "Did you mean \"wheel"));
}

TEST_CASE("A name like no other gets the list instead of a guess") {
  const std::string message = message_after([](Vehicle& v) { v.suspensions[0].lower = "bolster"; });
  CHECK(says(message, "wheel 1, wheel 2, wheel 3, wheel 4, body, front bogie, rear bogie"));
  CHECK(message.find("Did you mean") == std::string::npos);
}

TEST_CASE("Names are given once") {
  CHECK(says(message_after([](Vehicle& v) { v.bodies[1].name = "body"; }), "\"body\" used twice"));
  CHECK(says(message_after([](Vehicle& v) { v.bodies[1].name = "wheel 1"; }), "\"wheel 1\" used twice"));
  CHECK(says(message_after([](Vehicle& v) { v.bodies[0].name = ""; }), "an empty name"));
}

TEST_CASE("Masses, radii, stiffnesses and dampings have their ranges") {
  CHECK(says(message_after([](Vehicle& v) { v.bodies[0].mass = 0.0; }), "mass of body \"body\": 0 kg"));
  CHECK(says(message_after([](Vehicle& v) { v.bodies[0].pitch_inertia = -1.0; }), "pitch inertia of body \"body\""));
  CHECK(says(message_after([](Vehicle& v) { v.wheels[1].unsprung_mass = -900.0; }),
             "unsprung mass of wheel \"wheel 2\": -900 kg"));
  CHECK(says(message_after([](Vehicle& v) { v.wheels[0].radius = 0.0; }), "radius of wheel \"wheel 1\""));
  CHECK(says(message_after([](Vehicle& v) { v.suspensions[0].stiffness = -1.0; }), "suspension[1].stiffness: -1 N/m"));
  CHECK(says(message_after([](Vehicle& v) { v.suspensions[0].damping = std::numeric_limits<double>::quiet_NaN(); }),
             "suspension[1].damping"));
  CHECK(says(message_after([](Vehicle& v) { v.bodies[0].x = std::numeric_limits<double>::infinity(); }),
             "x of body \"body\""));
  CHECK(says(message_after([](Vehicle& v) { v.suspensions[0].stiffness = v.suspensions[0].damping = 0.0; }),
             "suspension[1].stiffness_MN_m: 0 MN/m"));
}

TEST_CASE("Wheels are listed from the leading one backwards, starting at zero") {
  CHECK(says(message_after([](Vehicle& v) { v.wheels.clear(); }), "wheels of the vehicle: none"));
  CHECK(says(message_after([](Vehicle& v) { v.wheels[0].x = 1.0; }), "wheel[1].x_m: 1 m"));
  CHECK(says(message_after([](Vehicle& v) { std::swap(v.wheels[1], v.wheels[2]); }),
             "wheel[3].x_m: -2.56 m is not allowed; allowed: less than -19 m"));
  CHECK(says(message_after([](Vehicle& v) { v.wheels[1].x = 2.56; }), "x is negative behind it"));
}

TEST_CASE("A suspension joins two different things and acts at its wheel") {
  CHECK(says(message_after([](Vehicle& v) { v.suspensions[0].lower = "front bogie"; }),
             "\"front bogie\" joined to itself"));
  CHECK(says(message_after([](Vehicle& v) { v.suspensions[0].x = -2.56; }), "suspension[1].x_m: -2.56 m"));
}

TEST_CASE("A body that hangs in the air or on one point is named") {
  const std::string lost = message_after([](Vehicle& v) { v.suspensions.pop_back(); }); // body on the front bogie only
  CHECK(says(lost, "motion without support"));
  CHECK(says(lost, "body pitch"));
  const std::string loose = message_after([](Vehicle& v) { v.bodies.push_back({"parcel", 100.0, 0.0, -5.0}); });
  CHECK(says(loose, "motion without support (parcel heave)"));
  const std::string damped = message_after([](Vehicle& v) { v.suspensions.back().stiffness = 0.0; });
  CHECK(says(damped, "motion without support"));
}

TEST_CASE("A body whose x has the wrong sign tips over, and the message says which wheel lifts") {
  const std::string message = message_after([](Vehicle& v) { v.bodies[0].x = 10.78; });
  CHECK(says(message, "a static load of -"));
  CHECK(says(message, "x is negative behind the leading wheel"));
}

TEST_CASE("An unknown preset lists the known ones") {
  try {
    (void)preset("couch");
    FAIL("no error");
  } catch (const InputError& error) {
    CHECK(says(error.what(), "wheel, bogie, coach, wagon, locomotive"));
    CHECK(says(error.what(), "Did you mean \"coach\"?"));
  }
}

TEST_CASE("A single wheel cannot weigh less than its unsprung mass") {
  CHECK_THROWS_AS(single_wheel(8e3, 900.0, 1e6, 1e3, 0.46), InputError);
  CHECK_THROWS_AS(single_wheel(90e3, -1.0, 1e6, 1e3, 0.46), InputError);
  CHECK_THROWS_AS(single_wheel(90e3, 900.0, 0.0, 0.0, 0.46), InputError);
  CHECK_THROWS_AS(assemble(single_wheel(90e3, 900.0, 0.0, 1e3, 0.46)), InputError);
}
