// Records of sensors by the real program.
#include "catch.hpp"
#include "program.hpp"

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

namespace fs = std::filesystem;
using namespace program;

namespace {

std::string with_sensors(const Folder& folder) {
  std::ofstream(folder.path / "case.toml") << "[crossing]\nkind = \"joint\"\ndip_angle_mrad = 10\n"
                                              "[track]\nmethod = \"chain\"\n"
                                              "[passage]\nfrom_m = -1.5\nto_m = 1.5\n"
                                              "[[sensor]]\nname = \"near\"\nstation_m = 0.1\n"
                                              "[[sensor]]\nname = \"rail\"\non = \"rail\"\nstation_m = -0.3\n"
                                              "quantity = \"displacement\"\nlow_Hz = 2\n";
  return folder.file("case.toml");
}

} // namespace

TEST_CASE("The option --sensors writes a record of every sensor with its chain, and replaces records only") {
  const Folder folder;
  const std::string file = with_sensors(folder), records = folder.file("records");
  const Outcome run = program::run(folder, "run " + file + " --sensors " + records);
  INFO(run.err);
  REQUIRE(run.code == 0);
  CHECK(has(run.out, "C(1-0.2 m)"));
  CHECK(has(run.out, "seat force"));
  CHECK(has(run.out, "hold up to 86 Hz"));
  std::istringstream near(content(fs::path(records) / "near.csv"));
  std::string line;
  std::getline(near, line);
  CHECK(has(line, "sensor \"near\" on the bearer at station 0 mm"));
  std::getline(near, line);
  CHECK(has(line, "anti-alias low-pass 4000 Hz (Butterworth, order 8), sampled at 10000 Hz, no high-pass"));
  while (line.starts_with("#")) {
    std::getline(near, line);
  }
  CHECK(line == "time_s,acceleration_sampled_m_s2,acceleration_m_s2,velocity_sampled_mm_s,velocity_mm_s,"
                "displacement_sampled_mm,displacement_mm,quasi_static_mm");
  int rows = 0;
  while (std::getline(near, line)) {
    ++rows;
  }
  CHECK(rows == 1000 + 1); // 3 m at 30 m/s, 10 kHz
  CHECK(!has(content(fs::path(records) / "rail.csv"), "velocity"));

  CHECK(program::run(folder, "run " + file + " --sensors " + records).code == 0); // again
  std::ofstream(fs::path(records) / "near.csv") << "something of mine\n";
  const Outcome mine = program::run(folder, "run " + file + " --sensors " + records);
  CHECK(mine.code == 2);
  CHECK(has(mine.err, "is no record of a sensor"));
  CHECK(content(fs::path(records) / "near.csv") == "something of mine\n");
}

TEST_CASE("The option --sensors is refused where there is no sensor or no folder") {
  const Folder folder;
  const Outcome none = program::run(folder, "run " + profile("demo.toml") + " --sensors " + folder.file("records"));
  CHECK(none.code == 2);
  CHECK(has(none.err, "[[sensor]]"));
  const Outcome nowhere = program::run(folder, "run " + with_sensors(folder) + " --sensors " + folder.file("no/such"));
  CHECK(nowhere.code == 2);
  CHECK(has(nowhere.err, "make that first"));
}
