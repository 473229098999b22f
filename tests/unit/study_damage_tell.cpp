// Damage told to others: files read back and JSON. Passages are made up.
#include "answers.hpp"
#include "catch.hpp"
#include "folder.hpp"
#include "said.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/io/tree_file.hpp"
#include "wingnose/words/error.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <numeric>
#include <string>
#include <vector>

using namespace wingnose;
using answers::stages;
using said::has;
using said::refusal;

namespace {

cases::Case demo(const std::string& steel = "Mn") {
  cases::Case c = io::read_case(profiles / "demo.toml");
  c.steel = steel;
  c.damage.before = c.damage.after = 0.2;
  return c;
}

quantity::Tree told(const cases::Case& c) {
  const std::array inputs{cases::InputFile{"traffic", "traffic.toml", std::string(64, 'a')}};
  return study::tell(c, answers::damage(c), "[population]\n", inputs);
}

// Written and read back.
quantity::Tree stored(const cases::Case& c) {
  const Folder folder;
  io::write_tree(folder.path / "damage.h5", told(c));
  return io::read_tree(folder.path / "damage.h5");
}

double sum(std::span<const double> values) { return std::accumulate(values.begin(), values.end(), 0.0); }
double largest(std::span<const double> values) { return *std::max_element(values.begin(), values.end()); }

} // namespace

TEST_CASE("Every dataset of a damage file has a unit and a description, and names end with their unit") {
  std::size_t arrays = 0;
  const quantity::Tree all = stored(demo());
  for (const quantity::Group& group : all.groups()) {
    for (const quantity::Array& a : group.arrays) {
      CAPTURE(group.path, a.name);
      ++arrays;
      CHECK(!a.unit.empty());
      CHECK(!a.meaning.empty());
      CHECK((a.unit != "MPa" || a.name.ends_with("_MPa")));
      CHECK((a.unit != "mm" || a.name.ends_with("_mm")));
    }
  }
  CHECK(arrays > 60);
}

TEST_CASE("The maps of a damage file hold the energy and the wear its measures tell") {
  const cases::Case c = demo();
  const quantity::Tree all = stored(c);
  const double cell = c.damage.spacing_x * c.damage.spacing_y * 1e6; // mm2
  for (const std::string part : {"passage", "traffic"}) {
    double energy = 0.0, worn = 0.0;
    for (const std::string body : {"wing", "nose"}) {
      const quantity::Array& map = *all.find(part + "/" + body + "/friction_energy_J_mm2");
      REQUIRE(map.shape.size() == 2);
      CHECK(map.shape[0] == all.numbers(part + "/" + body + "/x_mm").size());
      CHECK(map.shape[1] == all.numbers(part + "/" + body + "/y_mm").size());
      energy += sum(map.numbers) * cell;
      worn += sum(all.numbers(part + "/" + body + "/wear_depth_um")) * 1e-3 * cell;
    }
    CHECK(worn == Approx(all.number((part == "passage" ? "measures" : "traffic") + std::string("/wear_volume_mm3"))));
    if (part == "passage") {
      CHECK(energy == Approx(all.number("measures/friction_energy_J")));
    }
  }
  CHECK(largest(all.numbers("contacts/peak_pressure_MPa")) == Approx(all.number("measures/peak_pressure_MPa")));
  CHECK(largest(all.numbers("contacts/surface_fatigue_index")) == Approx(all.number("measures/surface_fatigue_index")));
}

TEST_CASE("A damage file tells the stages of a traffic, the steel hardening from one to the next") {
  const cases::Case c = demo("Mn");
  const quantity::Tree all = stored(c);
  const auto yield = all.numbers("traffic/stages/shear_yield_MPa");
  REQUIRE(yield.size() == stages);
  CHECK(std::is_sorted(yield.begin(), yield.end()));
  CHECK(yield.back() > yield.front());
  const std::size_t contacts = all.numbers("contacts/time_ms").size();
  const quantity::Array& of_contacts = *all.find("traffic/contacts/shear_yield_MPa");
  CHECK(of_contacts.shape == std::vector<std::size_t>{stages, contacts});
  CHECK(of_contacts.numbers.front() == Approx(all.number("steel/shear_yield_MPa"))); // new steel
  CHECK(largest(std::span(of_contacts.numbers).last(contacts)) <= yield.back() * (1.0 + 1e-9));
  CHECK(all.texts("traffic/population/failure").back() == "the wheel never changes over");
  CHECK(sum(all.numbers("traffic/population/share")) == Approx(1.0));
  CHECK(all.texts("case/inputs/file").back() == "traffic.toml");
  CHECK(all.text("traffic/text") == "[population]\n");
}

TEST_CASE("A damage file draws the running edges of the crossing and the limits of shakedown") {
  const cases::Case c = demo();
  study::DamageStudy s = answers::damage(c);
  s.crossing = study::geometry(c).crossing;
  const quantity::Tree all = study::tell(c, s);
  CHECK(!all.numbers("edges/wing/x_mm").empty());
  CHECK(all.numbers("edges/nose/x_mm").size() == all.numbers("edges/nose/y_mm").size());
  const assess::ShakedownMap limits;
  CHECK(all.numbers("limits/elastic_shakedown").front() == Approx(limits.elastic_shakedown(0.0)));
}

TEST_CASE("The JSON of damage has the keys of the measures, places, stages and the caution") {
  const cases::Case c = demo();
  const study::DamageStudy s = answers::damage(c);
  const auto json = nlohmann::json::parse(io::json(told(c)));
  const auto& places = json.at("places");
  for (const quantity::Quantity& q : quantity::quantities()) {
    if (!quantity::of_steel(q)) {
      continue;
    }
    CAPTURE(q.key);
    REQUIRE(json.at("measures").contains(q.key));
    CHECK(json.at("measures").at(q.key).get<double>() == Approx(quantity::value(q, s.assessment)).epsilon(1e-9));
    const auto place = std::find_if(places.begin(), places.end(), [&](const auto& p) { return p.at("key") == q.key; });
    REQUIRE(place != places.end());
    if (q.key == "peak_pressure_MPa") {
      CHECK(place->at("body") == "nose");
    }
  }
  const auto& traffic = json.at("traffic");
  CHECK(traffic.at("stages").size() == stages);
  const double wheels = traffic.at("wheels"), depth = traffic.at("wear_depth_mm");
  CHECK(traffic.at("wear_depth_per_wheel_nm").get<double>() == Approx(depth * 1e6 / wheels).epsilon(1e-4));
  CHECK(traffic.at("tonnage_MGT") == 5);
  CHECK(traffic.at("failed") == 1);
  CHECK(traffic.at("failed_share") == 0.25);
  CHECK(json.at("steel").at("name") == "Mn");
  CHECK(json.at("caution") == io::caution);
}

TEST_CASE("A damage file that cannot be written leaves nothing, and the earlier one as it was") {
  const Folder folder;
  const cases::Case c = demo();
  CHECK(has(refusal([&] { io::write_tree(folder.path / "none" / "damage.h5", told(c)); }), "none"));
  CHECK(folder.files() == 0);
  const fs::path file = folder.path / "damage.h5";
  io::write_tree(file, study::tell(c, answers::run()));
  study::DamageStudy twice = answers::damage(c);
  twice.damage.maps.push_back(twice.damage.maps.front()); // two maps of one name cannot be stored
  CHECK(!refusal([&] { io::write_tree(file, study::tell(c, twice)); }).empty());
  CHECK(io::read_tree(file).kind() == "run");
  CHECK(folder.files() == 1);
}
