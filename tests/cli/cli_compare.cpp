// "wingnose compare" as a user runs it: exit codes, tables, JSON, file.
#include "catch.hpp"

#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

namespace fs = std::filesystem;

namespace {

struct Folder {
  fs::path path = fs::temp_directory_path() / ("wingnose_compare_" + std::to_string(::getpid()));
  Folder() { fs::create_directories(path); }
  Folder(const Folder&) = delete;
  Folder(Folder&&) = delete;
  Folder& operator=(const Folder&) = delete;
  Folder& operator=(Folder&&) = delete;
  ~Folder() { fs::remove_all(path); }
  [[nodiscard]] std::string file(const std::string& name) const { return (path / name).string(); }
};

struct Outcome {
  int code;
  std::string out, err;
};

std::string content(const fs::path& file) {
  std::ostringstream text;
  text << std::ifstream(file).rdbuf();
  return text.str();
}

Outcome compare(const Folder& folder, const std::string& arguments) {
  const std::string out = folder.file("out"), err = folder.file("err");
  const std::string command = std::string(WINGNOSE_PROGRAM) + " compare " + arguments + " >" + out + " 2>" + err;
  const int status = std::system(command.c_str());
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, content(out), content(err)};
}

bool has(const std::string& text, const std::string& piece) { return text.find(piece) != std::string::npos; }

// Two crossings on a short coarse track under a dozen wheels.
void write_comparison(const Folder& folder, const std::string& more = "") {
  for (const std::string name : {"demo", "worn"}) {
    std::ofstream(folder.file(name + ".toml")) << "base = \"" << WINGNOSE_SOURCE_DIR << "/profiles/" << name
                                               << ".toml\"\n[passage]\nfrom_m = -1\nto_m = 1.5\n[track]\nbays = 20\n"
                                                  "elements_per_bay = 4\n";
  }
  std::ofstream(folder.file("compare.toml")) << "[[crossing]]\nname = \"designed\"\ncase = "
                                                "\"demo.toml\"\n[[crossing]]\nname = \"worn\"\ncase = \"worn.toml\"\n"
                                                "[population]\ncount = 12\n[[population.vary]]\nkey = "
                                                "\"wheel.lateral_offset_mm\"\ndistribution = \"uniform\"\n"
                                                "from = -3\nto = 5\n[compare]\nresamples = 200\n"
                                             << more;
}

} // namespace

TEST_CASE("a comparison prints distributions, ranking, differences, early wheels and the caution, and is stored") {
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

TEST_CASE("a comparison in JSON is one object, the same for any number of threads") {
  const Folder folder;
  write_comparison(folder);
  const auto one = compare(folder, "--json --threads 1 " + folder.file("compare.toml"));
  const auto two = compare(folder, "--json --threads 2 " + folder.file("compare.toml"));
  CHECK(one.code == 0);
  CHECK(one.out.substr(0, 1) == "{");
  CHECK(one.out.substr(one.out.size() - 2) == "}\n");
  CHECK(one.out == two.out);
}

TEST_CASE("mistakes in a comparison end with exit code 2 and nothing stored") {
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
