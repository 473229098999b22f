// Comparison files as users write them, and comparisons stored and read back. Answers are made up here.
#include "catch.hpp"

#include "wingnose/io/compare_output.hpp"
#include "wingnose/io/comparison_file.hpp"
#include "wingnose/words/error.hpp"

#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>

using namespace wingnose;
namespace fs = std::filesystem;

namespace {

// What an error says; empty where there is none.
template <class Work> std::string refusal(const Work& work) {
  try {
    work();
  } catch (const std::runtime_error& error) {
    return error.what();
  }
  return "";
}
bool has(const std::string& text, const std::string& piece) { return text.find(piece) != std::string::npos; }

const fs::path profiles = fs::path(WINGNOSE_SOURCE_DIR) / "profiles";
const std::string two =
    "[[crossing]]\nname = \"designed\"\ncase = \"demo.toml\"\n[[crossing]]\nname = \"worn\"\ncase = "
    "\"worn.toml\"\n";

struct Folder {
  fs::path path = fs::temp_directory_path() / ("wingnose_io_compare_" + std::to_string(::getpid()));
  Folder() { fs::create_directories(path); }
  Folder(const Folder&) = delete;
  Folder(Folder&&) = delete;
  Folder& operator=(const Folder&) = delete;
  Folder& operator=(Folder&&) = delete;
  ~Folder() { fs::remove_all(path); }
};

io::ComparisonFile parse(const std::string& text) { return io::parse_comparison(text, "compare.toml", profiles); }

// Two crossings, three wheels, the last of which failed on the second crossing.
study::Comparison made_up() {
  study::Comparison c;
  c.population.classes.emplace_back().name = "new";
  for (int i = 0; i < 3; ++i) {
    c.population.members.push_back(
        {"wheel " + std::to_string(i + 1), 0, 1.0, {{"wheel.lateral_offset_mm", static_cast<double>(i)}}});
  }
  c.compared = {true, true, false};
  c.dropped = 1.0 / 3.0;
  c.crossings.resize(2);
  for (std::size_t i = 0; i < 2; ++i) {
    auto& a = c.crossings[i];
    a.name = i == 0 ? "designed" : "worn";
    a.members.resize(3);
    for (std::size_t m = 0; m < 3; ++m) {
      a.members[m].speed = 30.0;
      a.members[m].observed.fill(1000.0 * static_cast<double>(i + m + 1));
    }
    auto& d = a.distributions[static_cast<std::size_t>(study::Observed::p2)];
    d.count = 2;
    d.mean = 150e3;
    d.quantiles.fill(160e3);
    d.values = {100e3, 200e3};
    d.cumulative = {0.5, 1.0};
    a.envelope = {{0.1}, {1e3}, {2e3}, {3e3}, {4e3}};
    a.nose_load = {{0.02}, {0.022}, {50e3}, {70e3}, {1.0}};
    auto path = std::make_shared<contact::WheelPath>();
    path->station = {0.0, 0.1};
    path->bodies.resize(2);
    path->bodies[0].name = "wing";
    path->bodies[0].height = {0.001, 0.0005};
    path->bodies[1].name = "nose";
    path->bodies[1].height = {-INFINITY, 0.002};
    a.paths.push_back({0, "typical of new", path});
  }
  c.crossings[1].members[2].state = study::MemberAnswer::State::could_not_compute;
  c.crossings[1].members[2].failure = "the wheel leaves the rail";
  c.crossings[1].failed = 1.0 / 3.0;
  c.crossings[1].early = 0.5;
  c.crossings[1].early_members = {1};
  for (const auto& criterion : study::criteria()) {
    c.rankings.push_back({criterion, {1.0, 2.0}, {0, 1}, {true}, {1, 2}});
    c.differences.push_back({1, criterion, 0.5, 0.25, 0.75, 1.0});
  }
  c.groups.push_back({study::Group::Kind::load, "wheel loads up to 80 kN", {0}, 0.5, c.rankings, {}});
  c.groups.back().flips.assign(c.rankings.size(), false);
  c.warnings = {"on \"worn\" one wheel transfers early"};
  c.inputs = {{"crossing worn: case", "worn.toml", std::string(64, 'a')}};
  return c;
}

// The same with what the landings do to the steel.
study::Comparison made_up_steel() {
  study::Comparison c = made_up();
  c.options.steel = true;
  c.steel_assumptions = {"the wheelset runs straight"};
  for (auto& a : c.crossings) {
    a.steel = "R260";
    a.friction = 0.25;
    a.beyond_shakedown = 0.75;
    a.members[0].observed[static_cast<std::size_t>(study::Observed::wear_volume)] = 2e-12;
    a.members[2].steel_failure = "no contact";
    a.distributions[static_cast<std::size_t>(study::Observed::peak_pressure)].mean = 1.5e9;
  }
  c.rankings.clear();
  c.differences.clear();
  for (const auto& criterion : study::criteria(true)) {
    c.rankings.push_back({criterion, {1.0, 2.0}, {0, 1}, {true}, {1, 2}});
    c.differences.push_back({1, criterion, 0.5, 0.25, 0.75, 1.0});
  }
  return c;
}

} // namespace

TEST_CASE("the demo comparison is read with its crossings, classes and distributions") {
  const auto file = io::read_comparison(profiles / "compare.toml");
  REQUIRE(file.crossings.size() >= 3);
  CHECK(file.crossings.front().name == "designed");
  const auto& recipe = std::get<study::PopulationRecipe>(file.wheels);
  CHECK(recipe.count == 60);
  REQUIRE(recipe.classes.size() == 3);
  CHECK(recipe.classes[1].variations.front().key == "wheel.hollow_depth_mm");
  CHECK(recipe.classes[2].wheel->base().wheel.name != recipe.classes[0].wheel->base().wheel.name);
  CHECK(file.options.thin_nose == Approx(0.020));
  CHECK_FALSE(file.options.steel);
  CHECK(parse(two + "[[wheel]]\nweight = 1\n[compare]\nsteel = true\n").options.steel);
  CHECK(!file.text.empty());
}

TEST_CASE("wheels are listed one by one, with keys written as in a case") {
  const auto file = parse(two + "[[class]]\nname = \"hollow\"\nwheel = { profile = \"S1002\", hollow_depth_mm = 2 }\n"
                                "[[wheel]]\nweight = 3\nwheel.lateral_offset_mm = -2\npassage.speed_km_h = 90\n"
                                "[[wheel]]\nname = \"the other\"\nclass = \"hollow\"\nweight = 0.5\n");
  const auto& population = std::get<study::Population>(file.wheels);
  REQUIRE(population.members.size() == 2);
  CHECK(population.members[0].weight == 3.0);
  CHECK(population.members[0].name == "wheel 1");
  REQUIRE(population.members[0].values.size() == 2);
  CHECK(population.members[1].name == "the other");
  CHECK(population.classes[0].wheel.has_value());
}

TEST_CASE("wheels are listed in a CSV file, where an empty cell leaves the value to the case") {
  const Folder folder;
  std::ofstream(folder.path / "wheels.csv")
      << "# measured\nname,class,weight,wheel.lateral_offset_mm,passage.speed_km_h\na,new,2,1.5,100\nb,old,1,,80\n";
  const auto file =
      io::parse_comparison("[[crossing]]\nname = \"a\"\ncase = \"" + (profiles / "demo.toml").string() +
                               "\"\n[[crossing]]\nname = \"b\"\ncase = \"" + (profiles / "worn.toml").string() +
                               "\"\n[population]\ncsv = \"wheels.csv\"\n",
                           "compare.toml", folder.path);
  const auto& population = std::get<study::Population>(file.wheels);
  REQUIRE(population.members.size() == 2);
  CHECK(population.classes[1].name == "old");
  CHECK(population.members[0].values.size() == 2);
  REQUIRE(population.members[1].values.size() == 1);
  CHECK(population.members[1].values[0].key == "passage.speed_km_h");
}

TEST_CASE("mistakes in a comparison file are told with place and what to do") {
  const std::string one = "[[wheel]]\nweight = 1\n";
  const auto refused = [](const std::string& text, const std::string& message) {
    INFO(text);
    CHECK(has(refusal([&] { (void)parse(text); }), message));
  };
  refused(one, "at least two [[crossing]] tables");
  refused("[[crossing]]\nname = \"a\"\ncase = \"demo.toml\"\n" + one, "at least two [[crossing]] tables");
  refused("[[crosing]]\nname = \"a\"\n", "Did you mean \"crossing\"?");
  refused("[[crossing]]\nname = \"a\"\ncsae = \"demo.toml\"\n", "Did you mean \"case\"?");
  refused("[[crossing]]\nname = \"a\"\ncase = \"no_such.toml\"\n", "compare.toml:3");
  refused("[[crossing]]\nname = \"a\"\ncase = \"demo.toml\"\n" + two.substr(0, 13) +
              "name = \"a\"\ncase = \"worn.toml\"\n" + one,
          "two crossings are called \"a\"");
  refused(two, "either drawn or from a CSV file");
  refused(two + one + "[population]\ncount = 3\n", "either drawn or from a CSV file");
  refused(two + "[[wheel]]\nweight = -1\n", "-1 is not allowed; allowed: 0 or more");
  refused(two + "[[wheel]]\nwheel.lateral_offset_mm = 1\n", "weight is missing");
  refused(two + "[[wheel]]\nweight = 1\nwieght = 2\n", "Did you mean \"weight\"?");
  refused(two + "[[class]]\nname = \"new\"\n[[wheel]]\nweight = 1\nclass = \"nwe\"\n", "Did you mean \"new\"?");
  refused(two + "[population]\nseed = 3\n", "count is missing");
  refused(two + "[population]\ncount = 3\nsampling = \"simpel\"\n", "Did you mean \"simple\"?");
  refused(two + "[population]\ncount = 3\n[[population.vary]]\nkey = \"a\"\ndistribution = \"nomal\"\n",
          "Did you mean \"normal\"?");
  refused(two + "[population]\ncount = 3\n[[population.vary]]\nkey = \"a\"\ndistribution = \"normal\"\nmean = 1\n",
          "standard_deviation is missing");
  refused(two + "[population]\ncount = 3\n[[class]]\nname = \"new\"\nshare = 0\n", "above 0");
  refused(two + "[population]\ncount = 3\n[[class]]\nname = \"new\"\nwheel = { profil = \"S1002\" }\n",
          "Did you mean \"profile\"?");
  refused(two + one + "[compare]\nthin_nose = 20\n", "Did you mean \"thin_nose_mm\"?");
  refused(two + one + "[compare]\nsteel = \"R260\"\n", "true or false");
  refused(two + one + "[compare]\nsteal = true\n", "Did you mean \"steel\"?");
}

TEST_CASE("a comparison stored is read back with units, texts and wheels that failed") {
  const Folder folder;
  const auto file = folder.path / "a.h5";
  const auto crossings = parse(two + "[[wheel]]\nweight = 1\n").crossings;
  const auto c = made_up();
  io::write_comparison(file, crossings, c, "the file");
  const auto stored = io::read_comparison_result(file);
  CHECK(stored.case_text == "the file");
  CHECK(stored.texts.at("crossings/name") == std::vector<std::string>{"designed", "worn"});
  CHECK(stored.arrays.at("members/speed_km_h").values == std::vector<double>(3, 108.0));
  CHECK(stored.arrays.at("members/compared").values == std::vector<double>{1, 1, 0});
  CHECK(stored.arrays.at("members/input/wheel.lateral_offset_mm").values == std::vector<double>{0, 1, 2});
  CHECK(stored.arrays.at("members/input/wheel.lateral_offset_mm").unit == "mm");
  CHECK(stored.arrays.at("crossing/1/members/p2_kN").values == std::vector<double>{2, 3, 4});
  CHECK(stored.arrays.at("crossing/1/members/status").values == std::vector<double>{0, 0, 3});
  CHECK(stored.texts.at("crossing/1/members/failure").back() == "the wheel leaves the rail");
  CHECK(stored.arrays.at("crossing/0/cumulative/p2_kN").values == std::vector<double>{100, 200});
  CHECK(stored.arrays.at("crossing/0/envelope/q95_kN").values == std::vector<double>{3});
  CHECK(stored.arrays.at("crossing/1/early/member").values == std::vector<double>{1});
  const auto& nose = stored.arrays.at("crossing/0/path/0/height_nose_mm");
  CHECK(std::isnan(nose.values[0])); // the wheel cannot touch the nose there
  CHECK(stored.arrays.at("crossing/0/path/0/height_mm").values == std::vector<double>{1, 2});
  CHECK(stored.arrays.at("differences/1/value").values.size() == stored.texts.at("differences/key").size());
  CHECK(stored.texts.at("texts/warnings") == c.warnings);
  for (const auto& [path, array] : stored.arrays) {
    INFO(path);
    CHECK(!array.unit.empty());
    CHECK(!array.description.empty());
  }
}

TEST_CASE("a file that is no comparison is refused, and a failing write leaves the old one") {
  const Folder folder;
  std::ofstream(folder.path / "text.h5") << "words";
  CHECK(has(refusal([&] { (void)io::read_comparison_result(folder.path / "text.h5"); }), "not an HDF5 file"));
  CHECK(has(refusal([&] { (void)io::read_comparison_result(folder.path / "none.h5"); }), "does not exist"));
  const auto crossings = parse(two + "[[wheel]]\nweight = 1\n").crossings;
  io::write_comparison(folder.path / "a.h5", crossings, made_up());
  CHECK_THROWS_AS(io::write_comparison(folder.path / "a.h5", {}, made_up()), InputError);
  CHECK(io::read_comparison_result(folder.path / "a.h5").texts.at("members/name").size() == 3);
  CHECK_THROWS_AS(io::write_comparison(folder.path / "no_folder/a.h5", crossings, made_up()), InputError);
}

TEST_CASE("what the landings do to the steel is stored and told only when it was asked for") {
  const Folder folder;
  const auto crossings = parse(two + "[[wheel]]\nweight = 1\n").crossings;
  io::write_comparison(folder.path / "on.h5", crossings, made_up_steel());
  io::write_comparison(folder.path / "off.h5", crossings, made_up());
  const auto on = io::read_comparison_result(folder.path / "on.h5");
  const auto off = io::read_comparison_result(folder.path / "off.h5");
  CHECK(on.arrays.at("crossing/1/members/wear_volume_mm3").values[0] == Approx(0.002));
  CHECK(on.arrays.at("crossing/0/statistics/mean").values[study::observed(false).size()] == Approx(1500.0)); // MPa
  CHECK(on.texts.at("crossings/steel") == std::vector<std::string>{"R260", "R260"});
  CHECK(on.arrays.at("crossings/beyond_shakedown_share").values == std::vector<double>{0.75, 0.75});
  CHECK(on.texts.at("crossing/0/members/steel_failure").back() == "no contact");
  CHECK(on.texts.at("texts/steel_assumptions").size() == 1);
  for (const auto& [path, array] : off.arrays) { // nothing else is stored otherwise
    INFO(path);
    CHECK(on.arrays.count(path) == 1);
    CHECK(path.find("wear") == std::string::npos);
    CHECK(path.find("shakedown") == std::string::npos);
  }
  CHECK(off.texts.at("quantities/key").size() == study::observed(false).size());
  const std::string told = io::comparison_json(made_up_steel()), untold = io::comparison_json(made_up());
  for (const std::string piece :
       {"\"wear_volume_mm3\"", "\"shakedown_exceedance_q95\"", "\"surface_fatigue_share_percent\"",
        "\"steel\": \"R260\"", "\"steel_assumptions\"", "\"beyond_shakedown_share\": 0.75"}) {
    INFO(piece);
    CHECK(has(told, piece));
    CHECK_FALSE(has(untold, piece));
  }
}

TEST_CASE("a comparison names every file it rests on with its checksum") {
  const Folder folder;
  std::ofstream(folder.path / "wheels.csv") << "weight,wheel.lateral_offset_mm\n1,0\n";
  std::ofstream(folder.path / "compare.toml")
      << "[[crossing]]\nname = \"a\"\ncase = \"" << (profiles / "demo_sections.toml").string()
      << "\"\n[[crossing]]\nname = \"b\"\ncase = \"" << (profiles / "worn.toml").string()
      << "\"\n[population]\ncsv = \"wheels.csv\"\n";
  const auto file = io::read_comparison(folder.path / "compare.toml");
  REQUIRE(file.options.inputs.size() == 2);
  CHECK(file.options.inputs[0].role == "comparison");
  CHECK(file.options.inputs[0].path == "compare.toml");
  CHECK(file.options.inputs[1].role == "wheels");
  CHECK(file.options.inputs[1].path == "wheels.csv");
  CHECK(file.options.inputs[1].sha256 != file.options.inputs[0].sha256);
  std::ofstream(folder.path / "wheels.csv", std::ios::app) << "2,1\n";
  const auto changed = io::read_comparison(folder.path / "compare.toml");
  CHECK(changed.options.inputs[0].sha256 == file.options.inputs[0].sha256);
  CHECK(changed.options.inputs[1].sha256 != file.options.inputs[1].sha256);

  io::write_comparison(folder.path / "a.h5", parse(two + "[[wheel]]\nweight = 1\n").crossings, made_up());
  CHECK(io::read_comparison_result(folder.path / "a.h5").texts.at("case/inputs") ==
        std::vector<std::string>{"crossing worn: case\tworn.toml\t" + std::string(64, 'a')});
  CHECK(has(io::comparison_json(made_up()), "\"sha256\": \"" + std::string(64, 'a')));
}

TEST_CASE("JSON of a comparison names units and carries the caution") {
  const std::string json = io::comparison_json(made_up());
  for (const std::string piece : {"\"reference\": \"designed\"", "\"p2_kN_q95\"", "\"lost_contact_share_percent\"",
                                  "local standards and licensed engineers decide", "\"wheels_compared\": 2"}) {
    CHECK(json.find(piece) != std::string::npos);
  }
}

TEST_CASE("every quantity and criterion has a key that ends in its unit, and no two share one") {
  std::vector<std::string> keys;
  for (const auto& q : io::compared_quantities(true)) {
    keys.push_back(q.key);
    CHECK(io::compared_quantity(q.of).key == q.key);
  }
  CHECK(keys.size() == study::observed_count);
  CHECK(io::compared_quantities().size() == study::observed(false).size());
  for (const auto& criterion : study::criteria(true)) {
    keys.push_back(io::named(criterion).key);
  }
  std::sort(keys.begin(), keys.end());
  CHECK(std::adjacent_find(keys.begin(), keys.end()) == keys.end());
}
