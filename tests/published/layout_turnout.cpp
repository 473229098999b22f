// Turnouts of the trade: lengths that are known, noses and angles, what their speeds ask for, and the dimensions that
// keep a wheelset off a nose.
#include "published/scoreboard.hpp"
#include "wingnose/layout/turnout/functional.hpp"
#include "wingnose/layout/turnout/geometry.hpp"
#include "wingnose/layout/turnout/kinematics.hpp"

#include <cmath>
#include <numbers>
#include <string>

using namespace wingnose;
using namespace wingnose::layout::turnout;

namespace {

constexpr double km_h = 1.0 / 3.6, deg = std::numbers::pi / 180.0;
const double no_print = std::nan("");

struct Row {
  const char* name;
  double angle, tangent, two_tangents, overall, nose, at_nose,
      rate; // deg, m, m, m (nan: not found in print), m, deg, -
  bool in_arc;
  double acceleration, deficiency, speed_100, rate_of_change; // m/s2, mm, km/h, mm/s
};
// Lengths overall stand in print and are quoted from memory; the rest was worked apart from this code, in six digits.
const Row rows[] = {
    {"R190-1:7.5", 7.59464, 12.6109, 25.2217, 25.222, 23.3517, 7.03301, 8.10574, true, 0.649773, 99.3684, 40.1269,
     90.4995},
    {"R190-1:9", 6.34019, 10.5232, 21.0464, 27.138, 23.4779, 6.34019, 9, false, 0.649773, 99.3684, 40.1269, 90.4995},
    {"R245-1:9.25", 6.17018, 13.2048, 26.4095, no_print, 26.5172, 6.17018, 9.25, false, 0.503905, 77.0612, 45.5661,
     70.1833},
    {"R300-1:9", 6.34019, 16.6155, 33.2311, 33.23, 29.3428, 5.5996, 10.1995, true, 0.643004, 98.3333, 50.4219, 111.946},
    {"R500-1:12", 4.76364, 20.7973, 41.5946, 41.594, 37.8814, 4.33881, 13.1802, true, 0.555556, 84.96, 65.0945,
     116.066},
    {"R500-1:14", 4.08562, 17.8344, 35.6688, no_print, 37.95, 4.08562, 14, false, 0.555556, 84.96, 65.0945, 116.066},
    {"R760-1:14", 4.08562, 27.1083, 54.2166, 54.216, 46.7033, 3.51982, 16.2576, true, 0.649773, 99.3684, 80.2538,
     180.999},
    {"R760-1:15", 3.81407, 25.3052, 50.6105, no_print, 46.7033, 3.51982, 16.2576, true, 0.649773, 99.3684, 80.2538,
     180.999},
    {"R760-1:18.5", 3.09406, 20.5256, 41.0511, 52.935, 47.0924, 3.09406, 18.5, false, 0.649773, 99.3684, 80.2538,
     180.999},
    {"R1200-1:18.5", 3.09406, 32.4088, 64.8176, 64.818, 58.6856, 2.80147, 20.4357, true, 0.643004, 98.3333, 100.844,
     223.892},
    {"R2500-1:26.5", 2.16108, 47.153, 94.3061, 94.306, 84.7054, 1.94112, 29.5056, true, 0.521605, 79.768, 145.556,
     236.107}};

const Source plan{Trust::worked, "turnouts from R and N: arc and tangents, six digits"};
const Source print{Trust::from_memory, "known lengths of turnouts, German drawings"};
const Source print_and_end{Trust::from_memory,
                           "known lengths of turnouts; the straight behind the arc is an input of ours"};
const Source speeds{Trust::worked, "V^2/R and 11.8 V^2/R (EN 13803) at the diverging speeds of these turnouts"};
constexpr double six_digits = 5e-6;

const Preset& of(const std::string& name) {
  for (const Preset& p : presets()) {
    if (p.name == name) {
      return p;
    }
  }
  throw std::logic_error(name);
}

} // namespace

TEST_CASE("Angle, tangents and nose of eleven turnouts of the trade") {
  REQUIRE(std::size(rows) == presets().size());
  for (const Row& row : rows) {
    const std::string name = row.name;
    const Geometry g = geometry(preset(name));
    score(name + ": angle, deg", g.angle / deg, row.angle, six_digits, plan);
    score(name + ": tangent, m", g.tangent_length, row.tangent, six_digits, plan);
    score(name + ": two tangents, m", g.two_tangents, row.two_tangents, six_digits, plan);
    score(name + ": start to nose, m", g.nose_from_start, row.nose, six_digits, plan);
    score(name + ": angle at the nose, deg", g.angle_at_nose / deg, row.at_nose, six_digits, plan);
    score(name + ": N at the nose", g.rate_at_nose, row.rate, six_digits, plan);
    CHECK(g.nose_in_curve == row.in_arc);
  }
}

TEST_CASE("Turnouts are as long as their drawings say, within 2 mm") {
  for (const Row& row : rows) {
    if (!std::isnan(row.overall)) {
      score_abs(std::string(row.name) + ": overall length, m", geometry(preset(row.name)).overall_length.value(),
                row.overall, 0.002, row.in_arc ? print : print_and_end);
    }
  }
}

TEST_CASE("The diverging speeds of the trade ask for 0.50 to 0.65 m/s2") {
  for (const Row& row : rows) {
    const std::string name = row.name;
    const Route diverging = geometry(preset(name)).diverging;
    const Kinematics k = kinematics(diverging, of(name).diverging_speed);
    score(name + ": unbalanced acceleration, m/s2", k.acceleration, row.acceleration, six_digits, speeds);
    score(name + ": cant deficiency, mm", k.cant_deficiency * 1e3, row.deficiency, six_digits, speeds);
    score(name + ": speed for 100 mm, km/h", speed_of_deficiency(diverging, 0.1) / km_h, row.speed_100, six_digits,
          speeds);
    score(name + ": rate of change over 12.2 m, mm/s", k.virtual_rate * 1e3, row.rate_of_change, six_digits, speeds);
    CHECK(k.abrupt_at == diverging.begin());
  }
}

TEST_CASE("60 km/h instead of 50 over R 300: 0.93 m/s2, and 141.6 mm where a sudden change of 130 mm is allowed") {
  const Route diverging = geometry(preset("R300-1:9")).diverging;
  const Kinematics k = kinematics(diverging, 60 * km_h);
  const Source source{Trust::worked, "11.8 V^2/R and V^2/R by hand"};
  score("R 300 at 60 km/h: unbalanced acceleration, m/s2", k.acceleration, 0.9259, 5e-5, source);
  score("R 300 at 60 km/h: cant deficiency, mm", k.cant_deficiency * 1e3, 141.6, 1e-9, source);
  CHECK(abrupt_change_limit(60 * km_h).margin(k.abrupt_change) * 1e3 == Approx(130.0 - 141.6));
  CHECK(abrupt_change_limit(50 * km_h).margin(kinematics(diverging, 50 * km_h).abrupt_change) > 0.0);
}

TEST_CASE("A flange reaches the rail of a tangential switch 2.757 m behind its start, at 3.63 mrad") {
  const Entry entry = switch_entry(geometry(preset("R760-1:14")).diverging, 0.005);
  const Source source{Trust::worked, "sqrt(2 R c) and sqrt(2 c / R), small angles"};
  score("R 760, play 5 mm: start to flange contact, m", entry.distance, 2.757, 2e-4, source);
  score("R 760, play 5 mm: angle of attack, mrad", entry.attack * 1e3, 3.627, 2e-4, source);
}

TEST_CASE("The steepest flare a speed allows") {
  const Source source{Trust::worked, "V sin(angle) = 3 km/h (Chinese rule, from memory), in four digits"};
  const std::pair<double, double> flares[] = {
      {80, 37.51}, {120, 25.00}, {160, 18.75}, {200, 15.00}, {250, 12.00}}; // km/h, mrad
  for (const auto& [v, angle] : flares) {
    score("flare of a check rail at " + number(v) + " km/h, mrad", steepest(flare_speed(), v * km_h) * 1e3, angle, 2e-4,
          source);
  }
  // The figures quoted as blade angles are the sines of these: up to 0.0014 mrad less than the angles.
  const std::pair<double, double> blades[] = {{40, 20.1556}, {50, 16.1245}, {80, 10.0778}, {100, 8.06226}};
  for (const auto& [v, sine] : blades) {
    score("sine of the blade angle at " + number(v) + " km/h, 1e-3", std::sin(steepest(blade_speed(), v * km_h)) * 1e3,
          sine, six_digits, {Trust::worked, "sqrt(0.65) km/h / V (Chinese rule, from memory)"});
  }
}

namespace {

constexpr double mm = 1e-3;
const Source limits{Trust::worked, "wheelset limits of the TSI (from memory), added by hand"};

Faces with(double gauge, double flangeway) {
  Turnout t;
  t.gauge = gauge;
  t.check_rail.flangeway = flangeway;
  return drawn(t, Way::through);
}

} // namespace

TEST_CASE("Back to back and flange of legal wheelsets lie between 1383.5 and 1394.5 mm") {
  const WheelsetLimits& large = limits_of(0.920);
  score("largest back to back and flange, mm", widest(large).back_to_flange() / mm, 1394.5, 1e-12, limits);
  score("least back to back and flange, mm", narrowest(large).back_to_flange() / mm, 1383.5, 1e-12, limits);
  Turnout t; // a check rail entry of exactly 1380
  t.check_rail.flangeway = 0.055;
  t.check_rail.flare = t.check_rail.end_flare = 0.0;
  score("narrowest wheelset in the 1380 mm entry, mm", least_margins(drawn(t, Way::through), large).at_check_entry / mm,
        3.5, 1e-9, limits);
  t.check_rail.flangeway = 0.038;
  t.crossing.flangeway = 0.041; // 1435 - 38 - 41 = 1356
  score("narrowest wheelset in the 1356 mm passage, mm",
        least_margins(drawn(t, Way::through), large).between_guides / mm, 1.0, 1e-9, limits);
  t.crossing.flangeway_depth = 0.040;
  score("highest flange over a floor 40 mm deep, mm", least_margins(drawn(t, Way::through), large).over_floor / mm, 4.0,
        1e-9, limits);
}

TEST_CASE("What is left at the nose for the nominal and for the worst wheelset") {
  const std::tuple<double, double, double> protections[] = {
      {1391, -1.5, -3.5}, {1392, -0.5, -2.5}, {1394, 1.5, -0.5}, {1394.5, 2.0, 0.0}, {1396, 3.5, 1.5}};
  for (const auto& [protection, nominal, worst] : protections) {
    Turnout t;
    t.check_rail.nose_protection = protection * mm;
    const Faces f = drawn(t, Way::through);
    const std::string at = "nose protection " + number(protection) + ": left at the nose, ";
    score_abs(at + "nominal, mm", margins(f, {}, 0.028).at_nose / mm, nominal, 1e-9, limits);
    score_abs(at + "worst, mm", least_margins(f, limits_of(0.920)).at_nose / mm, worst, 1e-9, limits);
  }
}

TEST_CASE("The shift at which the back of a wheel meets the check rail, and that at which its flange meets the rail") {
  const std::pair<double, std::array<double, 3>> table[] = {
      {39, {3, 1.5, 0}}, {40, {4, 2.5, 1}}, {41, {5, 3.5, 2}}, {42, {6, 4.5, 3}}, {44, {8, 6.5, 5}}};
  const double gauges[] = {1432, 1435, 1438}, plays[] = {3.5, 5.0, 6.5};
  for (const auto& [flangeway, shifts] : table) {
    for (std::size_t i = 0; i < 3; ++i) {
      const Touches t = touches(with(gauges[i] * mm, flangeway * mm), {});
      score_abs("flangeway " + number(flangeway) + ", gauge " + number(gauges[i]) + ": wheel back at, mm", t.check / mm,
                shifts[i], 1e-9, limits);
      CHECK(t.nose / mm == Approx(plays[i]));
      CHECK(t.stock / mm == Approx(plays[i]));
    }
  }
}
