// "wingnose damage" as a user runs it: exit codes, table, JSON, file, one wheel and a mixed traffic.
#include "catch.hpp"
#include "program.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <string>

namespace fs = std::filesystem;
using namespace program;

namespace {

Outcome damage(const Folder& folder, const std::string& file, const std::string& arguments) {
  return run(folder, "damage " + profile(file) + " " + arguments);
}

nlohmann::json parsed(const Outcome& r) {
  INFO(r.err);
  REQUIRE(r.code == 0);
  return nlohmann::json::parse(r.out);
}

const std::string little = "[population]\ncount = 6\nseed = 3\n[[population.vary]]\nkey = "
                           "\"wheel.lateral_offset_mm\"\ndistribution = \"uniform\"\nfrom = -2\nto = 2\n";

} // namespace

TEST_CASE("Damage tells one wheel's landing in a table that ends with the caution") {
  const Folder folder;
  const auto r = damage(folder, "demo.toml", "");
  INFO(r.err);
  REQUIRE(r.code == 0);
  CHECK(r.err.empty());
  CHECK(has(r.out, "Steel under one wheel: R350HT"));
  CHECK(has(r.out, "shakedown exceedance"));
  CHECK(has(r.out, "station mm"));
  CHECK(!has(r.out, "wheels beyond shakedown"));
  CHECK(has(r.out, "licensed engineers decide"));
}

TEST_CASE("Damage in JSON tells steel, places and stages, and more friction dissipates more") {
  const Folder folder;
  const auto dry = parsed(damage(folder, "demo.toml", "--json --steel Mn --tonnage-MGT 5 --stages 3"));
  CHECK(dry["steel"]["name"] == "Mn");
  CHECK(dry["traffic"]["tonnage_MGT"] == 5);
  REQUIRE(dry["traffic"]["stages"].size() == 3);
  CHECK(dry["traffic"]["stages"][2]["shear_yield_MPa"] > dry["traffic"]["stages"][0]["shear_yield_MPa"]);
  CHECK(has(dry["caution"].get<std::string>(), "licensed engineers"));
  const auto wet = parsed(damage(folder, "demo.toml", "--json --steel Mn --friction 0.1"));
  CHECK(wet["measures"]["creep_force_kN"] < dry["measures"]["creep_force_kN"]);
  CHECK(wet["measures"]["peak_pressure_MPa"] == dry["measures"]["peak_pressure_MPa"]);
  CHECK(!wet.contains("traffic"));
}

TEST_CASE("Damage is stored in a file named at the end") {
  const Folder folder;
  const fs::path file = folder.path / "damage.h5";
  const auto r = damage(folder, "demo.toml", "--tonnage-MGT 1 --stages 2 -o " + file.string());
  INFO(r.err);
  REQUIRE(r.code == 0);
  CHECK(has(r.out, "Traffic of such wheels"));
  CHECK(has(r.out, "Stored in " + file.string()));
  CHECK(content(file).substr(1, 3) == "HDF");
}

TEST_CASE("Damage refuses what it cannot answer with one sentence, and leaves no file") {
  const Folder folder;
  const fs::path file = folder.path / "damage.h5";
  const auto refused = [&](const std::string& arguments) {
    const auto r = damage(folder, "demo.toml", arguments + " -o " + file.string());
    CHECK(r.code == 2);
    CHECK(r.out.empty());
    CHECK(std::count(r.err.begin(), r.err.end(), '\n') == 1);
    CHECK(!fs::exists(file));
    return r.err;
  };
  const std::string steel = refused("--steel R350TH");
  CHECK(has(steel, "R350TH"));
  CHECK(has(steel, "R350HT"));
  CHECK(has(refused("--friction 1.5"), "0 to 1"));
  CHECK(has(refused("--friction=-0.1"), "0 to 1"));
  CHECK(has(refused("--tonnage-MGT 5 --stages 0"), "1 to 1000"));
  CHECK(has(refused("--tonnage-MGT=-5"), "-5 MGT"));
  CHECK(has(refused("--traffic " WINGNOSE_SOURCE_DIR "/profiles/traffic.toml"), "--tonnage-MGT"));
  CHECK(has(refused("--tonnage-MGT 5 --traffic nowhere.toml"), "nowhere.toml"));
  CHECK(damage(folder, "demo.toml", "-o /nowhere/damage.h5").code == 2);
  CHECK(damage(folder, "no_such_case.toml", "").code == 2);
}

TEST_CASE("A mixed traffic rolls over the case's crossing, whatever the threads, and its file tells every wheel") {
  const Folder folder;
  const fs::path traffic = folder.path / "traffic.toml", file = folder.path / "damage.h5";
  std::ofstream(traffic) << little;
  const std::string arguments = "--steel Mn --tonnage-MGT 2 --stages 2 --traffic " + traffic.string();
  const auto r = damage(folder, "demo.toml", arguments + " -o " + file.string());
  INFO(r.err);
  REQUIRE(r.code == 0);
  CHECK(has(r.out, "Traffic of 6 kinds of wheels"));
  CHECK(has(r.out, "all wheels"));
  CHECK(has(r.out, "licensed engineers decide"));
  CHECK(content(file).substr(1, 3) == "HDF");
  const auto one = damage(folder, "demo.toml", arguments + " --json --threads 1");
  const auto two = damage(folder, "demo.toml", arguments + " --json --threads 2");
  CHECK(one.out == two.out);
  const auto told = parsed(one)["traffic"];
  CHECK(told["classes"].back()["name"] == "all wheels");
  CHECK(told["classes"].back()["kinds"] == 6);
  CHECK(told["failed"] == 0);
}

TEST_CASE("Wheels of a traffic that cannot be computed are counted and named, not dropped in silence") {
  const Folder folder;
  const fs::path traffic = folder.path / "traffic.toml";
  std::ofstream(traffic) << "[[wheel]]\nname = \"good\"\nweight = 3\n"
                            "[[wheel]]\nname = \"astray\"\nweight = 1\nwheel.lateral_offset_mm = 1000\n";
  const auto r = damage(folder, "demo.toml", "--json --tonnage-MGT 2 --stages 1 --traffic " + traffic.string());
  const auto told = parsed(r);
  CHECK(told["traffic"]["failed"] == 1);
  CHECK(told["traffic"]["failed_share"] == 0.25);
  CHECK(has(told["findings"].dump(), "astray"));
  std::ofstream(traffic) << "[[wheel]]\nweight = 1\nwheel.lateral_ofset_mm = 1\n";
  const auto misspelt = damage(folder, "demo.toml", "--tonnage-MGT 2 --traffic " + traffic.string());
  CHECK(misspelt.code == 2);
  CHECK(has(misspelt.err, "lateral_offset_mm"));
  std::ofstream(traffic) << "[[wheel]]\nweight = 1\ndamage.friction = 0.2\n";
  const auto friction = damage(folder, "demo.toml", "--tonnage-MGT 2 --traffic " + traffic.string());
  CHECK(friction.code == 2);
  CHECK(has(friction.err, "damage.friction"));
}

TEST_CASE("Steel and friction on the command line go before those of the case file") {
  const Folder folder;
  std::ofstream(folder.file("own.toml")) << "base = \"" << profile("demo.toml")
                                         << "\"\n[damage]\nsteel = \"Mn\"\nfriction = 0.2\n";
  const auto of_case = parsed(run(folder, "damage " + folder.file("own.toml") + " --json"));
  const auto given = parsed(run(folder, "damage " + folder.file("own.toml") + " --steel R260 --friction 0.4 --json"));
  CHECK(of_case.at("steel").at("name") == "Mn");
  CHECK(given.at("steel").at("name") == "R260");
  CHECK(of_case.at("steel").at("friction") == 0.2);
  CHECK(given.at("steel").at("friction") == 0.4);
  CHECK(of_case.at("measures").at("traction_coefficient").get<double>() <= 0.2 * (1.0 + 1e-9));
  CHECK(given.at("measures").at("traction_coefficient").get<double>() > 0.2);
}
