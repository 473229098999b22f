// Comparisons told to others: files read back, JSON. Answers are made up.
#include "answers.hpp"
#include "catch.hpp"
#include "folder.hpp"
#include "parsed.hpp"
#include "said.hpp"

#include "wingnose/io/tree_file.hpp"
#include "wingnose/words/error.hpp"

#include <nlohmann/json.hpp>

#include <cmath>
#include <string>
#include <vector>

using namespace wingnose;
using said::has;
using said::refusal;

namespace {

using Texts = std::vector<std::string>;
using Numbers = std::vector<double>;

std::vector<study::ComparedCrossing> crossings() {
  return parsed::from_text("[[crossing]]\nname = \"designed\"\ncase = \"demo.toml\"\n[[crossing]]\nname = \"worn\"\n"
                           "case = \"worn.toml\"\n[[wheel]]\nweight = 1\n",
                           "compare.toml", profiles, study::read_comparison)
      .crossings;
}

Numbers numbers(const quantity::Tree& tree, const std::string& path) {
  const auto found = tree.numbers(path);
  return {found.begin(), found.end()};
}
Texts texts(const quantity::Tree& tree, const std::string& path) {
  const auto found = tree.texts(path);
  return {found.begin(), found.end()};
}

std::size_t arrays_in(const quantity::Tree& tree) {
  std::size_t count = 0;
  for (const quantity::Group& group : tree.groups()) {
    count += group.arrays.size();
  }
  return count;
}

} // namespace

TEST_CASE("A comparison stored is read back with units, texts and wheels that failed") {
  const Folder folder;
  const auto file = folder.path / "a.h5";
  const auto c = answers::comparison();
  io::write_tree(file, study::tell(crossings(), c, "the file"));
  const quantity::Tree stored = io::read_tree(file);
  CHECK(stored.text("case/text") == "the file");
  CHECK(texts(stored, "crossing") == Texts{"designed", "worn"});
  CHECK(numbers(stored, "wheels/speed_km_h") == Numbers(3, 108.0));
  CHECK(numbers(stored, "wheels/compared") == Numbers{1, 1, 0});
  CHECK(numbers(stored, "wheels/input/wheel.lateral_offset_mm") == Numbers{0, 1, 2});
  CHECK(stored.find("wheels/input/wheel.lateral_offset_mm")->unit == "mm");
  CHECK(numbers(stored, "passages/p2_kN") == Numbers{1, 2, 3, 2, 3, 4}); // crossing by crossing
  CHECK(stored.find("passages/p2_kN")->dims == Texts{"crossing", "wheel"});
  CHECK(texts(stored, "passages/state") == Texts{"done", "done", "done", "done", "done", "could_not_compute"});
  CHECK(texts(stored, "passages/failure").back() == "the wheel leaves the rail");
  CHECK(numbers(stored, "envelope/q95_kN") == Numbers{3, 3});
  CHECK(numbers(stored, "passages/early") == Numbers{0, 0, 0, 0, 1, 0});
  const auto nose = numbers(stored, "paths/crossing_0/0/height_nose_mm");
  CHECK(std::isnan(nose[0])); // the wheel cannot touch the nose there
  CHECK(numbers(stored, "paths/crossing_0/0/height_mm") == Numbers{1, 2});
  CHECK(numbers(stored, "differences/crossing_1/value").size() == texts(stored, "differences/crossing_1/key").size());
  CHECK(texts(stored, "differences/crossing_1/key").size() == quantity::criteria().size());
  CHECK(quantity::findings_of(stored) == c.findings);
  for (const quantity::Group& group : stored.groups()) {
    for (const quantity::Array& array : group.arrays) {
      CAPTURE(group.path, array.name);
      CHECK(!array.unit.empty());
      CHECK(!array.meaning.empty());
    }
  }
}

TEST_CASE("Statistics of a comparison stand by quantity, crossing and name of the statistic") {
  const quantity::Tree told = study::tell(crossings(), answers::comparison());
  const auto statistic = texts(told, "statistic");
  const auto at = [&](const std::string& name) {
    return static_cast<std::size_t>(std::find(statistic.begin(), statistic.end(), name) - statistic.begin());
  };
  const auto p2 = numbers(told, "statistics/p2_kN");
  REQUIRE(p2.size() == 2 * statistic.size());
  CHECK(p2[at("mean")] == Approx(150.0));
  CHECK(p2[statistic.size() + at("q95")] == Approx(160.0));
  CHECK(told.find("statistics/p2_kN")->unit == "kN");
}

TEST_CASE("The worst case of a ranking is told, and none where it has no bound") {
  const quantity::Tree told = study::tell(crossings(), answers::comparison());
  const auto worst = numbers(told, "ranking/worst_value");
  REQUIRE(worst.size() == 2 * quantity::criteria().size());
  CHECK(std::isfinite(worst[0]));
  CHECK(!std::isfinite(worst[1]));
  CHECK(numbers(told, "ranking/worst_place_of")[1] == 2.0);
  CHECK(nlohmann::json::parse(io::json(told)).at("ranking").at("worst_value").at(0).at(1).is_null());
}

TEST_CASE("A failing write of a comparison leaves the old one") {
  const Folder folder;
  io::write_tree(folder.path / "a.h5", study::tell(crossings(), answers::comparison()));
  quantity::Tree twice = study::tell(crossings(), answers::comparison());
  twice.add("wheels", twice.group("wheels").arrays.front()); // two datasets of one name cannot be stored
  CHECK_THROWS(io::write_tree(folder.path / "a.h5", twice));
  CHECK(io::read_tree(folder.path / "a.h5").texts("wheels/name").size() == 3);
  CHECK(folder.files() == 1);
  CHECK_THROWS_AS(io::write_tree(folder.path / "no_folder/a.h5", twice), InputError);
}

TEST_CASE("What the landings do to the steel is stored and told only when it was asked for") {
  const Folder folder;
  io::write_tree(folder.path / "on.h5", study::tell(crossings(), answers::comparison(true)));
  io::write_tree(folder.path / "off.h5", study::tell(crossings(), answers::comparison()));
  const auto on = io::read_tree(folder.path / "on.h5"), off = io::read_tree(folder.path / "off.h5");
  CHECK(numbers(on, "passages/wear_volume_mm3")[3] == Approx(0.002));
  CHECK(numbers(on, "statistics/peak_pressure_MPa")[0] == Approx(1500.0));
  CHECK(texts(on, "steel/name") == Texts{"R260", "R260"});
  CHECK(numbers(on, "steel/beyond_shakedown_percent") == Numbers{75.0, 75.0});
  CHECK(texts(on, "passages/findings")[2] == "steel_unknown");
  CHECK_FALSE(on.texts("assumptions/steel/sentence").empty());
  CHECK(arrays_in(on) > arrays_in(off));
  for (const quantity::Group& group : off.groups()) { // nothing else is stored otherwise
    for (const quantity::Array& array : group.arrays) {
      const std::string path = group.path.empty() ? array.name : group.path + "/" + array.name;
      CAPTURE(path);
      CHECK(on.find(path) != nullptr);
      CHECK_FALSE(has(path, "wear"));
      CHECK_FALSE(has(path, "shakedown"));
    }
  }
  CHECK(off.texts("quantity").size() == quantity::compared(false).size());
  CHECK(on.texts("quantity").size() == quantity::compared(true).size());
  const std::string told = io::json(study::tell(crossings(), answers::comparison(true))),
                    untold = io::json(study::tell(crossings(), answers::comparison()));
  for (const std::string piece :
       {"\"wear_volume_mm3\"", "\"shakedown_exceedance_q95\"", "\"surface_fatigue_share_percent\"",
        "\"name\": \"R260\"",
        "\"assumptions\": {\n    \"steel\": [\n      {\n        \"sentence\": \"the wheelset runs straight",
        "\"beyond_shakedown_percent\": 75"}) {
    INFO(piece);
    CHECK(has(told, piece));
    CHECK_FALSE(has(untold, piece));
  }
}

TEST_CASE("A stored comparison names every file it rests on with its checksum") {
  const Folder folder;
  const quantity::Tree tree = study::tell(crossings(), answers::comparison());
  io::write_tree(folder.path / "a.h5", tree);
  const quantity::Tree stored = io::read_tree(folder.path / "a.h5");
  CHECK(texts(stored, "case/inputs/role") == Texts{"crossing worn: case"});
  CHECK(texts(stored, "case/inputs/file") == Texts{"worn.toml"});
  CHECK(texts(stored, "case/inputs/sha256") == Texts{std::string(64, 'a')});
  CHECK(has(io::json(tree), "\"sha256\": \"" + std::string(64, 'a')));
}

TEST_CASE("JSON of a comparison names units and carries the caution") {
  const auto told = nlohmann::json::parse(io::json(study::tell(crossings(), answers::comparison())));
  CHECK(told.at("about").at("reference") == "designed");
  CHECK(told.at("about").at("wheels_compared") == 2);
  CHECK(told.at("caution") == io::caution);
  const std::string text = told.dump();
  for (const std::string piece : {"\"p2_kN_q95\"", "\"lost_contact_share_percent\""}) {
    CHECK(has(text, piece));
  }
}
