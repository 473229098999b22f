// "wingnose contact" as a user runs it: exit codes, table, JSON, file.
#include "catch.hpp"
#include "program.hpp"

#include <filesystem>
#include <fstream>
#include <string>

namespace fs = std::filesystem;
using namespace program;

namespace {

Outcome contact(const Folder& folder, const std::string& file, const std::string& arguments) {
  return run(folder, "contact " + profile(file) + " " + arguments);
}

} // namespace

TEST_CASE("Contact at the transfer shows a patch on wing and nose, and ends with the caution") {
  const Folder folder;
  const auto r = contact(folder, "demo.toml", "");
  INFO(r.err);
  REQUIRE(r.code == 0);
  CHECK(r.err.empty());
  CHECK(has(r.out, "law: strips"));
  CHECK(has(r.out, "wing  "));
  CHECK(has(r.out, "nose  "));
  CHECK(has(r.out, "licensed engineers decide"));
}

TEST_CASE("Contact at a station and load of choice answers by every law, in JSON too, and stores pressure fields") {
  const Folder folder;
  for (const std::string law : {"ellipse", "strips", "half-space"}) {
    const auto r = contact(folder, "demo.toml", "--station-mm 700 --force-kN 120 --json --law " + law);
    INFO(r.err);
    REQUIRE(r.code == 0);
    CHECK(r.out.substr(0, 1) == "{");
    CHECK(has(r.out, "\"law\": \"" + law + "\""));
    CHECK(has(r.out, "\"peak_pressure_MPa\""));
    CHECK(has(r.out, "\"caution\""));
  }
  const fs::path file = folder.path / "contact.h5";
  const auto r = contact(folder, "demo.toml", "--station-mm 700 --cells 32 -o " + file.string());
  INFO(r.err);
  REQUIRE(r.code == 0);
  CHECK(has(r.out, "Half-space solution"));
  CHECK(content(file).substr(1, 3) == "HDF");
}

TEST_CASE("Contact on a joint is that of plain rail, and a shifted wheel on its flange root is warned of") {
  const Folder folder;
  const auto r = contact(folder, "dipped_joint.toml", "--station-mm 0");
  INFO(r.err);
  REQUIRE(r.code == 0);
  CHECK(has(r.out, "60E1"));
}

TEST_CASE("Contact of a wheel held otherwise than the case has it says so, in the table and in JSON") {
  const Folder folder;
  const auto usual = contact(folder, "demo.toml", "--law ellipse");
  const auto turned = contact(folder, "demo.toml", "--law ellipse --yaw-mrad 4");
  INFO(turned.err);
  REQUIRE((usual.code == 0 && turned.code == 0));
  CHECK(!has(usual.out, "yawed"));
  CHECK(has(turned.out, "wheel rolled 0 and yawed 4 mrad"));
  const auto json = contact(folder, "demo.toml", "--law ellipse --yaw-mrad 4 --json");
  CHECK(has(json.out, "\"yaw_mrad\": 4"));
}

TEST_CASE("Contact refuses what it cannot answer with one sentence") {
  const Folder folder;
  const auto law = contact(folder, "demo.toml", "--law spring");
  CHECK(law.code == 2);
  CHECK(has(law.err, "half-space"));
  const auto force = contact(folder, "demo.toml", "--force-kN -5");
  CHECK(force.code == 2);
  CHECK(has(force.err, "-5 kN"));
  const auto far = contact(folder, "demo.toml", "--station-mm 90000");
  CHECK(far.code == 1);
  CHECK(has(far.err, "90000 mm"));
  const auto yaw = contact(folder, "demo.toml", "--yaw-mrad 500");
  CHECK(yaw.code == 2);
  CHECK(has(yaw.err, "--yaw-mrad"));
  CHECK(has(yaw.err, "100"));
  const auto cells = contact(folder, "demo.toml", "--law half-space --cells 4");
  CHECK(cells.code == 2);
  const auto place = contact(folder, "demo.toml", "-o /nowhere/contact.h5");
  CHECK(place.code == 2);
}

TEST_CASE("Contact at an instant of the passage takes station and forces from it, and stores its pressure fields") {
  const Folder folder;
  for (const std::string at : {"transfer", "landing", "peak"}) {
    const auto r = contact(folder, "demo.toml", "--at " + at);
    INFO(r.err);
    REQUIRE(r.code == 0);
    CHECK(has(r.out, "Contact of the passage, " + at + ", at station"));
    CHECK(has(r.out, "nose  "));
    CHECK(has(r.out, "licensed engineers decide"));
  }
  const fs::path file = folder.path / "peak.h5";
  const auto r = contact(folder, "demo.toml", "--at peak --law half-space --cells 32 --json -o " + file.string());
  INFO(r.err);
  REQUIRE(r.code == 0);
  CHECK(has(r.out, "\"instant\": \"peak\""));
  CHECK(has(r.out, "\"time_ms\""));
  CHECK(content(file).substr(1, 3) == "HDF");
  const auto joint = contact(folder, "dipped_joint.toml", "--at peak");
  CHECK(joint.code == 0);
  CHECK(has(joint.out, "60E1"));
}

TEST_CASE("Contact tells a misspelt instant, one the passage does not have, and one beside a station of choice") {
  const Folder folder;
  const auto misspelt = contact(folder, "demo.toml", "--at middle");
  CHECK(misspelt.code == 2);
  CHECK(has(misspelt.err, "\"transfer\", \"landing\" or \"peak\""));
  const auto none = contact(folder, "dipped_joint.toml", "--at transfer");
  CHECK(none.code == 1);
  CHECK(has(none.err, "take landing or peak"));
  const auto both = contact(folder, "demo.toml", "--at peak --station-mm 500");
  CHECK(both.code == 2);
  CHECK(has(both.err, "--station-mm"));
}
