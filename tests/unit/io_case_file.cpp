// Case files: bases they are built on, files they name, checksums.
#include "catch.hpp"
#include "folder.hpp"

#include "wingnose/io/case_file.hpp"

#include <algorithm>
#include <string>

using namespace wingnose;

namespace {

const layout::CrossingShape& shape(const cases::Case& c) { return std::get<layout::CrossingShape>(c.excitation); }

} // namespace

TEST_CASE("Worn and repaired crossings derive from the designed one by naming it as base") {
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

TEST_CASE("A base's keys for another kind of crossing are left behind when the case changes the kind") {
  const Folder folder;
  folder.write("designed.toml", "[crossing]\nkind = \"generated\"\nflangeway_mm = 45\n[vehicle]\npreset = \"coach\"\n");
  folder.write("joint.toml", "base = \"designed.toml\"\n[crossing]\nkind = \"joint\"\ndip_angle_mrad = 10\n");
  const auto c = io::read_case(folder.path / "joint.toml");
  CHECK(std::get<layout::DippedJoint>(c.excitation).dip_angle == Approx(0.010));
}

TEST_CASE("File names are taken from the folder of the file that names them") {
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

TEST_CASE("Input files are identified by their SHA-256 checksum") {
  const auto c = io::parse_case("[case]\nname=\"x\"\n", "a.toml", ".");
  REQUIRE(c.inputs.size() == 1);
  // From an independent tool: printf '[case]\nname="x"\n' | sha256sum
  CHECK(c.inputs[0].sha256 == "0d8d5fe56a7ef8df88e2798c7bc46d9759e1d674337479fd546fc8a924ef72de");
}
