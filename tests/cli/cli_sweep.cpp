// "wingnose sweep" as a user runs it, stops it and kills it.
#include "catch.hpp"

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <random>
#include <sstream>
#include <string>
#include <thread>
#include <vector>

namespace fs = std::filesystem;

namespace {

struct Folder {
  fs::path path = fs::temp_directory_path() / ("wingnose_sweep_" + std::to_string(::getpid()));
  Folder() { fs::create_directories(path); }
  Folder(const Folder&) = delete;
  Folder(Folder&&) = delete;
  Folder& operator=(const Folder&) = delete;
  Folder& operator=(Folder&&) = delete;
  ~Folder() { fs::remove_all(path); }
  [[nodiscard]] std::string file(const std::string& name) const { return (path / name).string(); }
};

std::string content(const fs::path& file) {
  std::ostringstream text;
  text << std::ifstream(file, std::ios::binary).rdbuf();
  return text.str();
}

bool has(const std::string& text, const std::string& piece) { return text.find(piece) != std::string::npos; }

void write(const fs::path& file, const std::string& text) { std::ofstream(file) << text; }

// Three speeds by some wheel offsets over a short stretch of a coarse track.
void write_small_sweep(const Folder& folder, const std::string& offsets = "values = [-2, 0, 1, 2]") {
  write(folder.file("short.toml"), "base = \"" WINGNOSE_SOURCE_DIR "/profiles/demo.toml\"\n[passage]\n"
                                   "from_m = -1\nto_m = 1.5\n[track]\nbays = 20\nelements_per_bay = 4\n");
  write(folder.file("sweep.toml"), "case = \"short.toml\"\n[[vary]]\nkey = \"passage.speed_km_h\"\nfrom = 80\nto = "
                                   "120\ncount = 3\n[[vary]]\nkey = \"wheel.lateral_offset_mm\"\n" +
                                       offsets + "\n");
}

pid_t start(const Folder& folder, const std::string& output, const std::string& chunk) {
  const std::string in = folder.file("sweep.toml"), out = folder.file("out"), err = folder.file("err");
  const pid_t child = ::fork();
  if (child == 0) {
    ::dup2(::open(out.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600), STDOUT_FILENO);
    ::dup2(::open(err.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600), STDERR_FILENO);
    ::execl(WINGNOSE_PROGRAM, WINGNOSE_PROGRAM, "sweep", in.c_str(), "-o", output.c_str(), "--chunk", chunk.c_str(),
            "--threads", "2", nullptr);
    ::_exit(99);
  }
  return child;
}

// Exit code, or minus the number of the signal.
int wait_for(pid_t child) {
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
}

int run(const Folder& folder, const std::string& output, const std::string& chunk = "2") {
  return wait_for(start(folder, output, chunk));
}

} // namespace

TEST_CASE("a sweep killed at any moment goes on to the same file, byte for byte, as one that was left alone") {
  const Folder folder;
  write_small_sweep(folder, "from = -3\nto = 3\ncount = 20"); // 60 cases
  const std::string whole = folder.file("whole.h5"), broken = folder.file("broken.h5"), chunk = "4";
  const auto begin = std::chrono::steady_clock::now();
  REQUIRE(run(folder, whole, chunk) == 0);
  const auto took = std::chrono::steady_clock::now() - begin;
  const std::string expected = content(whole);
  CHECK(has(content(folder.file("out")), "licensed engineers decide"));
  CHECK(content(folder.file("err")).empty()); // progress belongs on a terminal only

  const auto [signal, stops] = GENERATE(std::pair{SIGKILL, 20}, std::pair{SIGINT, 6});
  std::mt19937 random(20);
  int stopped = 0, attempts = 0;
  while (stopped < stops && ++attempts <= 4 * stops) {
    const pid_t child = start(folder, broken, chunk);
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
  REQUIRE(run(folder, broken, chunk) == 0);
  CHECK(content(broken) == expected);
}

TEST_CASE("a finished sweep is not computed again, and a file of another sweep is refused and left as it is") {
  const Folder folder;
  write_small_sweep(folder);
  const std::string file = folder.file("s.h5");
  REQUIRE(run(folder, file) == 0);
  const std::string before = content(file);
  REQUIRE(run(folder, file) == 0);
  CHECK(content(file) == before);
  write_small_sweep(folder, "values = [-2, 0, 1, 2.5]");
  CHECK(run(folder, file) == 2);
  CHECK(has(content(folder.file("err")), "holds another sweep"));
  CHECK(content(file) == before);
}
