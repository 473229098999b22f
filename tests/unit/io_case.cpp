#include "catch.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/words/error.hpp"
#include "wingnose/words/suggestion.hpp"

#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>
#include <string>

namespace fs = std::filesystem;
using namespace wingnose;

namespace {

study::Case parse(const std::string& text) { return io::parse_case(text, "test.toml", "."); }

// A folder of its own that goes away with the test.
struct Folder {
  fs::path path = fs::temp_directory_path() / ("wingnose_case_" + std::to_string(::getpid()));
  Folder() { fs::create_directories(path / "sub"); }
  ~Folder() { fs::remove_all(path); }
  void write(const std::string& name, const std::string& text) const { std::ofstream(path / name) << text; }
};

const layout::CrossingShape& shape(const study::Case& c) { return std::get<layout::CrossingShape>(c.excitation); }

} // namespace

TEST_CASE("values in the units of the trade arrive in SI") {
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
  CHECK(c.lateral_offset == Approx(-0.003));
  CHECK(c.roll == Approx(0.002));
  CHECK(c.yaw == Approx(-0.005));
  CHECK(c.vehicle.wheels.at(0).radius == Approx(0.5));
  CHECK(c.vehicle.wheels.at(0).unsprung_mass == Approx(1200));
  CHECK(vehicle::assemble(c.vehicle).static_load.at(0) == Approx(110e3));
  CHECK(c.track.seat.pad_stiffness == Approx(80e6));
  CHECK(c.track.seat.pad_damping == Approx(30e3));
  CHECK(c.track.spacing == Approx(0.65));
  CHECK(c.track.cut_off == Approx(6000));
  CHECK(c.passage.speed == Approx(25));
  CHECK(c.passage.direction == Direction::trailing);
  CHECK(c.kinematics.direction == Direction::trailing);
  CHECK(c.passage.step == Approx(20e-6));
  CHECK(c.steel.young == Approx(206e9));
  CHECK(c.measures.first_peak_window == Approx(0.002));
}

TEST_CASE("keys that are left out keep the defaults of the value structs") {
  const auto c = parse("[case]\nname = \"bare\"\n");
  CHECK(c.name == "bare");
  const layout::CrossingShape plain;
  CHECK(shape(c).rate == plain.rate);
  CHECK(shape(c).nose_start_depth == plain.nose_start_depth);
  CHECK(c.track.seat.ballast_stiffness == track::Seat{}.ballast_stiffness);
  CHECK(c.passage.step == passage::Settings{}.step);
  CHECK(c.measures.p2_cut_off == assess::MeasureOptions{}.p2_cut_off);
}

TEST_CASE("a casting multiplies the rail, and a single seat changes only what it names") {
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
  REQUIRE(c.track.zones.size() == 1);
  CHECK(c.track.zones[0].rail.EI == Approx(3 * c.track.rail.EI));
  CHECK(c.track.zones[0].rail.rho_A == Approx(2 * c.track.rail.rho_A));
  CHECK(c.track.zones[0].rail.kappa_GA == Approx(2 * c.track.rail.kappa_GA));
  REQUIRE(c.track.overrides.size() == 1);
  CHECK(c.track.overrides[0].seat.bearer_mass == Approx(160));
  CHECK(c.track.overrides[0].seat.ballast_stiffness == Approx(20e6));
}

TEST_CASE("worn and repaired crossings derive from the designed one by naming it as base") {
  const Folder folder;
  folder.write("designed.toml", "[crossing]\nrate = 9\nflangeway_mm = 45\n[passage]\nspeed_km_h = 72\n"
                                "[[crossing.modifier]]\nbody = \"wing\"\nstation_mm = 0\nlength_mm = 300\ndepth_mm = "
                                "0.5\n");
  folder.write("worn.toml", "base = \"designed.toml\"\n[[crossing.modifier]]\nbody = \"nose\"\nstation_mm = 500\n"
                            "length_mm = 300\ndepth_mm = 2\n");
  folder.write("sub/fast.toml", "base = \"../worn.toml\"\n[passage]\nspeed_km_h = 144\n");
  const auto worn = io::read_case(folder.path / "worn.toml");
  CHECK(worn.name == "worn");
  CHECK(shape(worn).rate == Approx(9));
  REQUIRE(shape(worn).modifiers.size() == 1); // replaced, not appended
  CHECK(shape(worn).modifiers[0].body == "nose");
  const auto fast = io::read_case(folder.path / "sub/fast.toml");
  CHECK(fast.passage.speed == Approx(40));
  CHECK(shape(fast).flangeway == Approx(0.045));
  CHECK(shape(fast).modifiers.size() == 1);
  REQUIRE(fast.inputs.size() == 3);
  CHECK(fast.inputs[0].role == "case");
  CHECK(fast.source_text.find("flangeway_mm = 45") != std::string::npos);
}

TEST_CASE("a base's keys for another kind of crossing are left behind when the case changes the kind") {
  const Folder folder;
  folder.write("designed.toml", "[crossing]\nkind = \"generated\"\nflangeway_mm = 45\n[vehicle]\npreset = \"coach\"\n");
  folder.write("joint.toml", "base = \"designed.toml\"\n[crossing]\nkind = \"joint\"\ndip_angle_mrad = 10\n");
  const auto c = io::read_case(folder.path / "joint.toml");
  CHECK(std::get<layout::DippedJoint>(c.excitation).dip_angle == Approx(0.010));
}

TEST_CASE("file names are taken from the folder of the file that names them") {
  const Folder folder;
  folder.write("path.csv", "# measured\nheight_mm,station_mm,remark\r\n0,-1000,1\r\n-1.5,0,2\r\n0,1000,3\r\n");
  folder.write("base.toml", "[crossing]\nkind = \"path\"\npath_csv = \"path.csv\"\n");
  folder.write("sub/case.toml", "base = \"../base.toml\"\n");
  const auto c = io::read_case(folder.path / "sub/case.toml");
  const auto& path = std::get<layout::GivenPath>(c.excitation);
  REQUIRE(path.station.size() == 3);
  CHECK(path.station[0] == Approx(-1.0));
  CHECK(path.height[1] == Approx(-0.0015));
  CHECK(c.inputs.back().role == "wheel path");
}

TEST_CASE("a vehicle given for both rails is halved, wheels keep their radius") {
  const Folder folder;
  const std::string table = "[[body]]\nname = \"load\"\nmass_kg = 16000\nx_m = 0\n[[wheel]]\nname = \"w\"\n"
                            "unsprung_mass_kg = 1800\nx_m = 0\nradius_mm = 420\n[[suspension]]\nupper = \"load\"\n"
                            "lower = \"w\"\nx_m = 0\nstiffness_MN_m = 2.4\n";
  folder.write("both.toml", "given_for = \"both rails\"\n" + table);
  folder.write("one.toml", "given_for = \"one rail\"\n" + table);
  const auto both = io::parse_case("[vehicle]\nfile = \"both.toml\"\n", "a.toml", folder.path).vehicle;
  const auto one = io::parse_case("[vehicle]\nfile = \"one.toml\"\n", "a.toml", folder.path).vehicle;
  CHECK(both.bodies.at(0).mass == Approx(one.bodies.at(0).mass / 2));
  CHECK(both.wheels.at(0).unsprung_mass == Approx(900));
  CHECK(both.suspensions.at(0).stiffness == Approx(1.2e6));
  CHECK(both.wheels.at(0).radius == Approx(0.42));
  CHECK(vehicle::assemble(both).static_load.at(0) == Approx(8900 * 9.81));
}

TEST_CASE("input files are identified by their SHA-256 checksum") {
  const auto c = io::parse_case("[case]\nname=\"x\"\n", "a.toml", ".");
  REQUIRE(c.inputs.size() == 1);
  // From an independent tool: printf '[case]\nname="x"\n' | sha256sum
  CHECK(c.inputs[0].sha256 == "0d8d5fe56a7ef8df88e2798c7bc46d9759e1d674337479fd546fc8a924ef72de");
}

TEST_CASE("the reference page names every key, and a case lists every value it rests on") {
  const std::string page = io::case_reference();
  for (const auto* key : {"speed_km_h", "dip_angle_mrad", "pad_stiffness_MN_m", "cut_off_Hz", "step_us", "given_for"}) {
    CHECK(page.find("| `" + std::string(key) + "` |") != std::string::npos);
  }
  // No key stands twice in its section.
  std::set<std::string> seen;
  std::istringstream text(page);
  for (std::string line, section; std::getline(text, line);) {
    if (line.rfind("#", 0) == 0) {
      section = line;
      seen.clear();
    } else if (line.rfind("| `", 0) == 0) {
      INFO(section << ": " << line);
      CHECK(seen.insert(line.substr(0, line.find('`', 3))).second);
    }
  }
  const auto lines = io::case_keys(parse("[passage]\nspeed_km_h = 99\n"));
  CHECK(std::find(lines.begin(), lines.end(), "passage.speed_km_h = 99") != lines.end());
  CHECK(std::find(lines.begin(), lines.end(), "crossing.flangeway_mm = 44") != lines.end());
  CHECK(std::none_of(lines.begin(), lines.end(),
                     [](const auto& line) { return line.find("dip_angle_mrad") != std::string::npos; }));
}

TEST_CASE("a suggestion is made for a slip of the finger and for a missing unit, not for another word") {
  CHECK(edit_distance("spacign", "spacing") == 1);
  CHECK(edit_distance("kitten", "sitting") == 3);
  CHECK(nearest("presett", {"preset", "file"}) == "preset");
  CHECK(nearest("flangeway", {"flangeway_mm", "gauge_mm"}) == "flangeway_mm");
  CHECK(nearest("colour", {"preset", "file"}).empty());
}
