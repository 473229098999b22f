// Files of wheels as users write them: listed in the file or in a CSV file, or drawn.
#include "catch.hpp"
#include "folder.hpp"
#include "parsed.hpp"
#include "said.hpp"

#include "wingnose/case/population.hpp"
#include "wingnose/words/error.hpp"

#include <string>

using namespace wingnose;
using said::has;
using said::refusal;

namespace {

cases::Wheels parse(const std::string& text, const fs::path& folder = profiles) {
  return parsed::from_text(text, "wheels.toml", folder, cases::read_population);
}

const std::string one = "[[wheel]]\nweight = 1\n";

void refused(const std::string& text, const std::string& message) {
  const std::string told = refusal<InputError>([&] { (void)parse(text); });
  INFO(text << " -> " << told);
  CHECK(has(told, message));
}

} // namespace

TEST_CASE("Wheels are listed one by one, with keys written as in a case") {
  const auto wheels = parse("[[class]]\nname = \"hollow\"\nwheel = { profile = \"S1002\", hollow_depth_mm = 2 }\n"
                            "[[wheel]]\nweight = 3\nwheel.lateral_offset_mm = -2\npassage.speed_km_h = 90\n"
                            "[[wheel]]\nname = \"the other\"\nclass = \"hollow\"\nweight = 0.5\n");
  const auto& population = std::get<cases::Population>(wheels);
  REQUIRE(population.members.size() == 2);
  CHECK(population.members[0].weight == 3.0);
  CHECK(population.members[0].name == "wheel 1");
  REQUIRE(population.members[0].values.size() == 2);
  CHECK(population.members[1].name == "the other");
  CHECK(population.classes[0].wheel.has_value());
}

TEST_CASE("Wheels are listed in a CSV file, where an empty cell leaves the value to the case") {
  const Folder folder;
  folder.write("wheels.csv", "# measured\nname,class,weight,wheel.lateral_offset_mm,passage.speed_km_h\n"
                             "a,new,2,1.5,100\nb,old,1,,80\n");
  const auto wheels = parse("[population]\ncsv = \"wheels.csv\"\n", folder.path);
  const auto& population = std::get<cases::Population>(wheels);
  REQUIRE(population.members.size() == 2);
  CHECK(population.classes[1].name == "old");
  CHECK(population.members[0].values.size() == 2);
  REQUIRE(population.members[1].values.size() == 1);
  CHECK(population.members[1].values[0].key == "passage.speed_km_h");
}

TEST_CASE("A file of wheels has the tables of a comparison without its crossings") {
  const auto file = io::read_file(profiles / "traffic.toml", "traffic", cases::read_population);
  const auto& recipe = std::get<cases::PopulationRecipe>(file.value);
  CHECK(recipe.count == 60);
  CHECK(recipe.classes.size() == 3);
  REQUIRE(!file.inputs.empty());
  CHECK(file.inputs.front().path == "traffic.toml");
  CHECK(file.inputs.front().sha256.size() == 64);
  const auto listed = parse("[[wheel]]\nname = \"a\"\nweight = 2\npassage.speed_km_h = 90\n");
  CHECK(std::get<cases::Population>(listed).members.front().values.front().key == "passage.speed_km_h");
  refused("[[crossing]]\nname = \"a\"\ncase = \"demo.toml\"\n[population]\ncount = 3\n", "belongs to a comparison");
  refused("[popluation]\ncount = 3\n", "population");
  refused("[[class]]\nname = \"new\"\n", "[population]");
}

TEST_CASE("Mistakes in a file of wheels are told with place and what to do") {
  refused("[[class]]\nname = \"new\"\n", "either drawn or from a CSV file");
  refused(one + "[population]\ncount = 3\n", "either drawn or from a CSV file");
  refused("[[wheel]]\nweight = -1\n", "-1 is not allowed; allowed: 0 or more");
  refused("[[wheel]]\nwheel.lateral_offset_mm = 1\n", "weight is missing");
  refused("[[wheel]]\nweight = 1\nwieght = 2\n", "Did you mean \"weight\"?");
  refused("[[class]]\nname = \"new\"\n[[wheel]]\nweight = 1\nclass = \"nwe\"\n", "Did you mean \"new\"?");
  refused("[population]\nseed = 3\n", "count is missing");
  refused("[population]\ncount = 3\nsampling = \"simpel\"\n", "Did you mean \"simple\"?");
  refused("[population]\ncount = 3\n[[population.vary]]\nkey = \"a\"\ndistribution = \"nomal\"\n",
          "Did you mean \"normal\"?");
  refused("[population]\ncount = 3\n[[population.vary]]\nkey = \"a\"\ndistribution = \"normal\"\nmean = 1\n",
          "standard_deviation is missing");
  refused("[population]\ncount = 3\n[[class]]\nname = \"new\"\nshare = 0\n", "above 0");
  refused("[population]\ncount = 3\n[[class]]\nname = \"new\"\nwheel = { profil = \"S1002\" }\n",
          "Did you mean \"profile\"?");
}
