// The reference page: made from the tables the program works with, and complete.
#include "catch.hpp"
#include "said.hpp"

#include "wingnose/io/reference.hpp"
#include "wingnose/io/tree_file.hpp"
#include "wingnose/study/compare.hpp"
#include "wingnose/study/examples.hpp"

#include <nlohmann/json.hpp>

#include <set>
#include <sstream>
#include <string>
#include <vector>

using namespace wingnose;
using said::has;

namespace {

struct Sources {
  std::vector<cases::KeysOf> keys = study::files_read();
  std::vector<quantity::Tree> answers = study::empty_answers();
};

} // namespace

TEST_CASE("The reference page names every key once in its section") {
  Sources from;
  const std::string page = io::reference(from.keys, from.answers);
  for (const auto* key : {"speed_km_h", "dip_angle_mrad", "pad_stiffness_MN_m", "cut_off_Hz", "step_us", "given_for"}) {
    CHECK(has(page, "| `" + std::string(key) + "` |"));
  }
  for (const cases::KeysOf& file : from.keys) {
    for (const cases::Key& key : file.schema->keys) {
      CAPTURE(file.file, key.full_name());
      CHECK(has(page, "| `" + key.name + "` |"));
    }
  }
  std::set<std::string> seen;
  std::istringstream text(page);
  for (std::string line, section; std::getline(text, line);) {
    if (line.rfind("#", 0) == 0) {
      section = line;
      seen.clear();
    } else if (line.rfind("| `", 0) == 0) {
      INFO(section << ": " << line);
      CHECK(seen.insert(line.substr(0, line.find('`', 3))).second);
    }
  }
}

TEST_CASE("The reference page names every number told, every finding and every dataset of every kind of answer") {
  Sources from;
  const std::string page = io::reference(from.keys, from.answers);
  for (const quantity::Quantity& q : quantity::quantities()) {
    CHECK(has(page, "| `" + std::string(q.key) + "` | " + std::string(q.unit.name) + " |"));
  }
  for (const FindingWords& words : finding_kinds()) {
    CHECK(has(page, "| `" + std::string(words.key) + "` | " + std::string(name(words.gravity)) + " |"));
  }
  for (const quantity::Tree& answer : from.answers) {
    const auto begin = page.find("\n## " + answer.kind() + "\n");
    REQUIRE(begin != std::string::npos);
    const std::string section = page.substr(begin, page.find("\n## ", begin + 1) - begin);
    for (const quantity::Group& group : answer.groups()) {
      for (const quantity::Array& array : group.arrays) {
        const std::string path = group.path.empty() ? array.name : group.path + "/" + array.name;
        CAPTURE(answer.kind(), path);
        CHECK(has(section, "| `" + path + "` |"));
        CHECK_FALSE(array.meaning.empty());
      }
    }
  }
}

TEST_CASE("The reference in JSON holds the same keys, numbers, findings and datasets") {
  Sources from;
  const auto told = nlohmann::json::parse(io::reference_json(from.keys, from.answers));
  CAPTURE(told.begin().key());
  for (const cases::KeysOf& file : from.keys) {
    CHECK(told.at("keys").at(file.file).size() == file.schema->keys.size());
  }
  CHECK(told.at("quantities").size() == quantity::quantities().size());
  CHECK(told.at("findings").size() == finding_kinds().size());
  CHECK(told.at("datasets").size() == from.answers.size());
}
