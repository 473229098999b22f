#include "catch.hpp"
#include "said.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

namespace fs = std::filesystem;
using namespace wingnose;

namespace {

std::vector<fs::path> mistakes() {
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(fs::path(WINGNOSE_SOURCE_DIR) / "tests/input_errors")) {
    if (entry.path().extension() == ".toml") {
      files.push_back(entry.path());
    }
  }
  std::sort(files.begin(), files.end());
  return files;
}

std::string message(const fs::path& file) {
  return said::refusal<InputError>([&] { (void)io::read_case(file); });
}

} // namespace

TEST_CASE("Every mistake in a case file is refused with file, place, value and advice") {
  const auto files = mistakes();
  REQUIRE(files.size() >= 20);
  for (const auto& file : files) {
    const std::string text = message(file);
    INFO(file.filename().string() << " -> " << text);
    CHECK(!text.empty());
    auto expected_file = file;
    std::ifstream expected(expected_file.replace_extension(".expected"));
    REQUIRE(expected.good());
    int pieces = 0;
    for (std::string piece; std::getline(expected, piece);) {
      INFO("expected: " << piece);
      CHECK(text.find(piece) != std::string::npos);
      ++pieces;
    }
    CHECK(pieces > 0);
  }
}

TEST_CASE("A case file that does not exist is told so") {
  const std::string text = message("no_such_folder/no_such_case.toml");
  CHECK(text.find("no_such_case.toml\" does not exist") != std::string::npos);
}
