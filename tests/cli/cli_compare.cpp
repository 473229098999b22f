// "wingnose compare" as a user runs it: exit codes, tables, JSON, file.
#include "catch.hpp"
#include "program.hpp"

#include <chrono>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <random>
#include <string>
#include <thread>

namespace fs = std::filesystem;
using namespace program;

namespace {

Outcome compare(const Folder& folder, const std::string& arguments) { return run(folder, "compare " + arguments); }

// Two crossings on a short coarse track under a dozen wheels.
void write_comparison(const Folder& folder, const std::string& more = "", int count = 12) {
  for (const std::string name : {"demo", "worn"}) {
    std::ofstream(folder.file(name + ".toml")) << "base = \"" << WINGNOSE_SOURCE_DIR << "/profiles/" << name
                                               << ".toml\"\n[passage]\nfrom_m = -1\nto_m = 1.5\n[track]\nbays = 20\n"
                                                  "elements_per_bay = 4\n";
  }
  std::ofstream(folder.file("compare.toml")) << "[[crossing]]\nname = \"designed\"\ncase = "
                                                "\"demo.toml\"\n[[crossing]]\nname = \"worn\"\ncase = \"worn.toml\"\n"
                                                "[population]\ncount = "
                                             << count
                                             << "\n[[population.vary]]\nkey = "
                                                "\"wheel.lateral_offset_mm\"\ndistribution = \"uniform\"\n"
                                                "from = -3\nto = 5\n[compare]\nresamples = 200\n"
                                             << more;
}

// The program at work, to be sent signals.
pid_t begin(const Folder& folder, const std::string& output) {
  return start(folder, {"compare", folder.file("compare.toml"), "-o", output, "--threads", "2"});
}

std::size_t files_in(const Folder& folder) {
  std::size_t files = 0;
  for ([[maybe_unused]] const auto& entry : fs::directory_iterator(folder.path)) {
    ++files;
  }
  return files;
}

} // namespace

TEST_CASE("A comparison stores the same bytes whatever the hour and the number of threads") {
  const Folder folder;
  write_comparison(folder);
  REQUIRE(compare(folder, folder.file("compare.toml") + " --threads 1 -o " + folder.file("a.h5")).code == 0);
  std::this_thread::sleep_for(std::chrono::milliseconds(1100)); // files tell time in whole seconds
  REQUIRE(compare(folder, folder.file("compare.toml") + " --threads 2 -o " + folder.file("b.h5")).code == 0);
  const bool same = content(folder.file("a.h5")) == content(folder.file("b.h5")); // not shown: it is binary
  CHECK(same);
}

TEST_CASE("A comparison interrupted on the way says so, stores nothing and leaves what was there before") {
  const Folder folder;
  write_comparison(folder, "steel = true\n", times(60));
  const std::string target = folder.file("a.h5");
  const auto started = std::chrono::steady_clock::now();
  REQUIRE(wait_for(begin(folder, target)) == 0);
  const auto took = std::chrono::steady_clock::now() - started;
  const std::string before = content(target);
  const bool there_before = GENERATE(false, true);
  if (!there_before) {
    fs::remove(target);
  }
  const std::size_t files = files_in(folder);
  std::mt19937 random(11);
  int stopped = 0, attempts = 0;
  double aim = 1.0; // of the time it took: other work on the machine makes it slower or quicker
  while (stopped < 4 && ++attempts <= 30) {
    const pid_t child = begin(folder, target);
    std::this_thread::sleep_for(took * aim * std::uniform_real_distribution<>(0.2, 0.8)(random));
    ::kill(child, SIGINT);
    const int code = wait_for(child);
    INFO("attempt " << attempts << " ended with " << code << ": " << content(folder.file("err")));
    if (code == -SIGINT) { // it had not begun
      CHECK(fs::exists(target) == there_before);
      aim *= 1.4;
      continue;
    }
    if (code == 0) { // it was quicker
      aim *= 0.7;
      const bool same = content(target) == before;
      REQUIRE(same);
      if (!there_before) {
        fs::remove(target);
      }
      continue;
    }
    CHECK(code == 130);
    CHECK(has(content(folder.file("err")), "stopped: the comparison was given up and nothing was stored"));
    CHECK(content(folder.file("out")).empty());
    CHECK(files_in(folder) == files);
    CHECK(fs::exists(target) == there_before);
    const bool kept = !there_before || content(target) == before;
    CHECK(kept);
    ++stopped;
  }
  CHECK(stopped == 4);
}

TEST_CASE("What the landings do to the steel is told when asked for, with what it rests on") {
  const Folder folder;
  write_comparison(folder);
  const auto off = compare(folder, folder.file("compare.toml"));
  write_comparison(folder, "steel = true\n");
  const auto on = compare(folder, folder.file("compare.toml") + " -o " + folder.file("a.h5"));
  INFO(on.err);
  REQUIRE(on.code == 0);
  for (const std::string piece :
       {"Peak pressure, MPa\n", "Shakedown exceedance\n", "Surface fatigue index\n", "T-gamma, N\n",
        "Wear volume, mm3\n", "Share of wheels that strain the steel", "shakedown exceedance, 95 %",
        "What the numbers of the steel rest on", "runs straight", "R350HT"}) {
    INFO(piece);
    CHECK(has(on.out, piece));
    CHECK_FALSE(has(off.out, piece));
  }
}

TEST_CASE("A comparison prints distributions, ranking, differences, early wheels and the caution, and is stored") {
  const Folder folder;
  write_comparison(folder);
  const auto outcome = compare(folder, folder.file("compare.toml") + " -o " + folder.file("a.h5"));
  INFO(outcome.err);
  REQUIRE(outcome.code == 0);
  CHECK(outcome.err.empty());
  for (const std::string piece :
       {"Transfer station, mm", "P2, kN", "Load on the nose by its thickness", "Ranking, best first",
        "What the ranking depends on", "\"worn\" less \"designed\"", "transfer early, where the nose is thinner than",
        "local standards and licensed engineers decide"}) {
    INFO(piece);
    CHECK(has(outcome.out, piece));
  }
  CHECK(fs::file_size(folder.file("a.h5")) > 10'000);
}

TEST_CASE("A comparison in JSON is one object, the same for any number of threads") {
  const Folder folder;
  write_comparison(folder);
  const auto one = compare(folder, "--json --threads 1 " + folder.file("compare.toml"));
  const auto two = compare(folder, "--json --threads 2 " + folder.file("compare.toml"));
  CHECK(one.code == 0);
  CHECK(one.out.substr(0, 1) == "{");
  CHECK(one.out.substr(one.out.size() - 2) == "}\n");
  CHECK(one.out == two.out);
}

TEST_CASE("Mistakes in a comparison end with exit code 2 and nothing stored") {
  const Folder folder;
  write_comparison(folder, "[[population.vary]]\n");
  CHECK(compare(folder, folder.file("compare.toml") + " -o " + folder.file("a.h5")).code == 2);
  write_comparison(folder, "thin_nose = 20\n");
  const auto misspelt = compare(folder, folder.file("compare.toml") + " -o " + folder.file("a.h5"));
  CHECK(misspelt.code == 2);
  CHECK(has(misspelt.err, "Did you mean \"thin_nose_mm\"?"));
  CHECK(misspelt.out.empty());
  write_comparison(folder);
  CHECK(compare(folder, folder.file("compare.toml") + " -o " + folder.file("no_folder/a.h5")).code == 2);
  CHECK(!fs::exists(folder.file("a.h5")));
}
