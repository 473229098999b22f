// The real program, run as a user runs it: exit codes, streams, files.
#include "catch.hpp"
#include "program.hpp"

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <string>

namespace fs = std::filesystem;
using namespace program;

namespace {

Outcome wingnose(const Folder& folder, const std::string& arguments) { return run(folder, arguments); }

const std::string source = WINGNOSE_SOURCE_DIR;
constexpr const char* caution = "local standards and licensed engineers decide";

} // namespace

TEST_CASE("Bad input ends with exit code 2 and one prefixed message, nothing on standard output") {
  const Folder folder;
  for (const std::string& arguments :
       {"run " + source + "/tests/input_errors/speed_out_of_range.toml",
        "geometry " + source + "/tests/input_errors/not_toml.toml", std::string("track no_such_case.toml"),
        std::string("show no_such_result.h5"), std::string("run"), std::string("run a.toml --no-such-option"),
        "run " + source + "/profiles/demo.toml -o " + folder.path.string() + "/no_such_folder/a.h5"}) {
    const auto outcome = wingnose(folder, arguments);
    INFO(arguments << " -> " << outcome.err);
    CHECK(outcome.code == 2);
    CHECK(outcome.err.rfind("wingnose: error: ", 0) == 0);
    CHECK(outcome.out.empty());
  }
}

TEST_CASE("A misspelt command is answered with the likely one") {
  const Folder folder;
  const auto outcome = wingnose(folder, "geomtry case.toml");
  CHECK(outcome.code == 2);
  CHECK(has(outcome.err, "Did you mean \"geometry\"?"));
}

TEST_CASE("Help, version and keys answer with exit code 0") {
  const Folder folder;
  CHECK(has(wingnose(folder, "--help").out, "geometry"));
  CHECK(has(wingnose(folder, "--version").out, "wingnose "));
  const auto keys = wingnose(folder, "keys");
  CHECK(keys.code == 0);
  CHECK(has(keys.out, "`speed_km_h`"));
  CHECK(has(keys.out, "`history/force_N`"));
}

TEST_CASE("A run prints tables with the caution, stores its result, and the result can be shown") {
  const Folder folder;
  const std::string result = (folder.path / "demo.h5").string();
  const auto run = wingnose(folder, "run " + source + "/profiles/demo.toml -o " + result);
  INFO(run.err);
  REQUIRE(run.code == 0);
  CHECK(run.err.empty());
  CHECK(has(run.out, "transfer station"));
  CHECK(has(run.out, "P2"));
  CHECK(has(run.out, caution));
  const auto shown = wingnose(folder, "show " + result);
  CHECK(shown.code == 0);
  CHECK(has(shown.out, "history/force_nose_N"));
  CHECK(has(shown.out, caution));
}

TEST_CASE("Every command on a case answers in JSON alone when asked to") {
  const Folder folder;
  for (const std::string command : {"geometry", "estimate", "track", "run"}) {
    const auto outcome = wingnose(folder, command + " --json " + source + "/profiles/demo.toml");
    INFO(command << " -> " << outcome.err);
    CHECK(outcome.code == 0);
    CHECK(outcome.out.substr(0, 1) == "{");
    CHECK(outcome.out.substr(outcome.out.size() - 2) == "}\n");
    CHECK(has(outcome.out, caution));
  }
}
