// A turnout by the real program: its geometry, and a vehicle through it.
#include "catch.hpp"
#include "program.hpp"

#include <fstream>
#include <string>

using namespace program;

namespace {

std::string diverging(const Folder& folder) {
  std::ofstream(folder.path / "case.toml") << "[turnout]\ngeometry = \"preset\"\npreset = \"R300-1:9\"\n"
                                              "way = \"diverging\"\n[passage]\nspeed_km_h = 50\n";
  return folder.file("case.toml");
}

} // namespace

TEST_CASE("The option --run sends a vehicle through the turnout, tells what the check rail takes, and stores it") {
  const Folder folder;
  const std::string file = diverging(folder), stored = folder.file("ride.h5");
  const Outcome run = program::run(folder, "turnout " + file + " --run --vehicle bogie --step-us 400 -o " + stored);
  INFO(run.err);
  REQUIRE(run.code == 0);
  CHECK(has(run.out, "What the check rail takes from the back of a wheel"));
  CHECK(has(run.out, "Prud'homme"));
  CHECK(has(run.out, "bogie"));
  const Outcome shown = program::run(folder, "show " + stored);
  INFO(shown.err);
  CHECK(shown.code == 0);
  CHECK(has(shown.out, "What the check rail takes from the back of a wheel"));
}

TEST_CASE("Options of a ride without --run, and a vehicle that is none in space, are refused") {
  const Folder folder;
  const std::string file = diverging(folder);
  CHECK(program::run(folder, "turnout " + file).code == 0);
  const Outcome without = program::run(folder, "turnout " + file + " --vehicle bogie");
  CHECK(without.code == 2);
  CHECK(has(without.err, "Add --run"));
  const Outcome unknown = program::run(folder, "turnout " + file + " --run --vehicle tram");
  CHECK(unknown.code == 2);
  CHECK(has(unknown.err, "coach_1998"));
}
