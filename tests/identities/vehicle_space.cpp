// What every vehicle in space must obey: symmetry, balance of force and moment, energy, mirrors, its vertical half.
#include "catch.hpp"
#include "vehicle_space_samples.hpp"
#include "wingnose/words/frame.hpp"

#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

using namespace wingnose;
using namespace space_samples;

namespace {

// Nothing about it is regular: two wheelsets, a frame, a box off centre on three links, an engine inside.
SpatialVehicle odd_vehicle() {
  SpatialVehicle v;
  v.name = "odd";
  v.wheelsets = {lone_wheelset(1500, 900), lone_wheelset(1700, 1000)};
  v.wheelsets[0].name = "a";
  v.wheelsets[1].name = "b";
  v.wheelsets[1].x = -3.1;
  v.wheelsets[1].wheel = {WheelOfSet{.radius = 0.42}, WheelOfSet{.radius = 0.421}};
  v.bodies = {{"frame", 2500, 1500, 2000, 2900, -1.6, 0.03, 0.62},
              {"box", 9000, 9000, 2e4, 2.1e4, -1.4, -0.05, 1.7},
              {"engine", 800, 100, 150, 160, -0.7, 0.2, 1.2}};
  const auto link = [&](const char* upper, const char* lower, double x, double y, double z, double scale) {
    Link one{.upper = upper, .lower = lower, .x = x, .y = y, .z = z, .axes_with_upper = 0.3};
    one.along = {LinkDirection{.stiffness = 3e6 * scale, .damping = 1e4},
                 LinkDirection{.stiffness = 1e6 * scale, .damping = 2e4, .series_stiffness = 4e6},
                 LinkDirection{.stiffness = 8e5 * scale, .damping = 3e4}};
    one.about[0].stiffness = 1e4 * scale;
    one.about[2].damping = 1e3;
    v.links.push_back(one);
  };
  link("frame", "a", 0.1, 0.9, 0.5, 1.0);
  link("frame", "a", -0.1, -1.0, 0.47, 1.2);
  link("frame", "b", -3.0, 1.1, 0.5, 1.1);
  link("frame", "b", -3.1, -1.0, 0.52, 0.9);
  link("box", "frame", -0.4, 0.1, 0.9, 0.6);
  link("box", "frame", -2.6, 1.0, 0.95, 0.3);
  link("box", "frame", -2.3, -0.9, 0.8, 0.35);
  link("engine", "box", -0.6, 0.5, 1.1, 0.5);
  link("engine", "box", -0.8, -0.2, 1.0, 0.5);
  link("engine", "box", -0.9, 0.4, 1.4, 0.4);
  return v;
}

SpatialVehicle subject(const std::string& name) { return name == "odd" ? odd_vehicle() : preset(name); }

Eigen::Vector3d centre(const SpatialModel& model, int part) {
  if (part < model.wheelsets()) {
    const Wheelset& w = model.vehicle.wheelsets[static_cast<std::size_t>(part)];
    return {w.x, 0.0, w.height()};
  }
  const RigidBody& b = model.vehicle.bodies[static_cast<std::size_t>(part - model.wheelsets())];
  return {b.x, b.y, b.z};
}

// The whole vehicle moved and turned about the origin.
Eigen::VectorXd rigid(const SpatialModel& model, const Eigen::Vector3d& move, const Eigen::Vector3d& turn) {
  Eigen::VectorXd u(model.size());
  for (int part = 0; part < model.parts(); ++part) {
    u.segment<3>(index(part, Motion::x)) = move + turn.cross(centre(model, part));
    u.segment<3>(index(part, Motion::roll)) = turn;
  }
  return u;
}

// Axle boxes stay level, as nothing in the model pitches them: what is linked to them tells nothing of a turning about
// y.
bool on_axle_boxes(const SpatialModel& model, int part) {
  for (const Link& link : model.vehicle.links) {
    const int upper = model.part(link.upper), lower = model.part(link.lower);
    if ((upper == part || lower == part) && std::min(upper, lower) < model.wheelsets()) {
      return true;
    }
  }
  return part < model.wheelsets();
}

SpatialVehicle mirrored(SpatialVehicle v) {
  for (Wheelset& w : v.wheelsets) {
    std::swap(w.wheel[0], w.wheel[1]);
  }
  for (RigidBody& b : v.bodies) {
    b.y = -b.y;
  }
  for (Link& l : v.links) {
    l.y = -l.y;
  }
  return v;
}

// Which coordinates a mirror across the track's middle turns round.
Eigen::VectorXd mirror_signs(const SpatialModel& model) {
  Eigen::VectorXd out(model.size());
  for (int part = 0; part < model.parts(); ++part) {
    out.segment<6>(index(part, Motion::x)) << 1, -1, 1, -1, 1, -1;
  }
  return out;
}

double off(const Eigen::MatrixXd& a, const Eigen::MatrixXd& b) {
  return (a - b).cwiseAbs().maxCoeff() / std::max(a.cwiseAbs().maxCoeff(), 1e-300);
}

} // namespace

TEST_CASE("In space mass, damping and stiffness are symmetric, gyroscopic terms skew") {
  const SpatialModel model = assemble(subject(GENERATE(as<std::string>{}, "wheelset", "bogie", "coach_1998", "odd")));
  CHECK(off(model.K, model.K.transpose()) < 1e-14);
  CHECK(off(model.C, model.C.transpose()) < 1e-14);
  CHECK(off(model.geometric, model.geometric.transpose()) < 1e-14);
  CHECK(model.gyroscopic == -model.gyroscopic.transpose());
}

TEST_CASE("In space the wheels carry the weight, and its moments balance") {
  const SpatialModel model = assemble(subject(GENERATE(as<std::string>{}, "wheelset", "bogie", "coach_1998", "odd")));
  double weight = 0.0, along = 0.0, across = 0.0, carried = 0.0, along_carried = 0.0, across_carried = 0.0;
  for (int part = 0; part < model.parts(); ++part) {
    const double w = model.weight(index(part, Motion::z));
    weight += w;
    along += w * centre(model, part).x();
    across += w * centre(model, part).y();
  }
  for (int part = 0; part < model.wheelsets(); ++part) {
    const Wheelset& w = model.vehicle.wheelsets[static_cast<std::size_t>(part)];
    const auto& load = model.wheel_load[static_cast<std::size_t>(part)];
    carried += load[0] + load[1];
    along_carried += w.x * (load[0] + load[1]);
    across_carried += w.half_spacing * (load[0] - load[1]);
  }
  CHECK(carried == Approx(weight).epsilon(1e-12));
  CHECK(across_carried == Approx(across).margin(1e-9 * weight));
  if (model.vehicle.name != "odd") { // there the axle boxes, which cannot pitch, take moments too
    CHECK(along_carried == Approx(along).margin(1e-9 * weight));
  }
}

// Moved, nothing changes; turned by a small angle, the forces inside turn with the vehicle while its weight stays where
// it was: across, each part now lacks its weight times the angle. So preloads and geometric terms are in balance.
TEST_CASE("A vehicle turned as a whole turns the forces of its links, whatever share their axes take from either end") {
  SpatialVehicle vehicle = subject(GENERATE(as<std::string>{}, "bogie", "coach_1998", "odd"));
  const double share = GENERATE(0.0, 0.5, 1.0);
  for (Link& link : vehicle.links) {
    link.axes_with_upper = share;
    if (vehicle.name ==
        "odd") { // leaning to one side at rest; what moments its springs against turning carry is left out
      link.about[0].stiffness = 0.0;
    }
  }
  for (RigidBody& body : vehicle.bodies) {
    body.free = all_free;
  }
  if (vehicle.name == "bogie") { // the body above now needs two more supports
    vehicle.links.push_back(vehicle.links[4]);
    vehicle.links.back().x -= 1.0;
    vehicle.links.push_back(vehicle.links[5]);
    vehicle.links.back().x += 1.0;
  }
  const SpatialModel model = assemble(vehicle);
  const Eigen::MatrixXd K = model.K + model.geometric;
  const double size = model.K.cwiseAbs().maxCoeff();
  for (int axis = 0; axis < 3; ++axis) {
    const Eigen::Vector3d one = Eigen::Vector3d::Unit(axis);
    const Eigen::VectorXd moved = K * rigid(model, one, Eigen::Vector3d::Zero());
    const Eigen::VectorXd turned = K * rigid(model, Eigen::Vector3d::Zero(), one);
    const Eigen::VectorXd stretched = model.K * model.settled; // what the links ask of every part at rest
    for (int part = 0; part < model.parts(); ++part) {
      if (axis == 1 && on_axle_boxes(model, part)) {
        continue;
      }
      const Eigen::Vector3d force = stretched.segment<3>(index(part, Motion::x));
      const Eigen::Vector3d expected = one.cross(force);
      for (int k = 0; k < 3; ++k) {
        INFO(vehicle.name << ", share " << share << ", about axis " << axis << ", part " << part << ", axis " << k);
        CHECK(std::abs(moved(index(part, Motion::x) + k)) < 1e-9 * size);
        CHECK(turned(index(part, Motion::x) + k) == Approx(expected(k)).margin(1e-9 * size));
        if (part >= model.wheelsets()) { // at rest no moment acts on a body, so none may after turning
          CHECK(std::abs(turned(index(part, Motion::roll) + k)) < 1e-9 * size);
        }
      }
    }
  }
}

TEST_CASE("A vehicle's energy changes by what its dampers take, not by gyroscopic terms") {
  const SpatialModel model = assemble(subject(GENERATE(as<std::string>{}, "wheelset", "bogie", "coach_1998", "odd")));
  const bool damped = GENERATE(false, true);
  LinearSystem system = lifted(model, 40.0);
  if (!damped) {
    system.C = 0.5 * (system.C - system.C.transpose().eval());
    system.series.clear();
  }
  const Eigen::Index n = system.size();
  const Eigen::MatrixXd A = state_matrix(system);
  Eigen::VectorXd x(A.rows());
  for (Eigen::Index i = 0; i < x.size(); ++i) {
    x(i) = (i < n || i >= 2 * n ? 1e-3 : 0.1) * std::sin(1.7 * static_cast<double>(i * i) + 0.3);
  }
  const Eigen::VectorXd rate = A * x;
  const Eigen::VectorXd u = x.head(n), v = x.segment(n, n);
  double gained = v.dot(system.M * rate.segment(n, n)) + u.dot(system.K * v); // W, of kinetic and elastic energy
  double taken = v.dot(system.C * v);
  double flow = std::abs(u.dot(system.K * v));
  for (std::size_t i = 0; i < system.series.size(); ++i) {
    const SeriesDamper& damper = system.series[i];
    const auto at = 2 * n + static_cast<Eigen::Index>(i);
    const double force = damper.stiffness * (damper.stretch.dot(u) - x(at));
    gained += force * (damper.stretch.dot(v) - rate(at)); // of the spring in series
    taken += force * rate(at);
  }
  CHECK(std::abs(gained + taken) < 1e-10 * (flow + std::abs(taken)));
  CHECK((damped ? taken > 0.0 : std::abs(taken) < 1e-10 * flow));
}

TEST_CASE("A mirrored vehicle does the mirrored thing") {
  const SpatialVehicle odd = odd_vehicle();
  const SpatialModel model = assemble(odd), mirror = assemble(mirrored(odd));
  const Eigen::VectorXd signs = mirror_signs(model);
  const auto turned = [&](const Eigen::MatrixXd& m) { return signs.asDiagonal() * m * signs.asDiagonal(); };
  CHECK(off(mirror.K, turned(model.K)) < 1e-12);
  CHECK(off(mirror.C, turned(model.C)) < 1e-12);
  CHECK(off(mirror.geometric, turned(model.geometric)) < 1e-12);
  CHECK(off(mirror.gyroscopic, turned(model.gyroscopic)) < 1e-12);
  const AnalyticContact contact{.conicity = 0.2, .f23 = 2e4};
  const Lean left = lean(model, 0.5), right = lean(mirror, -0.5);
  for (std::size_t i = 0; i < left.wheel_load.size(); ++i) {
    CHECK(left.wheel_load[i][0] == Approx(right.wheel_load[i][1]).epsilon(1e-12));
  }
  const CurveRun one = steady_curve(model, contact, 1.0 / 600.0, 0.3);
  const CurveRun other = steady_curve(mirror, contact, -1.0 / 600.0, -0.3);
  CHECK(off(one.displacement, signs.asDiagonal() * other.displacement) < 1e-9);
}

TEST_CASE("Hunting to the left is hunting to the right, mirrored") {
  const SpatialModel bogie = assemble(cooperrider_bogie(1.074));
  Hunting run{.speed = 66.0, .duration = 2.0, .step = 0.5e-3, .shift = 9.5e-3, .stride = 10};
  const HuntingHistory left = hunt(bogie, cooperrider_contact(), run);
  run.shift = -run.shift;
  const HuntingHistory right = hunt(bogie, cooperrider_contact(), run);
  CHECK((left.shift + right.shift).cwiseAbs().maxCoeff() == 0.0);
  CHECK(left.shift.cwiseAbs().maxCoeff() > 1e-3);
}

// Saturation and flange let alone, small swings in time are those of the eigenvalues.
TEST_CASE("Small hunting in time grows or dies as the eigenvalues say") {
  const SpatialModel bogie = assemble(cooperrider_bogie(1.074));
  const double speed = GENERATE(60.0, 70.0);
  const LinearSystem system = running(bogie, cooperrider_contact(), speed);
  const double growth = growth_rate(system);
  CHECK((growth > 0.0) == (speed > 65.5));
  const auto swing = [&](double duration) { // largest in the last second, when all else has died
    const Hunting run{.speed = speed, .duration = duration, .step = 0.25e-3, .shift = 1e-7, .stride = 1};
    const HuntingHistory history = hunt(bogie, cooperrider_contact(), run);
    return history.shift.bottomRows(4000).cwiseAbs().maxCoeff();
  };
  const double factor = swing(9.0) / swing(6.0);
  CHECK(std::log(factor) / 3.0 == Approx(growth).epsilon(0.03)); // within a part of a swing in three seconds
}

TEST_CASE("The vertical half of the coach and of its bogie is the coach and the bogie of the vertical plane") {
  const std::pair<const char*, const char*> pairs[] = {{"coach_1998", "coach"}, {"bogie", "bogie"}};
  for (const auto& [space, plane] : pairs) {
    const vehicle::Vehicle half = vertical_half(preset(space)), known = vehicle::preset(plane);
    INFO(space);
    CHECK(half.bodies == known.bodies);
    CHECK(half.wheels == known.wheels);
    CHECK(half.suspensions == known.suspensions);
  }
}

// Without stiffness along the track, which couples pitch with heights, the vertical half is the vehicle in space.
TEST_CASE("Half of a symmetric vehicle's heave and pitch is its vertical half") {
  SpatialVehicle coach = preset("coach_1998");
  for (Link& link : coach.links) {
    link.along[0] = {};
    link.along[2].series_stiffness = 0.0;
  }
  std::erase_if(coach.links, [](const Link& link) {
    return !link.along[1].acts() && !link.along[2].acts() && link.about[0].stiffness == 0.0;
  });
  for (RigidBody& body : coach.bodies) {
    body.free[0] = body.free[5] = false;
  }
  const SpatialModel space = assemble(coach);
  const vehicle::VehicleModel plane = vehicle::assemble(vertical_half(coach));
  std::vector<int> at;
  std::vector<double> sign;
  for (int part = 0; part < space.parts(); ++part) {
    at.push_back(index(part, Motion::z));
    sign.push_back(1.0);
    if (part >= space.wheelsets()) {
      at.push_back(index(part, Motion::pitch));
      sign.push_back(-1.0); // the vertical plane counts the nose up
    }
  }
  const Eigen::Map<const Eigen::VectorXd> signs(sign.data(), static_cast<Eigen::Index>(sign.size()));
  const auto half = [&](const Eigen::MatrixXd& m) {
    return Eigen::MatrixXd(0.5 * signs.asDiagonal() * m(at, at) * signs.asDiagonal());
  };
  CHECK(off(plane.M, half(space.M)) < 1e-14);
  CHECK(off(plane.C, half(space.C)) < 1e-14);
  CHECK(off(plane.K, half(space.K)) < 1e-14);
  for (std::size_t i = 0; i < plane.static_load.size(); ++i) {
    CHECK(space.wheel_load[i][0] == Approx(plane.static_load[i]).epsilon(1e-12));
  }
}

// Both without creep to speak of: a mass on its springs, shifted and let go.
TEST_CASE("A wheelset that meets its stops swings with the period of the two stiffnesses") {
  constexpr double mass = 1813.0, inner = 1e6, stop = 4e6, clearance = 0.004, shift = 0.009;
  SpatialVehicle vehicle = sprung_wheelset(inner, 2e6);
  for (Link& link : vehicle.links) {
    link.along[1].clearance = clearance;
    link.along[1].stop_stiffness = stop / 2.0;
  }
  const Hunting run{.speed = 300.0, .duration = 3.0, .step = 1e-4, .shift = shift, .stride = 1};
  const HuntingHistory history = hunt(assemble(vehicle), {.conicity = 1e-4, .f11 = 1.0, .f22 = 1.0}, run);
  // Outside the clearance about the middle that both stiffnesses share, inside about zero.
  const double outer_rate = std::sqrt((inner + stop) / mass), inner_rate = std::sqrt(inner / mass);
  const double middle = stop * clearance / (inner + stop), reach = shift - middle;
  const double outside = std::acos((clearance - middle) / reach) / outer_rate;
  const double speed = reach * outer_rate * std::sin(outer_rate * outside);
  const double period = 4.0 * (outside + std::atan(clearance * inner_rate / speed) / inner_rate);
  std::vector<double> crossing;
  for (std::size_t i = 1; i < history.time.size(); ++i) {
    const auto k = static_cast<Eigen::Index>(i);
    const double before = history.shift(k - 1, 0), after = history.shift(k, 0);
    if (before < 0.0 && after >= 0.0) {
      crossing.push_back(history.time[i] - 1e-4 * after / (after - before));
    }
  }
  REQUIRE(crossing.size() > 10);
  CHECK((crossing.back() - crossing.front()) / static_cast<double>(crossing.size() - 1) ==
        Approx(period).epsilon(1e-5));
}

TEST_CASE("A damper that gives way slows a wheelset down by its blow-off force, with and without a spring in series") {
  constexpr double mass = 1813.0, force = 500.0, stiff = 1e5, soft = 2e3, start = 0.5; // kg, N, N s/m, m/s
  const double series = GENERATE(0.0, 1e7);
  SpatialVehicle vehicle = sprung_wheelset(1e-3, 1e-3);
  for (Link& link : vehicle.links) {
    link.along[1].damping = stiff;
    link.along[1].blow_off_force = force;
    link.along[1].blow_off_damping = soft;
    link.along[1].series_stiffness = series;
  }
  const SpatialModel model = assemble(vehicle);
  Hunting run{.speed = 300.0, .duration = 0.3, .step = 1e-4, .stride = 1000};
  run.start = {0.0, 0.0, start, 0.0}; // shift, yaw, their rates, then what is inside the dampers
  run.start.resize(4 + model.series.size(), 0.0);
  const HuntingHistory history = hunt(model, {.conicity = 1e-4, .f11 = 1.0, .f22 = 1.0}, run);
  // Two dampers hold it back by a + b v: what is left of the speed dies away towards -a / b.
  const double t = history.time.back(), b = 2.0 * soft, a = 2.0 * force - b * force / stiff;
  const double run_out = (start + a / b) * mass / b * (1.0 - std::exp(-b * t / mass)) - a * t / b;
  CHECK(history.shift(history.shift.rows() - 1, 0) == Approx(run_out).epsilon(1e-3));
  CHECK(run_out < 0.9 * start * t);
}
