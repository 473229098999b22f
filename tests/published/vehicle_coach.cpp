// The coach of the 1998 benchmark: wheel load, static deflections, natural frequencies and damping ratios.
#include "published/scoreboard.hpp"
#include "wingnose/vehicle/vehicle.hpp"
#include "wingnose/words/frame.hpp"

#include <string>
#include <utility>
#include <vector>

using namespace wingnose::vehicle;

namespace {

const Source source{Trust::worked, "linear model worked apart, data of Iwnicki 1998, recalled (high)"};

Eigen::Index coordinate(const VehicleModel& model, const std::string& name) {
  for (std::size_t i = 0; i < model.coordinate.size(); ++i) {
    if (model.coordinate[i] == name) {
      return static_cast<Eigen::Index>(i);
    }
  }
  FAIL("no coordinate named " << name);
  return -1;
}

} // namespace

TEST_CASE("Every wheel of the coach carries its eighth of the weight") {
  const VehicleModel coach = assemble(preset("coach"));
  for (int i = 0; i < coach.wheels(); ++i) {
    score("coach static load, kN, wheel " + std::to_string(i + 1), coach.static_load[static_cast<std::size_t>(i)] / 1e3,
          54.546, 1e-5, source);
  }
}

TEST_CASE("The coach's springs sink under its weight as their stiffness says") {
  const VehicleModel coach = assemble(preset("coach"));
  const Eigen::VectorXd u = static_displacement(coach);
  const double bogie = u(coordinate(coach, "front bogie heave"));
  const double body = u(coordinate(coach, "body heave"));
  score_abs("coach primary static deflection, mm", -bogie * 1e3, 37.4, 0.051, source);
  score_abs("coach secondary static deflection, mm", (bogie - body) * 1e3, 182.5, 0.051, source);
  const Source over_stiffness{Trust::worked, "weight over stiffness"};
  // The same from the masses, exactly: what rests on the spring over its stiffness.
  score("coach primary static deflection, mm, from masses", -bogie * 1e3,
        (16000.0 + 2615.0) * wingnose::gravity / 4.0 / 1.22e6 * 1e3, 1e-6, over_stiffness);
  score("coach secondary static deflection, mm, from masses", (bogie - body) * 1e3,
        8000.0 * wingnose::gravity / 430e3 * 1e3, 1e-6, over_stiffness);
}

TEST_CASE("The coach bounces and pitches at the frequencies worked from its data") {
  const std::vector<double> frequency = undamped_frequencies(assemble(preset("coach")), true);
  REQUIRE(frequency.size() == 6);
  const std::vector<std::pair<std::string, double>> expected = {
      {"body bounce", 1.0739},           {"body pitch", 1.2991},
      {"bogie bounce in phase", 7.4705}, {"bogie bounce anti-phase", 7.4772},
      {"first bogie pitch", 11.7138},    {"second bogie pitch", 11.7138}};
  for (std::size_t i = 0; i < expected.size(); ++i) {
    score("coach " + expected[i].first + ", Hz", frequency[i], expected[i].second, 1e-4, source);
  }
}

TEST_CASE("The coach's modes are damped by the ratios worked from its data") {
  const std::vector<Mode> mode = modes(assemble(preset("coach")), true);
  REQUIRE(mode.size() == 6);
  const std::vector<std::pair<std::string, double>> expected = {
      {"body bounce", 0.1345},           {"body pitch", 0.1625},
      {"bogie bounce in phase", 0.2406}, {"bogie bounce anti-phase", 0.2367},
      {"first bogie pitch", 0.1207},     {"second bogie pitch", 0.1207}};
  // Tolerance: half a unit of the last decimal.
  for (std::size_t i = 0; i < expected.size(); ++i) {
    score_abs("coach " + expected[i].first + ", damping ratio", mode[i].damping_ratio, expected[i].second, 0.51e-4,
              {Trust::worked, source.text + ", viscous dampers without series springs"});
  }
  CHECK(mode[0].dominant == "body heave");
  CHECK(mode[1].dominant == "body pitch");
  CHECK(mode[2].dominant == "front bogie heave + rear bogie heave");
}

TEST_CASE("Wagon and locomotive carry the wheel loads of their class") {
  score_abs("wagon static load, kN", assemble(preset("wagon")).static_load[0] / 1e3, 110.4, 0.051,
            {Trust::worked, "half of 22.5 t per axle, a load class, times g"});
  score_abs("locomotive static load, kN", assemble(preset("locomotive")).static_load[0] / 1e3, 103.0, 0.051,
            {Trust::worked, "half of 21 t per axle, a class value recalled (medium), times g"});
}
