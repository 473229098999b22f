// Comparison files as users write them.
#include "catch.hpp"
#include "folder.hpp"
#include "parsed.hpp"
#include "said.hpp"

#include "wingnose/study/compare.hpp"
#include "wingnose/words/error.hpp"

#include <string>

using namespace wingnose;
using said::has;
using said::refusal;

namespace {

const std::string two =
    "[[crossing]]\nname = \"designed\"\ncase = \"demo.toml\"\n[[crossing]]\nname = \"worn\"\ncase = "
    "\"worn.toml\"\n";
const std::string one = "[[wheel]]\nweight = 1\n";

study::ComparisonFile parse(const std::string& text, const fs::path& folder = profiles) {
  return parsed::from_text(text, "compare.toml", folder, study::read_comparison);
}

void refused(const std::string& text, const std::string& message) {
  const std::string told = refusal<InputError>([&] { (void)parse(text); });
  INFO(text << " -> " << told);
  CHECK(has(told, message));
}

} // namespace

TEST_CASE("The demo comparison is read with its crossings, classes and distributions") {
  const auto [file, text, inputs] = io::read_file(profiles / "compare.toml", "comparison", study::read_comparison);
  REQUIRE(file.crossings.size() >= 3);
  CHECK(file.crossings.front().name == "designed");
  const auto& recipe = std::get<cases::PopulationRecipe>(file.wheels);
  CHECK(recipe.count == 60);
  REQUIRE(recipe.classes.size() == 3);
  CHECK(recipe.classes[1].variations.front().key == "wheel.hollow_depth_mm");
  CHECK(recipe.classes[2].wheel.value()->wheel.shape != recipe.classes[0].wheel.value()->wheel.shape);
  CHECK(file.options.thin_nose == Approx(0.020));
  CHECK_FALSE(file.options.steel);
  CHECK(parse(two + one + "[compare]\nsteel = true\n").options.steel);
  CHECK(has(text, "[[crossing]]"));
  REQUIRE_FALSE(inputs.empty());
  CHECK(inputs.front().path == "compare.toml");
}

TEST_CASE("Every option of a comparison reaches its value in SI") {
  const auto o = parse(two + one +
                       "[compare]\nthin_nose_mm = 15\nconfidence = 0.9\nresamples = 500\nseed = 7\n"
                       "envelope_step_mm = 5\nenvelope_from_m = -1\nenvelope_to_m = 2\nthickness_step_mm = 4\n"
                       "thickness_to_mm = 60\n")
                     .options;
  CHECK(o.thin_nose == Approx(0.015));
  CHECK(o.confidence == 0.9);
  CHECK(o.resamples == 500);
  CHECK(o.seed == 7);
  CHECK(o.grid.envelope_step == Approx(0.005));
  CHECK(o.grid.envelope_from == -1.0);
  CHECK(o.grid.envelope_to == 2.0);
  CHECK(o.grid.thickness_step == Approx(0.004));
  CHECK(o.grid.thickness_to == Approx(0.060));
}

TEST_CASE("Mistakes in a comparison file are told with place and what to do") {
  refused(one, "at least two [[crossing]] tables");
  refused("[[crossing]]\nname = \"a\"\ncase = \"demo.toml\"\n" + one, "at least two [[crossing]] tables");
  refused("[[crosing]]\nname = \"a\"\n", "Did you mean \"crossing\"?");
  refused("[[crossing]]\nname = \"a\"\ncsae = \"demo.toml\"\n", "Did you mean \"case\"?");
  refused("[[crossing]]\nname = \"a\"\ncase = \"no_such.toml\"\n", "compare.toml:3");
  refused("[[crossing]]\nname = \"a\"\ncase = \"demo.toml\"\n" + two.substr(0, 13) +
              "name = \"a\"\ncase = \"worn.toml\"\n" + one,
          "two crossings are called \"a\"");
  refused(two + one + "[compare]\nthin_nose = 20\n", "Did you mean \"thin_nose_mm\"?");
  refused(two + one + "[compare]\nthin_nose_mm = 2000\n", "compare.toml:10: compare.thin_nose_mm: 2000 mm");
  refused(two + one + "[compare]\nsteel = \"R260\"\n", "true or false");
  refused(two + one + "[compare]\nsteal = true\n", "Did you mean \"steel\"?");
}

TEST_CASE("Options of a comparison that contradict each other are told by their keys, in their units") {
  refused(two + one + "[compare]\nenvelope_from_m = 1\nenvelope_to_m = 1\n",
          "compare.toml:11: compare.envelope_to_m: 1 m is not allowed; allowed: at least 1.01 m with "
          "compare.envelope_from_m = 1 m");
  refused(two + one + "[compare]\nthickness_to_mm = 1\n",
          "compare.thickness_to_mm: 1 mm is not allowed; allowed: at least 2 mm with compare.thickness_step_mm = 2 mm");
}

TEST_CASE("A comparison names every file it rests on with its checksum") {
  const Folder folder;
  folder.write("wheels.csv", "weight,wheel.lateral_offset_mm\n1,0\n");
  folder.write("compare.toml", "[[crossing]]\nname = \"a\"\ncase = \"" + (profiles / "demo_sections.toml").string() +
                                   "\"\n[[crossing]]\nname = \"b\"\ncase = \"" + (profiles / "worn.toml").string() +
                                   "\"\n[population]\ncsv = \"wheels.csv\"\n");
  const auto read = [&] { return io::read_file(folder.path / "compare.toml", "comparison", study::read_comparison); };
  const auto inputs = read().inputs;
  REQUIRE(inputs.size() == 2);
  CHECK(inputs[0].role == "comparison");
  CHECK(inputs[0].path == "compare.toml");
  CHECK(inputs[1].role == "wheels");
  CHECK(inputs[1].path == "wheels.csv");
  CHECK(inputs[1].sha256 != inputs[0].sha256);
  folder.write("wheels.csv", "weight,wheel.lateral_offset_mm\n1,0\n2,1\n");
  const auto changed = read().inputs;
  CHECK(changed[0].sha256 == inputs[0].sha256);
  CHECK(changed[1].sha256 != inputs[1].sha256);
}
