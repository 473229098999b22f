#include "wingnose/vehicle/vehicle.hpp"
#include "catch.hpp"
#include "wingnose/words/error.hpp"
#include "wingnose/words/frame.hpp"

#include <boost/math/constants/constants.hpp>

#include <cmath>
#include <string>

using namespace wingnose;
using namespace wingnose::vehicle;

namespace {

constexpr double two_pi = boost::math::constants::two_pi<double>();

// A rigid body on three wheels: one support more than equilibrium can tell apart.
Vehicle three_wheels(double middle_stiffness) {
  return {"trolley",
          {{"frame", 6000.0, 5000.0, -2.0}},
          {{"front", 500.0, 0.0, 0.4}, {"middle", 500.0, -2.0, 0.4}, {"rear", 500.0, -4.0, 0.4}},
          {{"frame", "front", 0.0, 1e6, 1e3},
           {"frame", "middle", -2.0, middle_stiffness, 1e3},
           {"frame", "rear", -4.0, 1e6, 1e3}},
          "invented"};
}

} // namespace

TEST_CASE("A body between two springs loads the nearer one more, by the lever rule") {
  const Vehicle cart{"cart",
                     {{"box", 1000.0, 800.0, -1.0}},
                     {{"front", 100.0, 0.0, 0.4}, {"rear", 100.0, -4.0, 0.4}},
                     {{"box", "front", 0.0, 2e5, 0.0}, {"box", "rear", -4.0, 7e5, 0.0}},
                     "invented"};
  const VehicleModel model = assemble(cart);
  CHECK(model.static_load[0] == Approx((100.0 + 750.0) * gravity).epsilon(1e-12));
  CHECK(model.static_load[1] == Approx((100.0 + 250.0) * gravity).epsilon(1e-12));
}

TEST_CASE("A third support shares the load by stiffness") {
  const double k = GENERATE(1e5, 1e6, 4e6);
  const VehicleModel model = assemble(three_wheels(k));
  // Symmetric, so the frame sinks level: every spring carries its share of the total stiffness.
  const double weight = 6000.0 * gravity;
  CHECK(model.static_load[1] - 500.0 * gravity == Approx(weight * k / (2e6 + k)).epsilon(1e-12));
  CHECK(model.static_load[0] - 500.0 * gravity == Approx(weight * 1e6 / (2e6 + k)).epsilon(1e-12));
}

TEST_CASE("A point ahead of the centre rises when the nose of the body rises") {
  const VehicleModel model = assemble(three_wheels(1e6));
  REQUIRE(model.coordinate[3] == "frame heave");
  REQUIRE(model.coordinate[4] == "frame pitch");
  // Pitching the frame alone by phi lifts the front spring's top by 2 phi; the spring pulls its wheel up by k 2 phi.
  Eigen::VectorXd u = Eigen::VectorXd::Zero(5);
  u(4) = 1e-3;
  const Eigen::VectorXd needed = model.K * u; // external forces holding this shape
  CHECK(needed(0) == Approx(-1e6 * 2e-3));
  CHECK(needed(1) == Approx(0.0).margin(1e-9));
  CHECK(needed(2) == Approx(1e6 * 2e-3));
}

TEST_CASE("A single wheel bounces as a mass on a spring and damper") {
  const VehicleModel model = assemble(single_wheel(90e3, 900.0, 1.22e6, 40e3, 0.46));
  const double mass = 90e3 / gravity - 900.0;
  CHECK(model.static_load[0] == Approx(90e3).epsilon(1e-13));
  const double omega = std::sqrt(1.22e6 / mass);
  REQUIRE(undamped_frequencies(model, true).size() == 1);
  CHECK(undamped_frequencies(model, true)[0] == Approx(omega / two_pi).epsilon(1e-12));
  const std::vector<Mode> mode = modes(model, true);
  REQUIRE(mode.size() == 1);
  CHECK(mode[0].frequency == Approx(omega / two_pi).epsilon(1e-12));
  CHECK(mode[0].damping_ratio == Approx(40e3 / (2.0 * mass * omega)).epsilon(1e-12));
  CHECK(mode[0].dominant == "sprung mass heave");
}

TEST_CASE("An overdamped mass shows its two decay rates") {
  const double mass = 90e3 / gravity - 900.0;
  const double omega = std::sqrt(1.22e6 / mass);
  const double zeta = 1.5;
  const std::vector<Mode> mode =
      modes(assemble(single_wheel(90e3, 900.0, 1.22e6, 2.0 * zeta * mass * omega, 0.46)), true);
  REQUIRE(mode.size() == 2);
  const double root = std::sqrt(zeta * zeta - 1.0);
  CHECK(mode[0].frequency == Approx(omega * (zeta - root) / two_pi).epsilon(1e-10));
  CHECK(mode[1].frequency == Approx(omega * (zeta + root) / two_pi).epsilon(1e-10));
  CHECK(mode[0].damping_ratio == Approx(1.0));
  CHECK(mode[1].damping_ratio == Approx(1.0));
}

TEST_CASE("A wheel that carries nothing above it is a vehicle too") {
  const VehicleModel model = assemble({"bare wheel", {}, {{"wheel", 900.0, 0.0, 0.46}}, {}, "invented"});
  CHECK(model.static_load[0] == Approx(900.0 * gravity).epsilon(1e-13));
  CHECK(modes(model, true).empty());
  CHECK(undamped_frequencies(model, true).empty());
  CHECK(undamped_frequencies(model, false) == std::vector<double>{0.0});
}

TEST_CASE("The preset wheel is the one of the track studies") {
  const Vehicle wheel = preset("wheel");
  CHECK(assemble(wheel).static_load[0] == Approx(90e3).epsilon(1e-13));
  CHECK(wheel.wheels.front().unsprung_mass == 900.0);
}

TEST_CASE("A bogie carries its share of the coach and bounces at the coach's frequencies") {
  const VehicleModel bogie = assemble(preset("bogie"));
  const VehicleModel coach = assemble(preset("coach"));
  for (const double load : bogie.static_load) {
    CHECK(load == Approx(coach.static_load[0]).epsilon(1e-12));
  }
  CHECK(undamped_frequencies(bogie, true)[0] == Approx(undamped_frequencies(coach, true)[0]).epsilon(1e-12));
}

TEST_CASE("Every preset says where its values come from") {
  for (const std::string& name : preset_names()) {
    CAPTURE(name);
    CHECK(preset(name).name == name);
    CHECK(preset(name).source.size() > 20);
    CHECK(preset(name).wheels.front().x == 0.0);
  }
}
