// Damage told to others: files read back, JSON, and files of wheels. Passages are made up here.
#include "catch.hpp"
#include "damage_cases.hpp"

#include "../../src/io/hdf5_handle.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/io/damage_output.hpp"
#include "wingnose/io/population_file.hpp"
#include "wingnose/io/result_file.hpp"
#include "wingnose/words/error.hpp"

#include <nlohmann/json.hpp>

#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <numeric>
#include <string>

using namespace wingnose;
namespace fs = std::filesystem;
namespace h5 = io::h5;

namespace {

struct Folder {
  fs::path path = fs::temp_directory_path() / ("wingnose_io_damage_" + std::to_string(::getpid()));
  Folder() { fs::create_directories(path); }
  Folder(const Folder&) = delete;
  Folder(Folder&&) = delete;
  Folder& operator=(const Folder&) = delete;
  Folder& operator=(Folder&&) = delete;
  ~Folder() { fs::remove_all(path); }
};

template <class Work> std::string refusal(const Work& work) {
  try {
    work();
  } catch (const std::runtime_error& error) {
    return error.what();
  }
  return "";
}
bool has(const std::string& text, const std::string& piece) { return text.find(piece) != std::string::npos; }

study::Case demo() { return io::read_case(fs::path(WINGNOSE_SOURCE_DIR) / "profiles" / "demo.toml"); }

constexpr int stages = 3;

// One made-up passage, its damage, and a mixed traffic of two wheels of which one failed.
io::DamageReport made_up(const std::string& steel = "Mn") {
  io::DamageReport r;
  r.steel = assess::steel(steel);
  r.options.before = r.options.after = 0.2;
  r.trail = damage_cases::trail(damage_cases::jump(0.0, 0.010, damage_cases::landing), r.options);
  r.damage = assess::damage(r.trail, r.steel, r.options);
  r.tonnage = 5e9;
  const std::vector<assess::TrafficWheel> one{{.trail = &r.trail, .wheels = 1.0, .load = damage_cases::load}};
  const auto mix = assess::for_tonnage(one, r.tonnage);
  r.traffic = assess::damage_of_traffic(mix, r.steel, r.options, stages);
  study::Traffic t;
  t.population.classes.emplace_back().name = "new";
  t.population.members = {{"wheel 1", 0, 3.0, {}}, {"wheel 2", 0, 1.0, {}}};
  t.members.resize(2);
  t.members[0].wheels = mix.front().wheels;
  t.members[1].failure = "the wheel never changes over";
  t.failed = 1;
  t.failed_share = 0.25;
  t.damage = *r.traffic;
  r.mix = t;
  r.mix_text = "[population]\n";
  r.mix_inputs = {{"traffic", "traffic.toml", std::string(64, 'a')}};
  return r;
}

struct Dataset {
  std::vector<double> values;
  std::vector<std::size_t> shape;
  std::vector<std::string> texts;
  std::string unit, description;
};
std::map<std::string, Dataset> read_back(const fs::path& file) {
  std::map<std::string, Dataset> all;
  const h5::Handle opened = h5::open(file.string());
  for (const std::string& path : h5::dataset_paths(opened.id())) {
    const h5::Handle dataset = h5::open_dataset(opened.id(), path);
    Dataset d;
    if (h5::has_attribute(dataset.id(), "unit"))
      d.unit = h5::read_text_attribute(dataset.id(), "unit");
    if (h5::has_attribute(dataset.id(), "description"))
      d.description = h5::read_text_attribute(dataset.id(), "description");
    d.shape = h5::shape(dataset);
    if (h5::is_text(dataset))
      d.texts = h5::read_texts(dataset);
    else
      d.values = h5::read_numbers(dataset);
    all[path] = std::move(d);
  }
  return all;
}

double sum(const std::vector<double>& values) { return std::accumulate(values.begin(), values.end(), 0.0); }

} // namespace

TEST_CASE("every dataset of a damage file has a unit and a description, and names end with their unit") {
  const Folder folder;
  io::write_damage(folder.path / "damage.h5", demo(), made_up());
  const auto all = read_back(folder.path / "damage.h5");
  REQUIRE(all.size() > 60);
  for (const auto& [path, d] : all) {
    INFO(path);
    CHECK(!d.unit.empty());
    CHECK(!d.description.empty());
    if (d.unit == "MPa")
      CHECK(path.substr(path.size() - 3) == "MPa");
    if (d.unit == "mm")
      CHECK(path.substr(path.size() - 2) == "mm");
  }
}

TEST_CASE("the maps of a damage file hold the energy and the wear its measures tell") {
  const Folder folder;
  const io::DamageReport r = made_up();
  io::write_damage(folder.path / "damage.h5", demo(), r);
  auto all = read_back(folder.path / "damage.h5");
  const double cell = r.options.spacing_x * r.options.spacing_y * 1e6; // mm2
  for (const std::string part : {"passage", "traffic"}) {
    double energy = 0.0, worn = 0.0;
    for (const std::string body : {"wing", "nose"}) {
      const Dataset& map = all.at(part + "/" + body + "/friction_energy_J_mm2");
      REQUIRE(map.shape.size() == 2);
      CHECK(map.shape[0] == all.at(part + "/" + body + "/x_mm").values.size());
      CHECK(map.shape[1] == all.at(part + "/" + body + "/y_mm").values.size());
      energy += sum(map.values) * cell;
      worn += sum(all.at(part + "/" + body + "/wear_depth_um").values) * 1e-3 * cell;
    }
    const std::string measures = part == "passage" ? "measures/" : "traffic/measures/";
    CHECK(worn == Approx(all.at(measures + "wear_volume_mm3").values.front()));
    if (part == "passage")
      CHECK(energy == Approx(all.at("measures/friction_energy_J").values.front()));
  }
  const auto& pressure = all.at("contacts/peak_pressure_MPa").values;
  CHECK(*std::max_element(pressure.begin(), pressure.end()) ==
        Approx(all.at("measures/peak_pressure_MPa").values.front()));
  const auto& index = all.at("contacts/surface_fatigue_index").values;
  CHECK(*std::max_element(index.begin(), index.end()) ==
        Approx(all.at("measures/surface_fatigue_index").values.front()));
}

TEST_CASE("a damage file tells the stages of a traffic, the steel hardening from one to the next") {
  const Folder folder;
  const io::DamageReport r = made_up("Mn");
  io::write_damage(folder.path / "damage.h5", demo(), r);
  auto all = read_back(folder.path / "damage.h5");
  const auto& yield = all.at("traffic/stages/shear_yield_MPa").values;
  REQUIRE(yield.size() == stages);
  CHECK(std::is_sorted(yield.begin(), yield.end()));
  CHECK(yield.back() > yield.front());
  const Dataset& of_contacts = all.at("traffic/contacts/shear_yield_MPa");
  CHECK(of_contacts.shape == std::vector<std::size_t>{stages, r.trail.steps.size()});
  CHECK(of_contacts.values.front() == Approx(all.at("steel/shear_yield_MPa").values.front())); // new steel
  const auto late = std::span(of_contacts.values).last(r.trail.steps.size());
  CHECK(*std::max_element(late.begin(), late.end()) <= yield.back() * (1.0 + 1e-9));
  CHECK(all.at("traffic/population/failure").texts.back() == "the wheel never changes over");
  CHECK(sum(all.at("traffic/population/share").values) == Approx(1.0));
  CHECK(has(all.at("case/inputs").texts.back(), "traffic.toml"));
  CHECK(all.at("traffic/text").texts.front() == "[population]\n");
}

TEST_CASE("a damage file draws the running edges of the crossing and the limits of shakedown") {
  const Folder folder;
  const io::DamageReport r = made_up();
  io::write_damage(folder.path / "damage.h5", demo(), r);
  auto all = read_back(folder.path / "damage.h5");
  CHECK(!all.at("edges/wing/x_mm").values.empty());
  CHECK(all.at("edges/nose/x_mm").values.size() == all.at("edges/nose/y_mm").values.size());
  const assess::ShakedownMap limits;
  CHECK(all.at("limits/elastic_shakedown").values.front() == Approx(limits.elastic_shakedown(0.0)));
}

TEST_CASE("the JSON of damage has the keys of the measures, places, stages and the caution") {
  const io::DamageReport r = made_up();
  const auto json = nlohmann::json::parse(io::damage_json(demo(), r));
  for (const auto& n : io::damage_numbers(r)) {
    INFO(n.key);
    REQUIRE(json["passage"].contains(n.key));
    CHECK(json["passage"][n.key].get<double>() == Approx(n.value).epsilon(1e-5));
  }
  for (const auto& n : io::traffic_numbers(r))
    CHECK(json["traffic"].contains(n.key));
  CHECK(json["traffic"]["stages"].size() == stages);
  const double wheels = json["traffic"]["wheels"], depth = json["traffic"]["wear_depth_mm"];
  CHECK(json["traffic"]["wear_depth_per_wheel_nm"].get<double>() == Approx(depth * 1e6 / wheels).epsilon(1e-4));
  CHECK(json["traffic"]["population"]["failed"] == 1);
  CHECK(json["places"]["peak_pressure_MPa"]["body"] == "nose");
  CHECK(json["steel"]["name"] == "Mn");
  CHECK(json["caution"] == io::caution);
}

TEST_CASE("a damage file that cannot be written leaves nothing, and the earlier one as it was") {
  const Folder folder;
  CHECK(has(refusal([&] { io::write_damage(folder.path / "none" / "damage.h5", demo(), made_up()); }), "none"));
  CHECK(fs::is_empty(folder.path));
  const fs::path file = folder.path / "damage.h5";
  std::ofstream(file) << "earlier";
  io::DamageReport twice = made_up();
  twice.damage.maps.push_back(twice.damage.maps.front()); // two maps of one name cannot be stored
  CHECK(!refusal([&] { io::write_damage(file, demo(), twice); }).empty());
  std::string kept;
  std::ifstream(file) >> kept;
  CHECK(kept == "earlier");
  CHECK(std::distance(fs::directory_iterator(folder.path), {}) == 1);
}

TEST_CASE("a file of wheels has the tables of a comparison without its crossings") {
  const auto profiles = fs::path(WINGNOSE_SOURCE_DIR) / "profiles";
  const auto file = io::read_population(profiles / "traffic.toml");
  const auto& recipe = std::get<study::PopulationRecipe>(file.wheels);
  CHECK(recipe.count == 60);
  CHECK(recipe.classes.size() == 3);
  REQUIRE(!file.inputs.empty());
  CHECK(file.inputs.front().path == "traffic.toml");
  CHECK(file.inputs.front().sha256.size() == 64);
  const auto listed = io::parse_population("[[wheel]]\nname = \"a\"\nweight = 2\npassage.speed_km_h = 90\n", "t", ".");
  CHECK(std::get<study::Population>(listed.wheels).members.front().values.front().key == "passage.speed_km_h");
  const auto refused = [&](const std::string& text) {
    return refusal([&] { (void)io::parse_population(text, "t.toml", profiles); });
  };
  CHECK(has(refused("[[crossing]]\nname = \"a\"\ncase = \"demo.toml\"\n[population]\ncount = 3\n"),
            "belongs to a comparison"));
  CHECK(has(refused("[popluation]\ncount = 3\n"), "population"));
  CHECK(has(refused("[[class]]\nname = \"new\"\n"), "[population]"));
}
