// Damage of a case: the case's own steel, friction and law, on the passage it has run.
#include "catch.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/study/steel_damage.hpp"

#include <cmath>

using namespace wingnose;

TEST_CASE("The damage of a case is that of its passage with the steel, friction and law of the case") {
  study::Case c = io::read_case(WINGNOSE_SOURCE_DIR "/profiles/demo.toml");
  const study::Result r = study::run(c);
  const auto trail = assess::contact_trail(r.history, *r.geometry.path, c.wheel, study::landing_station(r.geometry),
                                           c.steel, c.damage);
  const auto direct = assess::damage(trail, c.grade, c.damage), through = study::damage(c, r);
  CHECK(through.wear_volume == direct.wear_volume);
  CHECK(through.shakedown.value == direct.shakedown.value);
  c.grade = assess::steel("Mn");
  c.damage.friction = 0.15;
  c.damage.creep_law = assess::CreepTheory::polach;
  const auto other = study::damage(c, r);
  CHECK(other.load_factor.value / through.load_factor.value ==
        Approx(assess::shear_yield(assess::steel("R350HT")) / assess::shear_yield(c.grade)).epsilon(1e-12));
  CHECK(other.traction.value <= 0.15 * (1.0 + 1e-9));
  CHECK(through.traction.value > 0.15);
}
