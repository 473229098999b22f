// "wingnose sweep" as a user runs it, stops it and kills it.
#include "catch.hpp"
#include "program.hpp"

#include <chrono>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <random>
#include <string>
#include <thread>
#include <vector>

namespace fs = std::filesystem;
using namespace program;

namespace {

void write(const fs::path& file, const std::string& text) { std::ofstream(file) << text; }

// Three speeds by some wheel offsets over a short stretch of a coarse track.
void write_small_sweep(const Folder& folder, const std::string& offsets = "values = [-2, 0, 1, 2]") {
  write(folder.file("short.toml"), "base = \"" WINGNOSE_SOURCE_DIR "/profiles/demo.toml\"\n[passage]\n"
                                   "from_m = -1\nto_m = 1.5\n[track]\nbays = 20\nelements_per_bay = 4\n");
  write(folder.file("sweep.toml"), "case = \"short.toml\"\n[[vary]]\nkey = \"passage.speed_km_h\"\nfrom = 80\nto = "
                                   "120\ncount = 3\n[[vary]]\nkey = \"wheel.lateral_offset_mm\"\n" +
                                       offsets + "\n");
}

pid_t begin(const Folder& folder, const std::string& output, const std::string& chunk) {
  return start(folder, {"sweep", folder.file("sweep.toml"), "-o", output, "--chunk", chunk, "--threads", "2"});
}

int sweep(const Folder& folder, const std::string& output, const std::string& chunk = "2") {
  return wait_for(begin(folder, output, chunk));
}

} // namespace

TEST_CASE("A sweep killed at any moment goes on to the same file, byte for byte, as one that was left alone") {
  const Folder folder;
  write_small_sweep(folder, "from = -3\nto = 3\ncount = 20"); // 60 cases
  const std::string whole = folder.file("whole.h5"), broken = folder.file("broken.h5"), chunk = "4";
  const auto started = std::chrono::steady_clock::now();
  REQUIRE(sweep(folder, whole, chunk) == 0);
  const auto took = std::chrono::steady_clock::now() - started;
  const std::string expected = content(whole);
  CHECK(has(content(folder.file("out")), "licensed engineers decide"));
  CHECK(content(folder.file("err")).empty()); // progress belongs on a terminal only

  const auto [signal, stops] = GENERATE(std::pair{SIGKILL, times(20)}, std::pair{SIGINT, times(6)});
  std::mt19937 random(20);
  int stopped = 0, attempts = 0;
  while (stopped < stops && ++attempts <= 4 * stops) {
    const pid_t child = begin(folder, broken, chunk);
    std::this_thread::sleep_for(took * std::uniform_real_distribution<>(0.05, 0.8)(random));
    ::kill(child, signal);
    const int code = wait_for(child);
    INFO("attempt " << attempts << " ended with " << code << ": " << content(folder.file("err")));
    if (code == 130) {
      CHECK(has(content(folder.file("err")), "Give the same command again"));
    }
    const bool ended_as_asked = code == 0 || code == -signal || (signal == SIGINT && code == 130);
    CHECK(ended_as_asked);
    stopped += code != 0 ? 1 : 0;
    if (code == 0) { // it was quicker: begin anew
      CHECK(content(broken) == expected);
      fs::remove(broken);
    }
  }
  CHECK(stopped == stops);
  REQUIRE(sweep(folder, broken, chunk) == 0);
  CHECK(content(broken) == expected);
}

TEST_CASE("A finished sweep is not computed again, and a file of another sweep is refused and left as it is") {
  const Folder folder;
  write_small_sweep(folder);
  const std::string file = folder.file("s.h5");
  REQUIRE(sweep(folder, file) == 0);
  const std::string before = content(file);
  REQUIRE(sweep(folder, file) == 0);
  CHECK(content(file) == before);
  write_small_sweep(folder, "values = [-2, 0, 1, 2.5]");
  CHECK(sweep(folder, file) == 2);
  CHECK(has(content(folder.file("err")), "holds another sweep"));
  CHECK(content(file) == before);
}
