// Answers of every kind in files and as JSON: empty ones, and real ones over a short stretch.
#include "answers.hpp"
#include "catch.hpp"
#include "folder.hpp"
#include "parsed.hpp"
#include "said.hpp"

#include "wingnose/io/stream_file.hpp"
#include "wingnose/io/tree_file.hpp"
#include "wingnose/study/examples.hpp"
#include "wingnose/study/instants.hpp"
#include "wingnose/study/speeds.hpp"
#include "wingnose/study/sweep.hpp"
#include "wingnose/study/track_response.hpp"
#include "wingnose/words/error.hpp"

#include <hdf5.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <string>
#include <vector>

using namespace wingnose;
using quantity::Array;
using quantity::Group;
using quantity::Tree;
using said::has;
using said::refusal;

namespace {

const std::string quick = "base = \"" + (profiles / "demo.toml").string() +
                          "\"\n[passage]\nfrom_m = -0.8\nto_m = 1.2\n[track]\nbays = 20\nelements_per_bay = 4\n"
                          "[damage]\nmap_x_mm = 20\nmap_y_mm = 5\n";

cases::Case quick_case() { return io::parse_case(quick, "quick.toml", "."); }

Tree a_damage(const cases::Case& c) {
  cases::Population wheels;
  wheels.classes.emplace_back().name = "new";
  wheels.members = {{"one", 0, 1.0, {{"wheel.lateral_offset_mm", 1.0}}},
                    {"other", 0, 2.0, {{"passage.speed_km_h", 90.0}}},
                    {"impossible", 0, 1.0, {{"wheel.lateral_offset_mm", 1000.0}}}};
  const study::TrafficOptions options{.tonnage = 1e9, .stages = 2};
  return study::tell(c, study::study_damage(c, &options, &wheels).value(), "[[wheel]]\n");
}

Tree a_speed_study(const cases::Case& c) {
  const std::vector<study::Limit> limits{study::parse_limit("p2_kN=160", "house rule"),
                                         study::parse_limit("shakedown_exceedance=1", "")};
  study::SpeedOptions options;
  options.today = 25.0;
  options.proposed = 30.0;
  return study::tell(c, study::study_speeds(c, {25.0, 35.0, 5.0}, limits, options));
}

Tree a_comparison() {
  const auto crossing = [](const std::string& name, const std::string& more) {
    return study::ComparedCrossing{name, io::parse_case(quick + more, name, ".")};
  };
  const std::vector<study::ComparedCrossing> crossings{
      crossing("designed", ""),
      crossing("worn", "[[crossing.modifier]]\nbody = \"nose\"\nstation_mm = 500\nlength_mm = 400\ndepth_mm = 1\n")};
  cases::Population wheels;
  wheels.classes.resize(2);
  wheels.classes[0].name = "new";
  wheels.classes[1].name = "hollow";
  wheels.members = {{"one", 0, 1.0, {{"wheel.lateral_offset_mm", 0.5}}},
                    {"two", 1, 2.0, {{"wheel.hollow_depth_mm", 1.0}, {"passage.direction", std::string("facing")}}},
                    {"three", 0, 1.0, {{"passage.speed_km_h", 90.0}}}};
  study::CompareOptions options;
  options.resamples = 100;
  options.steel = true;
  return study::tell(crossings, study::compare(crossings, wheels, options).value(), quick);
}

// Real answers of every kind, and made-up ones beside them; made once.
const std::vector<std::pair<std::string, Tree>>& answers_told() {
  static const auto all = [] {
    const cases::Case c = quick_case();
    const study::Geometry g = study::geometry(c);
    contact::StationOptions fields;
    fields.law = contact::Strips{};
    fields.fields = true;
    fields.cells = {16, 16};
    std::vector<std::pair<std::string, Tree>> list{
        {"a passage", study::tell(c, study::run(c))},
        {"a wheel path", study::tell(c, g)},
        {"closed forms", study::tell_estimates(c, g)},
        {"a track", study::tell(c, study::track_response(c))},
        {"a contact", study::tell(c, study::contact_standing(c, g, study::landing_station(g), 90e3, fields))},
        {"a damage with its traffic", a_damage(c)},
        {"a study of speeds", a_speed_study(c)},
        {"a comparison", a_comparison()},
        {"a passage, made up", study::tell(c, answers::run())},
        {"a damage, made up", study::tell(c, answers::damage(c))}};
    for (Tree& tree : study::empty_answers()) {
      list.emplace_back("no " + tree.kind(), std::move(tree));
    }
    return list;
  }();
  return all;
}

std::string path_of(const Group& group, const Array& a) {
  return group.path.empty() ? a.name : group.path + "/" + a.name;
}

bool same(double a, double b) { return a == b || (std::isnan(a) && std::isnan(b)); }

void check_same(const Array& a, const Array& b) {
  CHECK(a.name == b.name);
  CHECK(a.dims == b.dims);
  CHECK(a.shape == b.shape);
  CHECK(a.is_text == b.is_text);
  CHECK(a.texts == b.texts);
  REQUIRE(a.numbers.size() == b.numbers.size());
  CHECK(std::equal(a.numbers.begin(), a.numbers.end(), b.numbers.begin(), same));
  CHECK(a.unit == b.unit);
  CHECK(a.label == b.label);
  CHECK(a.meaning == b.meaning);
  CHECK(a.detail == b.detail);
  CHECK(a.block == b.block);
  CHECK(a.told_if_none == b.told_if_none);
  CHECK((a.is_text || a.decimals == b.decimals));
}

void check_same(const Tree& a, const Tree& b) {
  CHECK(a.kind() == b.kind());
  for (const auto& [name, text] : a.attributes) {
    CAPTURE(name);
    CHECK(b.attribute(name) == text);
  }
  std::vector<const Group*> filled; // a file keeps no group without arrays
  for (const Group& group : a.groups()) {
    if (!group.arrays.empty()) {
      filled.push_back(&group);
    }
  }
  REQUIRE(filled.size() == b.groups().size());
  for (std::size_t i = 0; i < filled.size(); ++i) {
    const Group &one = *filled[i], &other = b.groups()[i];
    CAPTURE(one.path);
    CHECK(one.path == other.path);
    CHECK(one.title == other.title);
    CHECK(one.layout == other.layout);
    REQUIRE(one.arrays.size() == other.arrays.size());
    for (std::size_t k = 0; k < one.arrays.size(); ++k) {
      CAPTURE(one.arrays[k].name);
      check_same(one.arrays[k], other.arrays[k]);
    }
  }
}

} // namespace

namespace {

// Whether a group lies at that place or above it.
bool above(const std::string& group, const std::string& place) {
  return group.empty() || group == place || place.starts_with(group + "/");
}

} // namespace

TEST_CASE("Answers of every kind are sound: units known, values as many as their dimensions say, no name taken twice") {
  for (const auto& [what, tree] : answers_told()) {
    CAPTURE(what);
    std::map<std::string, int> seen;
    for (const Group& group : tree.groups()) {
      for (const Array& a : group.arrays) {
        CAPTURE(path_of(group, a));
        CHECK(++seen[path_of(group, a)] == 1);
        CHECK_NOTHROW((void)unit(a.unit));
        CHECK_FALSE(a.meaning.empty());
        REQUIRE(a.dims.size() == a.shape.size());
        CHECK(a.size() == std::accumulate(a.shape.begin(), a.shape.end(), std::size_t{1}, std::multiplies<>()));
      }
    }
    for (const Group& group : tree.groups()) {
      std::map<std::string, std::size_t> length; // arrays that share a dimension lie side by side
      for (const Group& other : tree.groups()) {
        for (const Array& a : other.arrays) {
          for (std::size_t d = 0; above(other.path, group.path) && d < a.dims.size(); ++d) {
            CAPTURE(group.path, path_of(other, a), a.dims[d]);
            CHECK(length.try_emplace(a.dims[d], a.shape[d]).first->second == a.shape[d]);
          }
        }
      }
      for (const auto& [path, times] : seen) { // a file cannot hold a dataset and a group of one name
        CAPTURE(group.path, path);
        CHECK((path.empty() || !above(path, group.path)));
      }
    }
  }
}

TEST_CASE("Answers of every kind come back from a file as they were written") {
  const Folder folder;
  for (const auto& [what, tree] : answers_told()) {
    CAPTURE(what);
    io::write_tree(folder.path / "a.h5", tree);
    const Tree stored = io::read_tree(folder.path / "a.h5");
    check_same(tree, stored);
    io::write_tree(folder.path / "b.h5", stored); // and once more
    check_same(stored, io::read_tree(folder.path / "b.h5"));
  }
}

TEST_CASE("Of an answer read without what is only stored, the rest is whole and the places of what is left out known") {
  const Folder folder;
  const Tree& tree = answers_told().front().second;
  io::write_tree(folder.path / "a.h5", tree);
  const Tree told = io::read_tree(folder.path / "a.h5", quantity::Detail::told);
  for (const Group& group : tree.groups()) {
    for (const Array& a : group.arrays) {
      CAPTURE(path_of(group, a));
      const Array* found = told.find(path_of(group, a));
      REQUIRE(found != nullptr);
      CHECK(found->shape == a.shape);
      CHECK(found->size() ==
            (a.detail == quantity::Detail::stored && !a.shape.empty() ? 0 : a.size())); // single values are small
    }
  }
  CHECK(io::json(told) == io::json(tree));
}

namespace {

// The value of an array in the JSON of its group: lists in lists, or rows of a table.
nlohmann::json told_of(const nlohmann::json& group, const Array& a) {
  if (!group.is_array()) {
    return group.at(a.name);
  }
  auto list = nlohmann::json::array();
  for (const auto& row : group) {
    list.push_back(row.at(a.name));
  }
  return list;
}

void flatten(const nlohmann::json& value, std::vector<nlohmann::json>& into) {
  if (!value.is_array()) {
    into.push_back(value);
    return;
  }
  for (const auto& each : value) {
    flatten(each, into);
  }
}

} // namespace

TEST_CASE("The JSON of answers of every kind holds what is told, in its place, null where there is no value") {
  for (const auto& [what, tree] : answers_told()) {
    CAPTURE(what);
    const auto json = nlohmann::json::parse(io::json(tree));
    CHECK(json.at("kind") == tree.kind());
    CHECK(json.at("caution") == io::caution);
    for (const Group& group : tree.groups()) {
      const auto place = nlohmann::json::json_pointer(group.path.empty() ? "" : "/" + group.path);
      for (const Array& a : group.arrays) {
        CAPTURE(path_of(group, a));
        if (a.detail == quantity::Detail::stored) {
          CHECK((!json.contains(place) || json.at(place).is_array() || !json.at(place).contains(a.name) ||
                 json.at(place).at(a.name).is_object())); // a group of that name below
          continue;
        }
        REQUIRE(json.contains(place));
        std::vector<nlohmann::json> values;
        flatten(told_of(json.at(place), a), values);
        REQUIRE(values.size() == a.size());
        for (std::size_t i = 0; i < a.size(); ++i) {
          if (a.is_text) {
            CHECK(values[i] == a.texts[i]);
          } else if (std::isfinite(a.numbers[i])) {
            CHECK(values[i].get<double>() == Approx(a.numbers[i]).epsilon(1e-9));
          } else {
            CHECK(values[i].is_null());
          }
        }
      }
    }
  }
}

TEST_CASE("A sweep stored chunk by chunk comes back as it was answered") {
  const Folder folder;
  folder.write("quick.toml", quick);
  const study::Sweep sweep =
      parsed::from_text("case = \"quick.toml\"\nsteel = true\nhistory_every = 20\n[[vary]]\nkey = "
                        "\"passage.speed_km_h\"\nvalues = [90, 108]\n[[vary]]\nkey = \"passage.direction\"\nvalues = "
                        "[\"facing\", \"trailing\"]\n",
                        "sweep.toml", folder.path, study::read_sweep);
  {
    io::StreamFile file(folder.path / "s.h5", sweep.stream(), 3);
    CHECK(study::run_sweep(sweep, file).finished);
  }
  const Tree stored = io::read_tree(folder.path / "s.h5"), rows = study::answer_cases(sweep, 0, 4).value();
  CHECK(stored.kind() == "sweep");
  for (const Group& group : rows.groups()) {
    for (Array a : group.arrays) {
      CAPTURE(path_of(group, a));
      const Array* found = stored.find(path_of(group, a));
      REQUIRE(found != nullptr);
      if (has(group.path, "history") && a.dims.size() == 2) { // kept in single precision
        std::transform(a.numbers.begin(), a.numbers.end(), a.numbers.begin(),
                       [](double value) { return static_cast<double>(static_cast<float>(value)); });
      }
      check_same(a, *found);
    }
  }
  const quantity::Stream stream = sweep.stream();
  for (const Group& group : stream.head.groups()) {
    for (const Array& a : group.arrays) {
      CAPTURE(path_of(group, a));
      const Array* found = stored.find(path_of(group, a));
      REQUIRE(found != nullptr);
      check_same(a, *found);
    }
  }
}

TEST_CASE("An answer that cannot be written leaves the earlier file as it was") {
  const Folder folder;
  const auto c = io::parse_case("[case]\nname=\"x\"\n", "x", ".");
  const fs::path file = folder.path / "a.h5";
  io::write_tree(file, study::tell(c, answers::run()));
  Tree broken = study::tell(c, answers::run());
  broken.add("measures", broken.group("measures").arrays.front()); // two datasets of one name
  CHECK(has(refusal<ComputeError>([&] { io::write_tree(file, broken); }), "a.h5"));
  CHECK(io::read_tree(file).number("measures/p2_kN") == Approx(123.4));
  const Tree good = study::tell(c, answers::run());
  CHECK_THROWS_AS(io::write_tree(folder.path / "missing" / "a.h5", good), InputError);
  CHECK_THROWS_AS(io::write_tree(folder.path, good), InputError);
  const fs::path case_file = folder.path / "case.toml";
  folder.write("case.toml", "[case]\n");
  CHECK_THROWS_AS(io::write_tree(case_file, good), InputError); // a slip of the name costs no case file
  CHECK(fs::file_size(case_file) == 7);
  CHECK(folder.files() == 2); // nothing unfinished is left behind
}

TEST_CASE("Files that are no wingnose results are refused by name and reason") {
  const Folder folder;
  const auto refused = [&](const char* name) {
    return refusal<InputError>([&] { (void)io::read_tree(folder.path / name); });
  };
  CHECK(has(refused("none.h5"), "does not exist"));
  folder.write("text.h5", "station_mm,height_mm\n");
  CHECK(has(refused("text.h5"), "is not an HDF5 file"));
  CHECK(has(refused("text.h5"), "text.h5"));
}

TEST_CASE("A file of a later layout is refused, as it may hold what this program does not know") {
  const Folder folder;
  const fs::path file = folder.path / "a.h5";
  const std::string format = "wingnose run";
  for (const int layout : {io::layout_version, io::layout_version + 1}) {
    const hid_t made = H5Fcreate(file.c_str(), H5F_ACC_TRUNC, H5P_DEFAULT, H5P_DEFAULT), one = H5Screate(H5S_SCALAR),
                text = H5Tcopy(H5T_C_S1);
    H5Tset_size(text, format.size());
    const hid_t named = H5Acreate2(made, "format", text, one, H5P_DEFAULT, H5P_DEFAULT),
                numbered = H5Acreate2(made, "schema_version", H5T_NATIVE_INT, one, H5P_DEFAULT, H5P_DEFAULT);
    REQUIRE(H5Awrite(named, text, format.data()) >= 0);
    REQUIRE(H5Awrite(numbered, H5T_NATIVE_INT, &layout) >= 0);
    for (const hid_t each : {named, numbered}) {
      H5Aclose(each);
    }
    H5Tclose(text);
    H5Sclose(one);
    H5Fclose(made);
    if (layout == io::layout_version) {
      CHECK(io::read_tree(file).kind() == "run");
    }
  }
  CHECK(has(refusal<InputError>([&] { (void)io::read_tree(file); }), "use a newer wingnose"));
}
