// A passage told to others: what its file and its JSON hold.
#include "answers.hpp"
#include "catch.hpp"
#include "folder.hpp"
#include "said.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/io/tree_file.hpp"
#include "wingnose/version.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <string>

using namespace wingnose;
using said::has;

TEST_CASE("What is written to a result file is read back, with units, descriptions and origin") {
  const Folder folder;
  const auto c = io::parse_case("[case]\nname = \"kept\"\n[passage]\nspeed_km_h = 90\n", "kept.toml", ".");
  const auto r = answers::run();
  io::write_tree(folder.path / "a.h5", study::tell(c, r));
  const quantity::Tree stored = io::read_tree(folder.path / "a.h5");
  CHECK(stored.kind() == "run");
  CHECK(stored.attribute("schema_version") == std::to_string(io::layout_version));
  CHECK(stored.attribute("version") == version);
  CHECK(stored.attribute("commit") == commit);
  CHECK(stored.attribute("name") == "kept");
  CHECK(stored.attribute("method") == r.history.method);
  CHECK(stored.text("case/text") == c.source_text);
  const auto equal = [&](const std::string& path, const std::vector<double>& values) {
    const auto found = stored.numbers(path);
    return std::vector<double>(found.begin(), found.end()) == values;
  };
  CHECK(equal("history/force_N", r.history.force));
  CHECK(equal("history/force_wing_N", r.history.body_force[0]));
  CHECK(stored.numbers("history/station_mm").back() == Approx(1e3 * r.history.station.back()));
  CHECK(stored.numbers("path/height_mm")[2] == Approx(-1.0)); // the nose carries there
  CHECK(std::isnan(stored.numbers("path/nose/height_mm")[0]));
  CHECK(stored.number("measures/p2_kN") == Approx(123.4));
  CHECK(stored.number("measures/transfer_station_mm") == Approx(50));
  CHECK(std::isnan(stored.number("measures/first_peak_kN")));
  CHECK(stored.texts("events/kind")[0] == "touch");
  CHECK(stored.texts("events/kind")[1] == "lift-off");
  CHECK(quantity::findings_of(stored) == r.assessment.findings);
  REQUIRE(stored.texts("case/inputs/sha256").size() == 1);
  CHECK(stored.text("case/inputs/sha256") == c.inputs[0].sha256);
  CHECK(stored.text("case/inputs/file") == "kept.toml");
  for (const quantity::Group& group : stored.groups()) {
    for (const quantity::Array& array : group.arrays) {
      CAPTURE(group.path, array.name);
      CHECK(!array.unit.empty());
      CHECK(!array.meaning.empty());
      CHECK(array.shape.size() <= 1);
      CHECK(array.dims.size() == array.shape.size());
    }
  }
}

TEST_CASE("A stored passage tells every key its case rests on, and its unit") {
  const auto c = io::parse_case("[passage]\nspeed_km_h = 90\n", "x", ".");
  const quantity::Tree told = study::tell(c, answers::run());
  const auto keys = told.texts("case/keys/key"), values = told.texts("case/keys/value"),
             key_units = told.texts("case/keys/key_unit");
  const auto speed = static_cast<std::size_t>(std::find(keys.begin(), keys.end(), "passage.speed_km_h") - keys.begin());
  REQUIRE(speed < keys.size());
  CHECK(values[speed] == "90");
  CHECK(key_units[speed] == "km/h");
}

TEST_CASE("The JSON object carries units in its keys and null where there is no value") {
  const auto c = io::parse_case("[case]\nname = \"a \\\"quoted\\\" name\"\n", "x.toml", ".");
  const std::string text = io::json(study::tell(c, answers::run()));
  const auto told = nlohmann::json::parse(text);
  const auto& measures = told.at("measures");
  for (const auto* key :
       {"transfer_station_mm", "nose_thickness_at_transfer_mm", "dip_angle_mrad", "dip_depth_mm", "first_peak_kN",
        "p2_kN", "p2_cutoff_hz", "peak_total_kN", "peak_nose_kN", "overlap_mm", "lost_contact_ms", "static_load_kN"}) {
    CAPTURE(key);
    CHECK(measures.contains(key));
  }
  CHECK(measures.at("first_peak_kN").is_null());
  CHECK(measures.at("minimum_force_kN").is_null()); // not NaN, which is no JSON
  CHECK(measures.at("dip_angle_mrad") == 12.3);
  CHECK(!has(text, "nan"));
  CHECK(told.at("name") == "a \"quoted\" name");
  CHECK(told.at("caution") == io::caution);
  CHECK(told.at("findings").at(0).at("kind") == "rim_contact");
  CHECK(told.at("findings").at(0).at("gravity") == "warning");
  CHECK_FALSE(told.contains("history")); // long lists are left to the file
}
