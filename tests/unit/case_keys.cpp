// Keys of a case file reach their values in SI.
#include "catch.hpp"
#include "folder.hpp"

#include "wingnose/io/case_file.hpp"

#include <algorithm>
#include <string>

using namespace wingnose;

namespace {

cases::Case parse(const std::string& text) { return io::parse_case(text, "test.toml", "."); }

const layout::CrossingShape& shape(const cases::Case& c) { return std::get<layout::CrossingShape>(c.excitation); }

} // namespace

TEST_CASE("Values in the units of the trade arrive in SI") {
  const auto c = parse(R"(
[crossing]
rate = 9.5
flangeway_mm = 41.5
wing_inclination_mrad = 25
[[crossing.modifier]]
body = "nose"
station_mm = 600
length_mm = 400
depth_mm = 1.5
[wheel]
lateral_offset_mm = -3
roll_mrad = 2
yaw_mrad = -5
radius_mm = 500
[vehicle]
preset = "wheel"
static_load_kN = 110
unsprung_mass_kg = 1200
[track]
pad_stiffness_MN_m = 80
pad_damping_kNs_m = 30
spacing_mm = 650
cut_off_Hz = 6000
[passage]
speed_km_h = 90
direction = "trailing"
step_us = 20
[contact]
young_GPa = 206
[measures]
first_peak_window_ms = 2
)");
  CHECK(shape(c).rate == Approx(9.5));
  CHECK(shape(c).flangeway == Approx(0.0415));
  CHECK(shape(c).wing_inclination == Approx(0.025));
  REQUIRE(shape(c).modifiers.size() == 1);
  CHECK(shape(c).modifiers[0].depth == Approx(0.0015));
  CHECK(c.wheel.lateral_offset == Approx(-0.003));
  CHECK(c.wheel.roll == Approx(0.002));
  CHECK(c.wheel.yaw == Approx(-0.005));
  const vehicle::Vehicle v = cases::vehicle_of(c);
  CHECK(v.wheels.at(0).radius == Approx(0.5));
  CHECK(v.wheels.at(0).unsprung_mass == Approx(1200));
  CHECK(vehicle::assemble(v).static_load.at(0) == Approx(110e3));
  CHECK(c.track.seat.pad_stiffness == Approx(80e6));
  CHECK(c.track.seat.pad_damping == Approx(30e3));
  CHECK(c.track.spacing == Approx(0.65));
  CHECK(c.track.cut_off == Approx(6000));
  CHECK(c.passage.speed == Approx(25));
  CHECK(c.passage.direction == Direction::trailing);
  CHECK(c.passage.step == Approx(20e-6));
  CHECK(c.material.young == Approx(206e9));
  CHECK(c.measures.first_peak_window == Approx(0.002));
}

TEST_CASE("Keys that are left out keep the defaults of the value structs") {
  const auto c = parse("[case]\nname = \"bare\"\n");
  CHECK(c.name == "bare");
  const layout::CrossingShape plain;
  CHECK(shape(c).rate == plain.rate);
  CHECK(shape(c).nose_start_depth == plain.nose_start_depth);
  CHECK(c.track.seat.ballast_stiffness == track::Seat{}.ballast_stiffness);
  CHECK(c.passage.step == cases::Passage{}.step);
  CHECK(c.measures.p2_cut_off == assess::MeasureOptions{}.p2_cut_off);
}

TEST_CASE("A casting multiplies the rail, and a single seat changes only what it names") {
  const auto c = parse(R"(
[track]
bearer_mass_kg = 160
[[track.casting]]
begin_m = -1
end_m = 2
EI_factor = 3
mass_factor = 2
[[track.seat]]
station_m = 0.6
ballast_stiffness_MN_m = 20
)");
  const track::Track t = cases::track_of(c.track);
  REQUIRE(t.zones.size() == 1);
  CHECK(t.zones[0].rail.EI == Approx(3 * t.rail.EI));
  CHECK(t.zones[0].rail.rho_A == Approx(2 * t.rail.rho_A));
  CHECK(t.zones[0].rail.kappa_GA == Approx(2 * t.rail.kappa_GA));
  REQUIRE(t.overrides.size() == 1);
  CHECK(t.overrides[0].seat.bearer_mass == Approx(160));
  CHECK(t.overrides[0].seat.ballast_stiffness == Approx(20e6));
}

TEST_CASE("A vehicle given for both rails is halved, wheels keep their radius") {
  const Folder folder;
  const std::string table = "[[body]]\nname = \"load\"\nmass_kg = 16000\nx_m = 0\n[[wheel]]\nname = \"w\"\n"
                            "unsprung_mass_kg = 1800\nx_m = 0\nradius_mm = 420\n[[suspension]]\nupper = \"load\"\n"
                            "lower = \"w\"\nx_m = 0\nstiffness_MN_m = 2.4\n";
  folder.write("both.toml", "given_for = \"both rails\"\n" + table);
  folder.write("one.toml", "given_for = \"one rail\"\n" + table);
  const auto vehicle_in = [&](const std::string& file) {
    return cases::vehicle_of(io::parse_case("[vehicle]\nfile = \"" + file + "\"\n", "a.toml", folder.path));
  };
  const vehicle::Vehicle both = vehicle_in("both.toml"), one = vehicle_in("one.toml");
  CHECK(both.bodies.at(0).mass == Approx(one.bodies.at(0).mass / 2));
  CHECK(both.wheels.at(0).unsprung_mass == Approx(900));
  CHECK(both.suspensions.at(0).stiffness == Approx(1.2e6));
  CHECK(both.wheels.at(0).radius == Approx(0.42));
  CHECK(vehicle::assemble(both).static_load.at(0) == Approx(8900 * 9.81));
}

TEST_CASE("A case lists every value it rests on, given or default, and nothing that does not apply to it") {
  const auto lists = [](const cases::Case& c, const std::string& line) {
    const auto keys = cases::all_keys(c);
    return std::any_of(keys.begin(), keys.end(),
                       [&](const cases::KeyText& key) { return key.key + " = " + key.value == line; });
  };
  const cases::Case c = parse("[passage]\nspeed_km_h = 99\n");
  CHECK(lists(c, "passage.speed_km_h = 99"));
  CHECK(lists(c, "crossing.flangeway_mm = 44"));
  for (const cases::KeyText& key : cases::all_keys(c)) {
    CHECK(key.key.find("dip_angle_mrad") == std::string::npos);
  }
}
