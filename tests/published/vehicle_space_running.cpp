// Vehicles on the analytic contact: what is known in closed form or was worked out apart about wavelengths, critical
// speeds and places in curves.
#include "published/scoreboard.hpp"
#include "vehicle_space_samples.hpp"

#include <boost/math/constants/constants.hpp>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

using namespace wingnose;
using namespace space_samples;

namespace {

constexpr double two_pi = boost::math::constants::two_pi<double>();
constexpr double r0 = 0.46, l0 = 0.75, half_base = 1.28; // m

std::string with(const std::string& what, double value) { return what + " " + scoreboard::number(value); }

// Distance between the first and the last upward crossing of the middle, over the swings between.
double wavelength(const HuntingHistory& history, double speed) {
  std::vector<double> crossing;
  for (std::size_t i = 1; i < history.time.size(); ++i) {
    const double before = history.shift(static_cast<Eigen::Index>(i - 1), 0);
    const double after = history.shift(static_cast<Eigen::Index>(i), 0);
    if (before < 0.0 && after >= 0.0) {
      crossing.push_back(history.time[i] - (history.time[i] - history.time[i - 1]) * after / (after - before));
    }
  }
  REQUIRE(crossing.size() >= 2);
  return speed * (crossing.back() - crossing.front()) / static_cast<double>(crossing.size() - 1);
}

// The largest shift of any wheelset over the last seconds.
double amplitude(const HuntingHistory& history, double seconds) {
  const auto from = static_cast<Eigen::Index>(
      std::lower_bound(history.time.begin(), history.time.end(), history.time.back() - seconds) - history.time.begin());
  return history.shift.bottomRows(history.shift.rows() - from).cwiseAbs().maxCoeff();
}

} // namespace

TEST_CASE("A free wheelset rolls in waves of the length after Klingel") {
  for (const double conicity : {0.025, 0.05, 0.1, 0.1746, 0.2, 0.3}) {
    SpatialVehicle vehicle;
    vehicle.wheelsets = {lone_wheelset()};
    const double expected = two_pi * std::sqrt(r0 * l0 / conicity), speed = 1.0;
    const Hunting run{.speed = speed, .duration = 2.2 * expected / speed, .step = 2e-4, .shift = 1e-3, .stride = 100};
    const HuntingHistory history = hunt(assemble(vehicle), {.conicity = conicity}, run, bare);
    score(with("wavelength of a free wheelset, m, conicity", conicity), wavelength(history, speed), expected, 1e-3,
          {Trust::worked, "Klingel 1883: 2 pi sqrt(r l / conicity); ours from a run in time at 1 m/s"});
  }
}

TEST_CASE("A rigid bogie rolls in longer waves than its wheelsets would") {
  const double conicity = 0.1, speed = 1.0;
  const double expected = two_pi * std::sqrt(r0 * l0 / conicity) * std::hypot(1.0, half_base / l0);
  const auto all = modes(running(assemble(bare_bogie(2e10, 2e10)), {.conicity = conicity}, speed, bare));
  double slowest = 1e9;
  for (const SpaceMode& mode : all) {
    if (mode.damping_ratio < 0.9) {
      slowest = std::min(slowest, mode.eigenvalue.imag() / two_pi);
    }
  }
  score("wavelength of a rigid bogie, m", speed / slowest, expected, 1e-3,
        {Trust::worked, "Klingel's length times sqrt(1 + (a / l)^2) (Heumann); conicity 0.1, half wheelbase 1.28 m"});
}

TEST_CASE("A sprung wheelset hunts from the speed, and with the frequency, that theory gives") {
  struct Row {
    double lateral, yaw, conicity, creep, speed, frequency;
  };
  const Row rows[] = {{1e6, 2e6, 0.05, 1e7, 91.9958, 5.50762}, {1e6, 2e6, 0.05, 6.5e6, 93.5583, 5.50762},
                      {1e6, 2e6, 0.1, 1e7, 64.6603, 5.50762},  {1e6, 2e6, 0.1, 6.5e6, 65.1959, 5.50762},
                      {1e6, 2e6, 0.2, 1e7, 45.5855, 5.50762},  {1e6, 2e6, 0.2, 6.5e6, 45.7720, 5.50762},
                      {2e5, 0.0, 0.05, 1e7, 19.0482, 1.15401}, {2e5, 0.0, 0.05, 6.5e6, 19.0507, 1.15401},
                      {2e5, 0.0, 0.1, 1e7, 13.4685, 1.15401},  {2e5, 0.0, 0.1, 6.5e6, 13.4693, 1.15401},
                      {2e5, 0.0, 0.2, 1e7, 9.52343, 1.15401},  {2e5, 0.0, 0.2, 6.5e6, 9.52373, 1.15401},
                      {1e6, 0.0, 0.05, 1e7, 42.6900, 2.58044}, {1e6, 0.0, 0.05, 6.5e6, 42.8293, 2.58044},
                      {1e6, 0.0, 0.1, 1e7, 30.1506, 2.58044},  {1e6, 0.0, 0.1, 6.5e6, 30.1996, 2.58044},
                      {1e6, 0.0, 0.2, 1e7, 21.3071, 2.58044},  {1e6, 0.0, 0.2, 6.5e6, 21.3244, 2.58044}};
  const Source source{Trust::worked, "closed form after Wickens, finite creep; wheelset 1813 kg, 1120 kg m2"};
  for (const Row& row : rows) {
    const SpatialModel model = assemble(sprung_wheelset(row.lateral, row.yaw));
    const auto found =
        critical_speed(model, {.conicity = row.conicity, .f11 = row.creep, .f22 = row.creep}, {1.0, 150.0}, bare);
    REQUIRE(found);
    const std::string what = with(with("sprung wheelset, conicity", row.conicity) + ", creep MN", row.creep / 1e6);
    score(what + ", critical speed m/s", found->speed, row.speed, 1e-4, source);
    score(what + ", frequency Hz", found->frequency, row.frequency, 1e-4, source);
  }
}

TEST_CASE("The coach hunts from the critical speeds worked from its data") {
  struct Row {
    double conicity, creep, speed, frequency;
  };
  const Row rows[] = {{0.05, 1.0, 83.790, 2.551}, {0.05, 0.6, 47.71, 1.456},  {0.10, 1.0, 79.840, 3.596},
                      {0.10, 0.6, 50.31, 2.145},  {0.20, 1.0, 70.610, 4.929}, {0.20, 0.6, 49.33, 3.064},
                      {0.30, 1.0, 61.945, 5.767}, {0.30, 0.6, 47.43, 3.729}};
  const SpatialModel coach = assemble(preset("coach_1998"));
  const Source source{Trust::worked, "two linear models worked apart; f11 9.159 MN, f22 8.307 MN, f23 17.91 kN m, no "
                                     "gravitational stiffness, no series springs"};
  for (const Row& row : rows) {
    const auto found = critical_speed(
        coach,
        {.conicity = row.conicity, .f11 = row.creep * 9.159e6, .f22 = row.creep * 8.307e6, .f23 = row.creep * 17.91e3},
        {20.0, 150.0}, bare);
    REQUIRE(found);
    const std::string what = with(with("coach, conicity", row.conicity) + ", creep", row.creep);
    score(what + ", critical speed m/s", found->speed, row.speed, 1e-3, source);
    score(what + ", frequency Hz", found->frequency, row.frequency, 1e-3, source);
  }
}

TEST_CASE("Cooperrider's bogie hunts from the speed worked from its equations, and near the printed one") {
  struct Row {
    double half_base, speed, frequency;
  };
  const Source worked{Trust::worked, "equations of Cooperrider 1972 and Kaas-Petersen 1986 worked apart"};
  for (const Row& row : {Row{1.074, 65.2885, 3.808}, Row{1.2, 68.6335, 3.991}, Row{1.5, 74.8767, 4.340}}) {
    const auto found =
        critical_speed(assemble(cooperrider_bogie(row.half_base)), cooperrider_contact(), {20, 100}, bare);
    REQUIRE(found);
    const std::string what = with("Cooperrider's bogie, half wheelbase m", row.half_base);
    score(what + ", critical speed m/s", found->speed, row.speed, 1e-4, worked);
    score(what + ", frequency Hz", found->frequency, row.frequency, 2e-4, worked);
  }
  const auto found = critical_speed(assemble(cooperrider_bogie(1.074)), cooperrider_contact(), {20, 100}, bare);
  score("Cooperrider's bogie, onset of hunting, m/s", found->speed, 66.61, 0.05,
        {Trust::from_memory, "True, Kaas-Petersen 1983 and later; one or two parameters may be misremembered"});
  const auto longer = critical_speed(assemble(cooperrider_bogie(1.2)), cooperrider_contact(), {20, 100}, bare);
  score("Cooperrider's bogie, onset of hunting, half wheelbase 1.2 m", longer->speed, 68.66, 0.05,
        {Trust::printed, "Seydel, collection of examples; wheelbase not visible there"});
}

TEST_CASE("Followed down from above, Cooperrider's bogie hunts below its critical speed and stops where worked") {
  const SpatialModel model = assemble(cooperrider_bogie(1.074));
  const Source worked{Trust::worked,
                      "the same equations with flange spring and creep that saturates, worked apart: the "
                      "swing lives at 63.7 m/s and not at 63.6 m/s"};
  Hunting run{.duration = 40.0, .step = 0.5e-3, .shift = 9.5e-3, .stride = 10};
  double least = 0.0, last = 0.0; // m/s, m
  for (const double speed : {66.0, 64.5, 64.0, 63.8, 63.7, 63.6}) {
    run.speed = speed;
    const HuntingHistory history = hunt(model, cooperrider_contact(), run, bare);
    run.start = history.end;
    if (const double swing = amplitude(history, 2.0); swing > 1e-3) {
      least = speed;
      last = swing;
    }
  }
  score_abs("Cooperrider's bogie, least speed with a limit cycle, m/s", least, 63.65, 0.06, worked);
  score("Cooperrider's bogie, its shift there, mm", last * 1e3, 9.30, 1e-3, worked);
  score("Cooperrider's bogie, least speed with a limit cycle, m/s, print", least, 62.02, 0.05,
        {Trust::from_memory, "True and co-workers; one or two parameters may be misremembered"});
}
