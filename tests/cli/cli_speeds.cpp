// "wingnose speeds" as a user runs it: exit codes, tables, JSON, file.
#include "catch.hpp"
#include "program.hpp"

#include <nlohmann/json.hpp>

#include <filesystem>
#include <fstream>
#include <string>

namespace fs = std::filesystem;
using namespace program;

namespace {

Outcome speeds(const Folder& folder, const std::string& arguments) {
  return run(folder, "speeds " + profile("demo.toml") + " " + arguments);
}

// The first line that begins so, without blanks at its end.
std::string line_of(const std::string& text, const std::string& beginning) {
  const auto found = text.find('\n' + beginning);
  const std::string line =
      found == std::string::npos ? "" : text.substr(found + 1, text.find('\n', found + 1) - found - 1);
  return line.substr(0, line.find_last_not_of(' ') + 1);
}

} // namespace

TEST_CASE("A speed study prints forces beside closed forms, limits with their source, the change and the caution") {
  const Folder folder;
  const std::string file = (folder.path / "speeds.h5").string();
  const auto r = speeds(folder, "--from 80 --to 140 --step 20 --today 100 --proposed 120 --limit p2_kN=170 --source "
                                "\"House rule 7\" --limit dip_angle_mrad=1 --limit peak_nose_kN=900 -o " +
                                    file);
  INFO(r.err);
  REQUIRE(r.code == 0);
  CHECK(r.err.empty());
  CHECK(line_of(r.out, "  100.0 ").ends_with(" today"));
  CHECK(line_of(r.out, "  120.0 ").ends_with(" proposed"));
  CHECK(has(r.out, "P2 kN, GM/TT0088"));
  CHECK(has(r.out, "P2 at most 170 kN (House rule 7): kept up to "));
  CHECK(has(r.out, "dip angle at most 1 mrad (source not named): already broken at 80 km/h"));
  CHECK(has(r.out, "not reached up to 140 km/h"));
  CHECK(has(r.out, "no speed from 80 km/h upwards can be permitted"));
  CHECK(has(r.out, "Change from today's 100 km/h to the proposed 120 km/h"));
  CHECK(has(r.out, "licensed engineers decide"));
  CHECK(content(file).substr(1, 3) == "HDF");
  std::size_t files = 0; // out, err and the result: no unfinished file is left
  for ([[maybe_unused]] const auto& entry : fs::directory_iterator(folder.path)) {
    ++files;
  }
  CHECK(files == 3);
}

TEST_CASE("A speed study answers in JSON alone when asked to, whatever the number of threads") {
  const Folder folder;
  const std::string range = "--json --from 90 --to 130 --step 20 --limit p2_kN=165 --source rule ";
  const auto one = speeds(folder, range + "--threads 1"), two = speeds(folder, range + "--threads 2");
  INFO(one.err);
  REQUIRE(one.code == 0);
  CHECK(one.out.substr(0, 1) == "{");
  CHECK(one.out.substr(one.out.size() - 2) == "}\n");
  for (const char* piece : {"\"speed_km_h\": 110.0", "\"p2_kN\"", "\"permissible_speed_km_h\"", "\"source\": \"rule\"",
                            "\"outcome\": \"found\"", "\"governed_by\": \"p2_kN\""}) {
    CAPTURE(piece);
    CHECK(has(one.out, piece));
  }
  CHECK(nlohmann::json::parse(one.out).at("change").at("quantity").empty()); // nothing to compare was asked for
  CHECK(one.out == two.out);
}

TEST_CASE("A closed form that would allow more than the passages do is warned of before the answer") {
  const Folder folder;
  const auto r = speeds(folder, "--from 90 --to 130 --step 20 --limit p2_kN=165 --source rule");
  INFO(r.out);
  REQUIRE(r.code == 0);
  const auto warning = r.out.find("do not take the higher speed from it"),
             answer = r.out.find("highest speed that keeps");
  REQUIRE(warning != std::string::npos);
  REQUIRE(answer != std::string::npos);
  CHECK(warning < answer);
}

TEST_CASE("A speed study tells of the steel when asked to, or when a limit is put on it, and else as ever") {
  const Folder folder;
  const std::string range = "--from 90 --to 110 --step 20 ";
  const auto off = speeds(folder, range), on = speeds(folder, range + "--steel");
  REQUIRE(on.code == 0);
  for (const char* piece : {"What the landing does to the steel: R350HT, friction 0.3", "shakedown exceedance",
                            "What the numbers of the steel rest on", "run-in pressure"}) {
    CAPTURE(piece);
    CHECK(has(on.out, piece));
    CHECK_FALSE(has(off.out, piece));
  }
  const auto json = speeds(folder, range + "--json --limit shakedown_exceedance=100 --source rule");
  for (const char* piece : {"\"wear_volume_mm3\"", "\"name\": \"R350HT\"", "the wheelset runs straight",
                            "\"quantity\": \"shakedown_exceedance\"", "\"outcome\": \"not_reached\""}) {
    CAPTURE(piece);
    CHECK(has(json.out, piece));
  }
  CHECK_FALSE(has(speeds(folder, range + "--json").out, "steel"));
}

TEST_CASE("Options of a speed study that cannot be end with exit code 2 and say what would be right") {
  const Folder folder;
  const auto refused = [&](const std::string& arguments, const std::string& piece) {
    const auto r = speeds(folder, arguments);
    INFO(arguments << " -> " << r.err);
    CHECK(r.code == 2);
    CHECK(r.out.empty());
    CHECK(has(r.err, piece));
  };
  refused("--to 100", "--from");
  refused("--from 100 --to 60", "above the lowest speed of 100 km/h");
  refused("--from 60 --to 100 --step 0", "speed step");
  refused("--from 60 --to 100 --step fast", "--step");
  refused("--from 60 --to 100 --limit p2_N=200", "Did you mean \"p2_kN\"?");
  refused("--from 60 --to 100 --limit force=200", "Known here: ");
  refused("--from 60 --to 100 --limit peak_presure_MPa=1500", "Did you mean \"peak_pressure_MPa\"?");
  refused("--from 60 --to 100 --limit p2_kN=much", "a number above 0 in kN");
  refused("--from 60 --to 100 --limit 200", "quantity=value");
  refused("--from 60 --to 100 --source \"House rule\"", "after each --limit");
  refused("--from 60 --to 100 --today 80", "belong together");
  refused("--from 60 --to 100 --today 80 --proposed 120", "Widen the range");
  refused("--from 60 --to 100 --threads -1", "threads");
  refused("--from 60 --to 100 -o " + folder.path.string() + "/none/a.h5", "does not exist");
}
