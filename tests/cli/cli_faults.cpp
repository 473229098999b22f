// What goes wrong around the program: full disks, kills, folders, devices, names that would act on a terminal.
#include "catch.hpp"
#include "file_limit.hpp"
#include "program.hpp"

#include <sys/stat.h>

#include <chrono>
#include <cmath>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <random>
#include <string>
#include <thread>

namespace fs = std::filesystem;
using namespace program;

namespace {

void write(const fs::path& file, const std::string& text) { std::ofstream(file, std::ios::binary) << text; }

// A case over a short stretch of a coarse track, a sweep of it, a comparison with itself.
void write_small_files(const Folder& folder) {
  const std::string shorter = "[passage]\nfrom_m = -1\nto_m = 1.5\n[track]\nbays = 20\nelements_per_bay = 4\n";
  for (const std::string name : {"demo", "worn"}) {
    write(folder.file(name + ".toml"), "base = \"" + profile(name + ".toml") + "\"\n" + shorter);
  }
  write(folder.file("sweep.toml"), "case = \"demo.toml\"\n[[vary]]\nkey = \"passage.speed_km_h\"\nvalues = [80, 90]\n");
  write(folder.file("compare.toml"),
        "[[crossing]]\nname = \"designed\"\ncase = \"demo.toml\"\n[[crossing]]\nname = \"worn\"\ncase = \"worn.toml\"\n"
        "[population]\ncount = 8\n[[population.vary]]\nkey = \"wheel.lateral_offset_mm\"\ndistribution = \"uniform\"\n"
        "from = -3\nto = 3\n[compare]\nresamples = 100\n");
}

std::size_t files_in(const Folder& folder) {
  std::size_t files = 0;
  for ([[maybe_unused]] const auto& entry : fs::directory_iterator(folder.path)) {
    ++files;
  }
  return files;
}

bool one_message(const Outcome& r) {
  return r.err.rfind("wingnose: error: ", 0) == 0 && r.err.find('\n') == r.err.size() - 1 && r.out.empty();
}

} // namespace

TEST_CASE("On a full disk every command says so in one message and ends in order") {
  const Folder folder;
  write_small_files(folder);
  for (const std::string command :
       {"run demo.toml", "geometry demo.toml", "estimate demo.toml", "track demo.toml", "contact demo.toml",
        "damage demo.toml", "speeds demo.toml --from 80 --to 90", "compare compare.toml", "sweep sweep.toml"}) {
    write(folder.file("out"), "");
    write(folder.file("err"), "");
    const std::size_t files = files_in(folder);
    const Outcome r = [&] {
      const FileLimit full(2000, false);
      const auto blank = command.find(' ');
      return run(folder, command.substr(0, blank) + " " + folder.path.string() + "/" + command.substr(blank + 1) +
                             " -o " + folder.file("answer.h5"));
    }();
    INFO(command << " -> " << r.code << ": " << r.err);
    CHECK(r.code == 1);
    CHECK(one_message(r));
    CHECK(has(r.err, "answer.h5\" could not be written: File too large; free some space or choose another disk"));
    CHECK(files_in(folder) == files);
  }
}

TEST_CASE("A comparison killed at any moment leaves the file of before or the new one, both whole") {
  const Folder folder;
  write_small_files(folder);
  const std::string output = folder.file("answer.h5");
  const auto begin = [&] { return start(folder, {"compare", folder.file("compare.toml"), "-o", output}); };
  const auto started = std::chrono::steady_clock::now();
  REQUIRE(wait_for(begin()) == 0);
  const auto took = std::chrono::steady_clock::now() - started;
  const std::string new_one = content(output),
                    old = (write(folder.file("more.toml"), ""), [&] {
                      REQUIRE(run(folder, "track " + folder.file("demo.toml") + " -o " + output).code == 0);
                      return content(output);
                    }());
  std::mt19937 random(6);
  int killed = 0;
  for (int attempt = 0; killed < times(20) && attempt < 100; ++attempt) {
    write(output, old);
    const pid_t child = begin();
    // Half of them near the end, where the file is written.
    std::this_thread::sleep_for(took * std::uniform_real_distribution<>(attempt % 2 == 0 ? 0.1 : 0.85, 1.0)(random));
    ::kill(child, SIGKILL);
    killed += wait_for(child) == -SIGKILL ? 1 : 0;
    const bool whole = content(output) == old || content(output) == new_one;
    CHECK(whole);
  }
  CHECK(killed == times(20));
}

TEST_CASE("Where nothing can be stored is found out before anything is computed, in one message") {
  const Folder folder;
  write_small_files(folder);
  REQUIRE(::mkfifo(folder.file("pipe").c_str(), 0600) == 0);
  for (const auto& [output, said] :
       {std::pair<std::string, std::string>{"\"\"", "--output: \"\" is not allowed; allowed: the name of a file"},
        {folder.path.string(), "is a folder; give a file name"},
        {folder.file("no_such_folder/answer.h5"), "does not exist; make it first"},
        {folder.file("demo.toml"), "exists and is no HDF5 file; it is not replaced"},
        {folder.file("pipe"), "is a device, a pipe or a socket"},
        {"/proc/answer.h5", "of the result file cannot be written to; choose another"}}) {
    for (const std::string command : {"run", "speeds --from 80 --to 90", "sweep"}) {
      const bool sweep = command == "sweep";
      if (output == "/proc/answer.h5" && ::access("/proc", W_OK) == 0) {
        continue; // root is told by the access function that it may write where nobody can
      }
      const auto started = std::chrono::steady_clock::now();
      const auto r =
          run(folder, command + " " + folder.file(sweep ? "sweep.toml" : "demo.toml") + " --output " + output);
      INFO(command << " " << output << " -> " << r.code << ": " << r.err);
      CHECK(r.code == 2);
      CHECK(one_message(r));
      CHECK(has(r.err, said));
      CHECK(std::chrono::steady_clock::now() - started < std::chrono::seconds(5));
    }
  }
}

TEST_CASE("A speed no case may have is refused in the unit it was given in, before anything is computed") {
  const Folder folder;
  write_small_files(folder);
  const auto r = run(folder, "speeds " + folder.file("demo.toml") + " --from 60 --to 900");
  CHECK(r.code == 2);
  CHECK(has(r.err, "highest speed: 900 km/h is not allowed; allowed: up to 500 km/h"));
}

TEST_CASE("A study of speeds stopped by Ctrl-C says so and stores nothing") {
  const Folder folder;
  write_small_files(folder);
  const std::vector<std::string> arguments{
      "speeds", folder.file("demo.toml"), "--from", "60", "--to", "200", "--step", "0.2", "--steel",
      "-o",     folder.file("answer.h5")};
  double wait = 0.8;
  for (int attempt = 0; attempt < 10; ++attempt) {
    const pid_t child = start(folder, arguments);
    std::this_thread::sleep_for(std::chrono::duration<double>(wait));
    ::kill(child, SIGINT);
    const int code = wait_for(child);
    INFO("ended with " << code << ": " << content(folder.file("err")));
    REQUIRE(code != 0); // some hundred passages with their steel take seconds
    if (code == 130) {
      CHECK(has(content(folder.file("err")), "stopped: the study of speeds was given up and nothing was stored"));
      CHECK_FALSE(fs::exists(folder.file("answer.h5")));
      return;
    }
    wait *= 1.5; // it had not begun
  }
  FAIL("never stopped in order");
}

TEST_CASE("A wheel of a million points is read in seconds, thinned, and that is told") {
  const Folder folder;
  write_small_files(folder);
  constexpr int points = 1'000'000;
  {
    std::ofstream csv(folder.file("wheel.csv"), std::ios::binary);
    csv.precision(9);
    csv << "y_mm,height_mm\n";
    for (int i = 0; i < points; ++i) { // a cone with a flange of 28 mm
      const double y = -50.0 + 100.0 * i / (points - 1), flange = 28.0 / (1.0 + std::exp((y + 36.0) / 1.5));
      csv << y << ',' << -y / 40.0 + flange << '\n';
    }
  }
  write(folder.file("million.toml"),
        "base = \"demo.toml\"\n[wheel]\nprofile = \"measured\"\ncsv = \"wheel.csv\"\nnoise_um = 2\n");
  const auto started = std::chrono::steady_clock::now();
  const auto r = run(folder, "geometry " + folder.file("million.toml") + " --json");
  const auto took = std::chrono::steady_clock::now() - started;
  INFO(r.err);
  REQUIRE(r.code == 0);
  CHECK(has(r.out, "points_thinned"));
  CHECK(has(r.out, "of 1000000 points of "));
  CHECK(took < std::chrono::seconds(30)); // on a busy machine; it took minutes
}

TEST_CASE("Control characters in names reach no terminal, whether read from a file, stored or told in an error") {
  const Folder folder;
  write_small_files(folder);
  write(folder.file("bad.toml"), "base = \"demo.toml\"\n[case]\nname = \"red \\u001b[31m\\nnext\"\n");
  const auto r = run(folder, "run " + folder.file("bad.toml") + " -o " + folder.file("bad.h5"));
  INFO(r.err);
  REQUIRE(r.code == 0);
  const auto shown = run(folder, "show " + folder.file("bad.h5"));
  for (const std::string& text : {r.out, shown.out}) {
    CHECK(has(text, "red \\x1b[31m\\nnext"));
    CHECK_FALSE(has(text, "\x1b"));
  }
  const auto missing = run(folder, "run \"$(printf 'no\\033[31m\\nsuch.toml')\"");
  CHECK(missing.code == 2);
  CHECK(has(missing.err, "no\\x1b[31m\\nsuch.toml"));
  CHECK(one_message(missing));
}
