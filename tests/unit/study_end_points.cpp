// Every end point of a range that the reference page documents, tried in a case in which its key applies: it is
// accepted, or refused with the key, the value in the key's own unit, and the other key it contradicts. A value beyond
// it is refused with what is allowed.
#include "catch.hpp"
#include "folder.hpp"
#include "parsed.hpp"
#include "said.hpp"

#include "wingnose/study/compare.hpp"
#include "wingnose/study/run.hpp"
#include "wingnose/words/error.hpp"
#include "wingnose/words/text.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <set>
#include <string>
#include <vector>

using namespace wingnose;
using cases::Key;
using cases::Schema;
using said::has;

namespace {

// What a file says: of each section its keys with their values as written; elements of lists stand once.
using Sections = std::map<std::string, std::map<std::string, std::string>>;

const cases::List* list_of(const Schema& schema, const std::string& section) {
  const auto found = std::find_if(schema.lists.begin(), schema.lists.end(),
                                  [&](const cases::List& list) { return list.section == section; });
  return found == schema.lists.end() ? nullptr : &*found;
}

std::string written(const Schema& schema, const Sections& sections) {
  std::string text;
  for (const auto& [section, keys] : sections) { // "" comes first
    const bool many = list_of(schema, section) != nullptr;
    text += section.empty() ? "" : (many ? "[[" : "[") + section + (many ? "]]\n" : "]\n");
    for (const auto& [key, value] : keys) {
      text += key + " = " + value + "\n";
    }
  }
  return text;
}

bool is_whole(const Key& key) {
  return std::holds_alternative<cases::WholeSlot>(key.slot) || std::holds_alternative<cases::SizeSlot>(key.slot);
}
bool is_number(const Key& key) {
  return std::holds_alternative<cases::NumberSlot>(key.slot) || std::holds_alternative<cases::MaybeSlot>(key.slot) ||
         is_whole(key);
}

// The section says what makes the key apply: the choice it belongs to, and what that choice requires.
void make_apply(const Schema& schema, const Key& key, const fs::path& folder, Sections& sections) {
  const cases::List* list = list_of(schema, key.section);
  const std::size_t dot = list == nullptr ? std::string::npos : key.section.rfind('.');
  const std::string parent = list == nullptr ? key.section : dot == std::string::npos ? "" : key.section.substr(0, dot);
  const std::string only = list == nullptr ? key.only : list->only;
  for (const cases::Section& section : schema.sections) {
    for (const Key& other : schema.keys) {
      if (section.name == key.section && !section.only.empty() && other.selector &&
          other.section == cases::section_above(section.name)) {
        sections[other.section].try_emplace(other.name, '"' + split(section.only, '|').front() + '"');
      }
    }
  }
  double place = 0.5; // in the range; of needed values each further up, as what begins has to end
  for (const Key& other : schema.keys) {
    if (!only.empty() && other.section == parent && other.selector) {
      sections[parent].try_emplace(other.name, '"' + split(only, '|').front() + '"');
    }
    const std::string choice = only.empty() ? "" : split(only, '|').front();
    const bool needed = other.required && other.section == key.section && other.name != key.name &&
                        (list != nullptr || (!other.only.empty() && cases::applies(other.only, choice)));
    if (!needed) {
      continue;
    }
    const bool file = std::holds_alternative<cases::FileSlot>(other.slot);
    if (std::holds_alternative<cases::TextSlot>(other.slot) && other.choices.empty()) {
      sections[key.section].try_emplace(other.name, "\"a\"");
      continue;
    }
    const double inside = std::lerp(other.range.least, other.range.most, place) / other.unit.to_si;
    place += is_number(other) ? 0.1 : 0.0;
    sections[key.section].try_emplace(other.name, file ? '"' + (folder / (other.name + ".csv")).string() + '"'
                                                  : !other.choices.empty() ? '"' + other.choices.front() + '"'
                                                                           : plain(inside));
  }
}

// Both ends as the reference page has them: "20 to 120 mm".
std::pair<std::string, std::string> ends_of(const Key& key) {
  const std::string text = cases::allowed_text(key);
  const auto to = text.find(" to ");
  const std::string second = text.substr(to + 4);
  return {text.substr(0, to), second.substr(0, second.find(' '))};
}

std::string in_unit(const std::string& value, const Key& key) {
  return value + (shown(key.unit).empty() ? "" : " " + std::string(shown(key.unit)));
}

// A refusal tells key and value, and the key that stands against it.
void check_contradiction(const Schema& schema, const Key& key, const std::string& value, const std::string& told) {
  CHECK(has(told, key.full_name()));
  CHECK(has(told, in_unit(value, key)));
  CHECK(std::any_of(schema.keys.begin(), schema.keys.end(), [&](const Key& other) {
    return other.full_name() != key.full_name() && has(told, other.full_name()) &&
           !has(key.full_name(), other.full_name());
  }));
}

struct Tried {
  std::size_t accepted = 0, refused = 0;
};

// read: of a text. base: what every file of the kind says.
Tried try_ends(const Schema& schema, const Sections& base, const fs::path& folder,
               const std::function<void(const std::string& text)>& read) {
  Tried tried;
  for (const Key& key : schema.keys) {
    if (!is_number(key)) {
      continue;
    }
    CAPTURE(key.full_name());
    const auto [least, most] = ends_of(key);
    for (const std::string& end : {least, most}) {
      Sections sections = base;
      make_apply(schema, key, folder, sections);
      sections[key.section][key.name] = end;
      const std::string text = written(schema, sections), told = said::refusal<InputError>([&] { read(text); });
      CAPTURE(text, told);
      ++(told.empty() ? tried.accepted : tried.refused);
      if (!told.empty()) {
        check_contradiction(schema, key, end, told);
      }
      const double width = std::stod(most) - std::stod(least), step = is_whole(key) ? 1.0 : 0.01 * width;
      const std::string beyond = plain(std::stod(end) + (end == least ? -step : step));
      sections[key.section][key.name] = beyond;
      const std::string outside = said::refusal<InputError>([&] { read(written(schema, sections)); });
      CAPTURE(beyond, outside);
      CHECK(has(outside, key.full_name() + ": " + in_unit(beyond, key) +
                             " is not allowed; allowed: " + cases::allowed_text(key)));
    }
  }
  return tried;
}

// Files a case can name, called as the keys that name them.
void add_files(const Folder& folder) {
  fs::copy_file(profiles / "demo_wing.csv", folder.path / "wing_csv.csv");
  fs::copy_file(profiles / "demo_nose.csv", folder.path / "nose_csv.csv");
  fs::copy_file(profiles / "s1002_hollow_measured.csv", folder.path / "csv.csv");
  folder.write("path_csv.csv", "station_mm,height_mm\n-6000,0\n0,-2\n6000,0\n");
}

} // namespace

TEST_CASE("Every documented end point of every key of a case is accepted or contradicts another key, in its own unit") {
  const Folder folder;
  add_files(folder);
  const Tried tried = try_ends(cases::case_schema(), {}, folder.path, [](const std::string& text) {
    const cases::Case c = io::parse_case(text, "test.toml", ".");
    (void)study::geometry(c); // what was accepted is not refused later
  });
  CHECK(tried.accepted > 2 * tried.refused);
  CHECK(tried.accepted + tried.refused > 200);
}

TEST_CASE(
    "Every documented end point of every key of a vehicle is accepted or contradicts another key, in its own unit") {
  const Folder folder;
  Sections base;
  base[""]["given_for"] = "\"one rail\"";
  base["body"] = {{"name", "\"load\""}, {"mass_kg", "8000"}, {"x_m", "0"}};
  base["wheel"] = {{"name", "\"wheel\""}, {"unsprung_mass_kg", "900"}, {"x_m", "0"}};
  base["suspension"] = {{"upper", "\"load\""}, {"lower", "\"wheel\""}, {"x_m", "0"}, {"stiffness_MN_m", "1.2"}};
  // Two more springs, so that a body which can pitch is carried.
  const std::string springs = "[[suspension]]\nupper = \"load\"\nlower = \"wheel\"\nx_m = 0.1\nstiffness_MN_m = 1\n"
                              "[[suspension]]\nupper = \"load\"\nlower = \"wheel\"\nx_m = -0.1\nstiffness_MN_m = 1\n";
  const Tried tried = try_ends(cases::vehicle_schema(), base, folder.path, [&](const std::string& text) {
    folder.write("test.vehicle", text + springs);
    (void)io::parse_case("[vehicle]\nfile = \"test.vehicle\"\n", "test.toml", folder.path);
  });
  CHECK(tried.accepted > tried.refused);
}

TEST_CASE(
    "Every documented end point of every key of a comparison is accepted or contradicts another key, in its own unit") {
  const Folder folder;
  const std::string rest = "[[crossing]]\nname = \"a\"\ncase = \"demo.toml\"\n[[crossing]]\nname = \"b\"\ncase = "
                           "\"worn.toml\"\n[[wheel]]\nweight = 1\n";
  const Tried tried = try_ends(study::compare_schema(), {}, folder.path, [&](const std::string& text) {
    (void)parsed::from_text(rest + text, "test.toml", profiles, study::read_comparison);
  });
  CHECK(tried.accepted > tried.refused);
}
