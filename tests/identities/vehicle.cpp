// What every assembled vehicle must obey: symmetry, no force from rigid motion, weight carried, moments in balance.
#include "wingnose/vehicle/vehicle.hpp"
#include "catch.hpp"
#include "wingnose/words/frame.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <string>
#include <vector>

using namespace wingnose;
using namespace wingnose::vehicle;

namespace {

// Nothing about it is regular: three wheels under a frame, a box on it off centre, an engine hung inside the box.
Vehicle odd_vehicle() {
  return {"odd",
          {{"frame", 2500.0, 6000.0, -2.3}, {"box", 7000.0, 9000.0, -1.9}, {"engine", 1200.0, 0.0, -1.2}},
          {{"a", 600.0, 0.0, 0.4}, {"b", 650.0, -1.7, 0.4}, {"c", 700.0, -4.6, 0.45}},
          {{"frame", "a", 0.1, 1.0e6, 4e3},
           {"frame", "b", -1.6, 1.4e6, 5e3},
           {"frame", "c", -4.6, 0.9e6, 6e3},
           {"box", "frame", -0.5, 5e5, 2e4},
           {"box", "frame", -3.9, 4e5, 1e4},
           {"engine", "box", -1.2, 3e6, 2e3}},
          "invented"};
}

Vehicle subject(const std::string& name) { return name == "odd" ? odd_vehicle() : preset(name); }

// The rigid motion that lifts every point by lift(x); a pitch coordinate turns by `turn`.
Eigen::VectorXd rigid(const Vehicle& vehicle, double heave, double turn) {
  std::vector<double> u;
  for (const Wheel& wheel : vehicle.wheels) {
    u.push_back(heave + turn * wheel.x);
  }
  for (const Body& body : vehicle.bodies) {
    u.push_back(heave + turn * body.x);
    if (body.pitch_inertia > 0.0) {
      u.push_back(turn);
    }
  }
  return Eigen::Map<Eigen::VectorXd>(u.data(), static_cast<Eigen::Index>(u.size()));
}

// Where each suspension of a wheel acts exactly at the wheel, so that a wheel's missing pitch costs nothing.
bool acts_at_wheels(const Vehicle& vehicle) { return vehicle.name != "odd"; }

} // namespace

TEST_CASE("Mass, damping and stiffness are symmetric") {
  const std::string name = GENERATE(as<std::string>{}, "wheel", "bogie", "coach", "wagon", "locomotive", "odd");
  const VehicleModel model = assemble(subject(name));
  CHECK(model.M == model.M.transpose());
  CHECK(model.C == model.C.transpose());
  CHECK(model.K == model.K.transpose());
}

TEST_CASE("Lifting or tilting the whole vehicle strains no spring and no damper") {
  const std::string name = GENERATE(as<std::string>{}, "wheel", "bogie", "coach", "wagon", "locomotive", "odd");
  const Vehicle vehicle = subject(name);
  const VehicleModel model = assemble(vehicle);
  const double scale = model.K.cwiseAbs().maxCoeff();
  const double damping_scale = model.C.cwiseAbs().maxCoeff();
  const Eigen::VectorXd lifted = rigid(vehicle, 1.0, 0.0);
  CAPTURE(name);
  CHECK((model.K * lifted).cwiseAbs().maxCoeff() < 1e-13 * scale);
  CHECK((model.C * lifted).cwiseAbs().maxCoeff() < 1e-13 * damping_scale);
  if (acts_at_wheels(vehicle)) {
    const Eigen::VectorXd tilted = rigid(vehicle, 0.0, 1.0);
    const double reach = tilted.cwiseAbs().maxCoeff();
    CHECK((model.K * tilted).cwiseAbs().maxCoeff() <= 1e-13 * scale * reach);
    CHECK((model.C * tilted).cwiseAbs().maxCoeff() <= 1e-13 * damping_scale * reach);
  }
}

TEST_CASE("The wheels together carry the weight, and its moment") {
  const std::string name = GENERATE(as<std::string>{}, "wheel", "bogie", "coach", "wagon", "locomotive", "odd");
  const Vehicle vehicle = subject(name);
  const VehicleModel model = assemble(vehicle);
  double weight = 0.0;
  double moment = 0.0; // about the leading wheel
  for (const Wheel& wheel : vehicle.wheels) {
    weight += wheel.unsprung_mass * gravity;
    moment += wheel.unsprung_mass * gravity * wheel.x;
  }
  for (const Body& body : vehicle.bodies) {
    weight += body.mass * gravity;
    moment += body.mass * gravity * body.x;
  }
  const double carried = std::accumulate(model.static_load.begin(), model.static_load.end(), 0.0);
  CAPTURE(name);
  CHECK(carried == Approx(weight).epsilon(1e-12));
  CHECK(model.weight.sum() == Approx(weight).epsilon(1e-12));
  if (acts_at_wheels(vehicle)) {
    const double resisting =
        std::inner_product(model.static_load.begin(), model.static_load.end(), model.wheel_x.begin(), 0.0);
    CHECK(resisting == Approx(moment).epsilon(1e-12).margin(1e-9));
  }
}

TEST_CASE("A vehicle turned around carries the same loads in reverse and sounds the same") {
  const Vehicle ahead = odd_vehicle();
  Vehicle turned = ahead;
  const double last = ahead.wheels.back().x;
  std::reverse(turned.wheels.begin(), turned.wheels.end());
  for (Wheel& wheel : turned.wheels) {
    wheel.x = last - wheel.x;
  }
  for (Body& body : turned.bodies) {
    body.x = last - body.x;
  }
  for (Suspension& element : turned.suspensions) {
    element.x = last - element.x;
  }
  const VehicleModel a = assemble(ahead);
  const VehicleModel b = assemble(turned);
  for (std::size_t i = 0; i < a.static_load.size(); ++i) {
    CHECK(a.static_load[i] == Approx(b.static_load[a.static_load.size() - 1 - i]).epsilon(1e-11));
  }
  const std::vector<Mode> mode_a = modes(a, true);
  const std::vector<Mode> mode_b = modes(b, true);
  REQUIRE(mode_a.size() == mode_b.size());
  for (std::size_t i = 0; i < mode_a.size(); ++i) {
    CHECK(mode_a[i].frequency == Approx(mode_b[i].frequency).epsilon(1e-10));
    CHECK(mode_a[i].damping_ratio == Approx(mode_b[i].damping_ratio).epsilon(1e-9));
  }
}

TEST_CASE("Without dampers the damped analysis finds the undamped frequencies and no damping") {
  const std::string name = GENERATE(as<std::string>{}, "bogie", "coach", "wagon", "locomotive", "odd");
  const bool held = GENERATE(true, false);
  Vehicle vehicle = subject(name);
  for (Suspension& element : vehicle.suspensions) {
    element.damping = 0.0;
  }
  const VehicleModel model = assemble(vehicle);
  const std::vector<Mode> damped = modes(model, held);
  const std::vector<double> undamped = undamped_frequencies(model, held);
  CAPTURE(name, held);
  REQUIRE(damped.size() == undamped.size());
  for (std::size_t i = 0; i < damped.size(); ++i) {
    CHECK(damped[i].frequency == Approx(undamped[i]).epsilon(1e-9).margin(1e-12));
    CHECK(damped[i].damping_ratio == Approx(0.0).margin(1e-9));
  }
}

TEST_CASE(
    "A coach off its track has four motions without frequency: lift, tilt, and each bogie seesawing on its wheels") {
  const VehicleModel coach = assemble(preset("coach"));
  for (const Mode& mode : modes(coach, true)) {
    CHECK(mode.frequency > 0.5);
  }
  const std::vector<Mode> free = modes(coach, false);
  REQUIRE(free.size() > 4);
  for (std::size_t i = 0; i < 4; ++i) {
    CHECK(free[i].frequency == 0.0);
  }
  CHECK(free[4].frequency > 0.5);
}

TEST_CASE("Static displacement holds the bodies in balance with the wheels on rigid track") {
  const VehicleModel model = assemble(odd_vehicle());
  const Eigen::VectorXd u = static_displacement(model);
  const Eigen::VectorXd rest = model.K * u + model.weight; // what must come from the rail
  for (Eigen::Index i = 0; i < model.wheels(); ++i) {
    CHECK(u(i) == 0.0);
  }
  const double bodies = rest.tail(rest.size() - model.wheels()).cwiseAbs().maxCoeff();
  CHECK(bodies < 1e-10 * model.weight.sum());
}
