// The coach of the 1998 benchmark in space: weight, natural frequencies and damping with its wheelsets held, leaning in
// a curve.
#include "published/scoreboard.hpp"
#include "vehicle_space_samples.hpp"
#include "wingnose/words/frame.hpp"

#include <boost/math/constants/constants.hpp>

#include <cmath>
#include <complex>
#include <string>
#include <vector>

using namespace wingnose;
using namespace space_samples;

namespace {

const Source source{Trust::worked, "two linear models worked apart, data of Iwnicki 1998, recalled (high, medium)"};

struct Row {
  const char* what;
  double value;
};

} // namespace

TEST_CASE("In space the coach weighs what its parts weigh, each wheel an eighth of it") {
  const SpatialModel coach = assemble(preset("coach_1998"));
  double mass = 0.0, moment = 0.0;
  for (int part = 0; part < coach.parts(); ++part) {
    mass += coach.M(index(part, Motion::z), index(part, Motion::z));
  }
  for (const Wheelset& w : coach.vehicle.wheelsets) {
    moment += w.mass * w.height();
  }
  for (const RigidBody& b : coach.vehicle.bodies) {
    moment += b.mass * b.z;
  }
  score("coach in space, total mass, kg", mass, 44482.0, 1e-5, source);
  score("coach in space, height of its centre of gravity, m", moment / mass, 1.44045, 1e-5, source);
  for (const auto& pair : coach.wheel_load) {
    for (const double load : pair) {
      score("coach in space, static wheel load, kN", load / 1e3, 54.546, 1e-5, source);
    }
  }
}

TEST_CASE("In space the coach swings at the frequencies worked from its data") {
  const Row rows[] = {{"lower sway", 0.5957},
                      {"body yaw", 0.8551},
                      {"body bounce", 1.0739},
                      {"upper sway", 1.2742},
                      {"body pitch", 1.2810},
                      {"body surge", 2.8594},
                      {"bogie bounce, together", 7.4705},
                      {"bogie bounce, opposed", 7.4773},
                      {"bogie roll, opposed", 9.6267},
                      {"bogie roll, together", 9.6433},
                      {"bogie pitch, opposed", 11.6094},
                      {"bogie pitch, together", 11.6163},
                      {"bogie shift, together", 12.8034},
                      {"bogie shift, opposed", 12.8058},
                      {"bogie yaw, first", 35.3539},
                      {"bogie yaw, second", 35.3539},
                      {"bogie surge, first", 36.2322},
                      {"bogie surge, second", 36.2367}};
  const auto found = undamped_frequencies(wheelsets_held(assemble(preset("coach_1998")), bare));
  REQUIRE(found.size() == std::size(rows));
  for (std::size_t i = 0; i < found.size(); ++i) {
    score(std::string("coach in space, ") + rows[i].what + ", Hz", found[i], rows[i].value, 1e-4, source);
  }
}

TEST_CASE("In space the coach's modes are damped as worked, with dampers held stiffly and by springs in series") {
  struct Damped {
    const char* what;
    double frequency, ratio;
  };
  const SpatialModel coach = assemble(preset("coach_1998"));
  const auto near = [](const std::vector<SpaceMode>& all, const std::string& dominant, double frequency) {
    for (const SpaceMode& mode : all) {
      if (mode.dominant.find(dominant) != std::string::npos && mode.frequency > 0.98 * frequency &&
          mode.frequency < 1.02 * frequency && mode.damping_ratio < 0.9) {
        return mode;
      }
    }
    return SpaceMode{};
  };
  const auto stiff = modes(wheelsets_held(coach, bare));
  for (const Damped& row :
       {Damped{"body z", 1.0802, 0.1345}, Damped{"body pitch", 1.2924, 0.1592}, Damped{"body y", 0.6498, 0.2146},
        Damped{"body yaw", 0.8664, 0.5261}, Damped{"body roll", 1.1860, 0.4021},
        Damped{"front bogie z", 7.4113, 0.2406}, Damped{"front bogie pitch", 11.6096, 0.1196}}) {
    score(std::string("coach in space, damping ratio of ") + row.what,
          near(stiff, row.what, row.frequency).damping_ratio, row.ratio, 1e-3, source);
  }
  Terms terms = bare;
  terms.series = true;
  const auto soft = modes(wheelsets_held(coach, terms));
  for (const Damped& row :
       {Damped{"body y", 0.6526, 0.2110}, Damped{"body yaw", 0.8812, 0.5337}, Damped{"body z", 1.0835, 0.1346},
        Damped{"body roll", 1.2075, 0.4156}, Damped{"body pitch", 1.2982, 0.1593},
        Damped{"front bogie z", 7.7457, 0.2464}, Damped{"front bogie pitch", 12.0178, 0.1130}}) {
    const SpaceMode found = near(soft, row.what, row.frequency);
    const std::string what = std::string("coach in space, dampers in series, ") + row.what;
    score(what + ", Hz", found.frequency, row.frequency, 1e-4, source);
    score(what + ", damping ratio", found.damping_ratio, row.ratio, 1e-3, source);
  }
}

// The reference subtracts m g h from the body's roll stiffness and leaves out what the same preload does to the bogies:
// that part of our geometric terms, with links whose axes stay with the bogies, has to be the same.
TEST_CASE("The weight of the rolled body lowers the coach's sway as worked") {
  SpatialVehicle vehicle = preset("coach_1998");
  for (Link& link : vehicle.links) {
    link.axes_with_upper = 0.0;
  }
  SpatialModel coach = assemble(vehicle);
  const int body = coach.part("body"), roll = index(body, Motion::roll);
  const Eigen::Index first = index(body, Motion::x);
  const Eigen::MatrixXd of_body = coach.geometric.block(first, first, motions, motions);
  score("coach, roll stiffness lost to the body's weight, kN m", -of_body(3, 3) / 1e3,
        32000.0 * gravity * (1.8 - 0.83) / 1e3, 1e-9, {Trust::worked, "m g h"});
  coach.geometric.setZero();
  coach.geometric.block(first, first, motions, motions) = of_body;
  const auto found = undamped_frequencies(wheelsets_held(coach, {.geometric = true, .series = false}));
  score("coach, lower sway with the body's weight, Hz", found[0], 0.5819, 1e-4, source);
  score("coach, upper sway with the body's weight, Hz", found[3], 1.2266, 1e-4, source);
  const double deficiency = 0.1 / 1.5;
  const Lean run = lean(coach, gravity * deficiency);
  double swayed = 0.0;
  for (int part = coach.wheelsets(); part < coach.parts(); ++part) {
    swayed -= coach.weight(index(part, Motion::z)) * run.displacement(index(part, Motion::y));
  }
  score("coach, wheel unloading at 100 mm deficiency with the body's weight",
        2.0 * 1.44045 * 0.1 / (1.5 * 1.5) + 2.0 * swayed / (1.5 * coach.weight.sum()), 0.1705, 1e-4, source);
  score("coach, flexibility coefficient with the body's weight", run.displacement(roll) / deficiency, 0.14524, 1e-4,
        source);
}

TEST_CASE(
    "Dipped on one rail, the coach's wheelset yaws by its gyroscopic moment and gives way like less than itself") {
  const SpatialModel coach = assemble(preset("coach_1998"));
  const double speed = 44.70, dip = 0.02, across = 1.5; // m/s, rad, m
  const double moment = std::abs(speed * coach.gyroscopic(index(0, Motion::yaw), index(0, Motion::roll)));
  score("coach, yaw moment per roll rate, N m s", moment, 10883.5, 1e-4, {Trust::worked, "Iyy V / r"});
  score("coach, yaw moment over a dip of one rail, N m", moment * dip * speed / across, 6486.55, 1e-3,
        {Trust::worked, "Iyy V / r times the dip's speed over 1.5 m"});
  const double mass = coach.M(index(0, Motion::z), index(0, Motion::z));
  const double inertia = coach.M(index(0, Motion::roll), index(0, Motion::roll)), l = across / 2.0;
  score("coach, mass of a wheelset seen by one wheel, kg", 1.0 / (1.0 / mass + l * l / inertia), 948.943, 1e-5,
        {Trust::worked, "1 / (1 / m + l^2 / Ixx)"});
}

TEST_CASE("A damper with a spring in series stores and takes energy as Maxwell's element does") {
  struct Row {
    const char* what;
    double stiffness, damping, frequency, stores, takes;
  };
  const Source source_of_maxwell{Trust::worked, "1 / (1 / k + 1 / (i w c))"};
  for (const Row& row : {Row{"secondary vertical", 6e6, 20e3, 1.074, 3034.30, 19989.90},
                         Row{"primary vertical", 1e6, 4e3, 7.4705, 34051.30, 3863.79},
                         Row{"secondary lateral", 6e6, 32e3, 0.5957, 2390.0, 31987.25},
                         Row{"yaw", 1e7, 300e3, 3.0, 2422951.90, 227311.44}}) {
    const LinearSystem one{Eigen::MatrixXd::Identity(1, 1),
                           Eigen::MatrixXd::Zero(1, 1),
                           Eigen::MatrixXd::Zero(1, 1),
                           {{Eigen::VectorXd::Ones(1), row.stiffness, row.damping}},
                           {"x"}};
    const Eigen::MatrixXd A = state_matrix(one); // of (x, x', place inside), mass 1
    const std::complex<double> iw(0.0, boost::math::constants::two_pi<double>() * row.frequency);
    const std::complex<double> force = -(A(1, 0) + A(1, 2) * A(2, 0) / (iw - A(2, 2))); // per x = 1
    score_abs(std::string("damper ") + row.what + ", stiffness N/m", force.real(), row.stores, 0.051,
              source_of_maxwell); // given to 0.1 N/m;
    score(std::string("damper ") + row.what + ", damping N s/m", force.imag() / iw.imag(), row.takes, 1e-5,
          source_of_maxwell);
  }
}

// Table read in print; heights and spacings across are not in it, so only its vertical half is asked.
TEST_CASE("A coach of 2019, whose table was seen in print, bounces and pitches as worked") {
  SpatialVehicle coach = preset("coach_1998");
  const double frames[] = {-1.25, -1.25 - 2.0 * 8.75};
  coach.bodies[0].mass = 34500;
  coach.bodies[0].pitch_inertia = 1560400;
  coach.bodies[0].x = 0.5 * (frames[0] + frames[1]);
  for (std::size_t i = 0; i < 2; ++i) {
    coach.bodies[i + 1].mass = 3500;
    coach.bodies[i + 1].pitch_inertia = 1722;
    coach.bodies[i + 1].x = frames[i];
    coach.wheelsets[2 * i].x = frames[i] + 1.25;
    coach.wheelsets[2 * i + 1].x = frames[i] - 1.25;
  }
  for (Wheelset& w : coach.wheelsets) {
    w.mass = 2200;
  }
  for (Link& link : coach.links) {
    for (const Wheelset& w : coach.wheelsets) {
      link.x = link.lower == w.name ? w.x : link.x;
    }
    for (const RigidBody& b : coach.bodies) {
      link.x = link.lower == b.name ? b.x : link.x;
    }
    if (link.along[2].stiffness > 0.0) {
      link.along[2].stiffness = link.lower.starts_with("wheelset") ? 1.173e6 : 610e3;
    }
  }
  const auto found = wingnose::vehicle::undamped_frequencies(wingnose::vehicle::assemble(vertical_half(coach)), true);
  REQUIRE(found.size() == 6);
  const Row rows[] = {{"body bounce", 1.1871},           {"body pitch", 1.5395},   {"bogie bounce, together", 6.5703},
                      {"bogie bounce, opposed", 6.5916}, {"bogie pitch", 10.3847}, {"bogie pitch", 10.3847}};
  for (std::size_t i = 0; i < found.size(); ++i) {
    score(std::string("coach of 2019, ") + rows[i].what + ", Hz", found[i], rows[i].value, 1e-4,
          {Trust::worked, "vertical model apart; data printed in Huo, Dai, Shock and Vibration 2019:2015465, table 1"});
  }
  score("coach of 2019, static wheel load, kN", assemble(coach).wheel_load[0][0] / 1e3, 61.68, 1e-4,
        {Trust::worked, "an eighth of 50 300 kg times g"});
}
