// Damage of a case: the case's own steel, friction and law, on the passage it has run.
#include "catch.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/study/steel.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

using namespace wingnose;

TEST_CASE("The damage of a case is that of its passage with the steel, friction and law of the case") {
  cases::Case c = io::read_case(WINGNOSE_SOURCE_DIR "/profiles/demo.toml");
  const study::Result r = study::run(c);
  const auto trail = assess::contact_trail(r.history, *r.geometry.path, r.geometry.wheel,
                                           study::landing_station(r.geometry), c.material, c.damage);
  const auto direct = assess::damage(trail, cases::steel_of(c), c.damage),
             through = study::damage(c, r.geometry, r.history);
  CHECK(through.wear_volume == direct.wear_volume);
  CHECK(through.shakedown.value == direct.shakedown.value);
  c.steel = "Mn";
  c.damage.friction = 0.15;
  c.damage.creep_law = assess::CreepTheory::polach;
  const auto other = study::damage(c, r.geometry, r.history);
  CHECK(other.load_factor.value / through.load_factor.value ==
        Approx(assess::shear_yield(assess::steel("R350HT")) / assess::shear_yield(cases::steel_of(c))).epsilon(1e-12));
  CHECK(other.traction.value <= 0.15 * (1.0 + 1e-9));
  CHECK(through.traction.value > 0.15);
}

TEST_CASE("A passage by strips tells the damage of their patches, with the force of the passage in them") {
  cases::Case c = io::read_case(WINGNOSE_SOURCE_DIR "/profiles/demo.toml");
  const study::Result plain = study::run(c);
  const auto ellipse = study::contact_trail(c, plain.geometry, plain.history);
  c.contact.law = contact::Strips{};
  const study::Result r = study::run(c);
  const auto trail = study::contact_trail(c, r.geometry, r.history);
  CHECK(trail.by_strips);
  CHECK_FALSE(ellipse.by_strips);
  // Vertical forces of a step's contacts add up to the passage's.
  std::vector<double> told(r.history.time.size(), 0.0);
  double largest = 0.0, of_ellipse = 0.0;
  for (const auto& s : trail.steps) {
    told[static_cast<std::size_t>(std::lround((s.time - r.history.time.front()) / r.history.step))] +=
        s.normal_force * std::cos(s.angle);
    largest = std::max(largest, s.patch.peak_pressure);
    // Each is an ellipse that carries its force.
    CHECK(s.patch.peak_pressure * s.patch.a_x * s.patch.a_y * 2.0 / 3.0 * std::numbers::pi ==
          Approx(s.normal_force).epsilon(1e-9));
  }
  for (const auto& s : ellipse.steps) {
    of_ellipse = std::max(of_ellipse, s.patch.peak_pressure);
  }
  std::size_t compared = 0;
  for (std::size_t i = 0; i < told.size(); ++i) {
    double carried = 0.0;
    for (const auto& body : r.history.body_force) {
      carried += body[i] >= c.damage.least_force ? body[i] : 0.0;
    }
    if (told[i] > 0.0) {
      CHECK(told[i] == Approx(carried).epsilon(0.01));
      ++compared;
    }
  }
  CHECK(compared > 500);
  // On the demo's sharp nose both are near the half-space solution.
  CHECK(largest == Approx(of_ellipse).epsilon(0.1));
  const auto damage = assess::damage(trail, cases::steel_of(c), c.damage);
  CHECK(damage.friction_energy > 0.0);
}

TEST_CASE("A wheel held in yaw runs with the angle of attack as lateral creepage, and wears more for it") {
  cases::Case c = io::read_case(WINGNOSE_SOURCE_DIR "/profiles/demo.toml");
  const study::Result held = study::run(c);
  const auto straight = study::contact_trail(c, held.geometry, held.history);
  c.wheel.yaw = 0.004;
  const study::Result r = study::run(c);
  const auto yawed = study::contact_trail(c, r.geometry, r.history);
  CHECK(yawed.yaw == 0.004);
  for (const auto& s : straight.steps) {
    CHECK(s.creepage.lateral == 0.0);
  }
  for (const auto& s : yawed.steps) {
    // Rolling along its heading the wheel's surface goes sideways over the rail at V yaw, along the inclined tangent.
    CHECK(s.creepage.lateral == Approx(-0.004 * std::cos(s.angle)).epsilon(0.01));
    CHECK(s.force.lateral > 0.0);
  }
  const assess::Steel steel = cases::steel_of(c);
  const auto a = assess::damage(straight, steel, c.damage), b = assess::damage(yawed, steel, c.damage);
  CHECK(b.friction_energy > 1.5 * a.friction_energy);
  CHECK(assess::assumptions_of_steel(straight).front().find("lateral creepage is 0") != std::string::npos);
  CHECK(assess::assumptions_of_steel(yawed).front().find("yaw of 4 mrad") != std::string::npos);
}

TEST_CASE("A patch that slides all over rubs on every node of a fine map under it") {
  cases::Case c = io::read_case(WINGNOSE_SOURCE_DIR "/profiles/demo.toml");
  c.wheel.yaw = 0.010; // lateral creepage beyond saturation
  c.damage.spacing_y = 1e-4;
  const study::Result r = study::run(c);
  const auto d = study::damage(c, r.geometry, r.history);
  std::size_t rows = 0;
  for (const assess::DamageMap& map : d.maps) {
    for (std::size_t i = 1; i + 1 < map.grid.count_x; ++i) {
      const double* row = map.friction_energy.data() + i * map.grid.count_y;
      const double* end = row + map.grid.count_y;
      const auto rubbed = [](double energy) { return energy > 0.0; };
      const double* first = std::find_if(row, end, rubbed);
      const auto blank = std::find_if(first, end, [](double energy) { return energy == 0.0; });
      rows += first != end ? 1 : 0;
      CAPTURE(map.body, map.grid.x(i));
      CHECK(std::find_if(blank, end, rubbed) == end); // one band, without gaps
    }
  }
  CHECK(rows > 500);
}
