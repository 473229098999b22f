// "wingnose show" as a user runs it: answers of every kind, and files that version 0.1 wrote.
#include "catch.hpp"
#include "program.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace fs = std::filesystem;
using namespace program;

namespace {

// Cases on a short coarse track, a comparison and a sweep of them.
void write_files(const Folder& folder) {
  for (const std::string name : {"demo", "worn"}) {
    std::ofstream(folder.file(name + ".toml")) << "base = \"" << profile(name + ".toml")
                                               << "\"\n[passage]\nfrom_m = -1\nto_m = 1.5\n[track]\nbays = 20\n"
                                                  "elements_per_bay = 4\n[damage]\nmap_x_mm = 20\nmap_y_mm = 5\n";
  }
  std::ofstream(folder.file("compare.toml"))
      << "[[crossing]]\nname = \"designed\"\ncase = \"demo.toml\"\n[[crossing]]\nname = \"worn\"\ncase = "
         "\"worn.toml\"\n[[wheel]]\nweight = 1\n[[wheel]]\nweight = 2\nwheel.lateral_offset_mm = 1\n[compare]\n"
         "resamples = 100\nsteel = true\n";
  std::ofstream(folder.file("sweep.toml")) << "case = \"demo.toml\"\n[[vary]]\nkey = \"passage.speed_km_h\"\n"
                                              "values = [90, 108]\n";
}

struct Kind {
  std::string kind, arguments; // of the answer, and the command that gives it
};

// Columns are as wide as what stands in them.
std::string single_spaced(std::string text) {
  text.erase(std::unique(text.begin(), text.end(), [](char a, char b) { return a == ' ' && b == ' '; }), text.end());
  return text;
}

// What a command prints of its answer is printed of its file, too.
void check_shown(const std::string& printed, const std::string& shown) {
  std::istringstream lines(printed);
  for (std::string line; std::getline(lines, line);) {
    const bool of_the_command = line.rfind("Stored in ", 0) == 0 || has(line, "computed now") || has(line, " time ") ||
                                has(line, "cases per second");
    if (!of_the_command) {
      CAPTURE(line);
      CHECK((line.empty() || has(single_spaced(shown), single_spaced(line))));
    }
  }
}

} // namespace

TEST_CASE("A stored answer of every kind is shown as it was printed, with its datasets, and in JSON") {
  const Folder folder;
  write_files(folder);
  const std::string demo = folder.file("demo.toml");
  const std::vector<Kind> kinds{{"run", "run " + demo},
                                {"geometry", "geometry " + demo},
                                {"estimate", "estimate " + demo},
                                {"track", "track " + demo},
                                {"contact", "contact --cells 16 " + demo},
                                {"damage", "damage --tonnage-MGT 1 --stages 2 " + demo},
                                {"speeds", "speeds --from 90 --to 110 --step 20 --steel --limit p2_kN=165 " + demo},
                                {"comparison", "compare " + folder.file("compare.toml")},
                                {"sweep", "sweep " + folder.file("sweep.toml")}};
  for (const Kind& one : kinds) {
    CAPTURE(one.arguments);
    const std::string file = folder.file(one.kind + ".h5");
    const auto made = run(folder, one.arguments + " -o " + file);
    INFO(made.err);
    REQUIRE(made.code == 0);
    const auto shown = run(folder, "show " + file);
    REQUIRE(shown.code == 0);
    CHECK(shown.err.empty());
    CHECK(has(shown.out, "kind"));
    CHECK(has(shown.out, one.kind));
    CHECK(has(shown.out, "Datasets"));
    CHECK(has(shown.out, "licensed engineers decide"));
    check_shown(made.out, shown.out);
    const auto told = run(folder, "show --json " + file);
    REQUIRE(told.code == 0);
    const auto json = nlohmann::json::parse(told.out);
    CHECK(json.at("kind") == one.kind);
    CHECK(json.contains("caution"));
  }
}

TEST_CASE("Files of version 0.1 are shown, each number by its name, and in JSON") {
  const Folder folder;
  const auto show = [&](const std::string& options, const std::string& file) {
    return run(folder, "show " + options + " " WINGNOSE_SOURCE_DIR "/tests/data/" + file);
  };
  struct Old {
    std::string file, kind, piece;
  };
  for (const Old& old : {Old{"run_0_1.h5", "result", "largest total force"},
                         Old{"contact_0_1.h5", "contact", "patches/peak_pressure_MPa"},
                         Old{"damage_0_1.h5", "damage", "shakedown exceedance"},
                         Old{"speeds_0_1.h5", "speeds", "speeds/p2_kN"}, Old{"sweep_0_1.h5", "sweep", "stored"}}) {
    CAPTURE(old.file);
    const auto shown = show("", old.file);
    INFO(shown.err);
    REQUIRE(shown.code == 0);
    CHECK(has(shown.out, old.kind));
    CHECK(has(shown.out, "0.1.0"));
    CHECK(has(shown.out, old.piece));
    CHECK(has(shown.out, "Datasets"));
    const auto told = show("--json", old.file);
    INFO(told.err);
    REQUIRE(told.code == 0);
    CHECK(nlohmann::json::parse(told.out).at("version") == "0.1.0");
  }
}
