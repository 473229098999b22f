#include "catch.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/io/result_file.hpp"
#include "wingnose/version.hpp"
#include "wingnose/words/error.hpp"

#include <unistd.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <limits>
#include <string>

namespace fs = std::filesystem;
using namespace wingnose;

namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

// A result with known numbers, small enough to check by eye; no simulation.
study::Result made_up() {
  study::Result r;
  contact::WheelPath path;
  path.station = {-0.1, 0.0, 0.1};
  path.bodies = {{"wing", {0, -1e-3, -2e-3}, {0.7, 0.7, 0.7}, {0, 0, 0}, {0, 0, 0}, {0, 0, 0}, {2, 2, 2}, {3, 3, 3}},
                 {"nose",
                  {-INFINITY, -3e-3, -1e-3},
                  {nan, 0.7, 0.7},
                  {nan, 0, 0},
                  {nan, 0, 0},
                  {nan, 0, 0},
                  {nan, 2, 2},
                  {nan, 3, 3}}};
  path.excitation = "crossing";
  path.wheel_radius = 0.46;
  r.geometry.path = std::make_shared<const contact::WheelPath>(path);
  r.geometry.kinematics.transfer_station = 0.05;
  r.geometry.kinematics.dip_angle = 0.0123;
  r.geometry.kinematics.findings = {{FindingKind::rim_contact, "rim contact at 40 mm", "wing"}};
  auto& h = r.history;
  for (int i = 0; i < 3000; ++i) { // long enough to be packed
    h.time.push_back(i * 1e-4);
    h.station.push_back(-1 + i * 1e-3);
    h.force.push_back(90e3 + i);
    h.wheel_height.push_back(0);
    h.wheel_acceleration.push_back(0.1 * i);
    h.rail_deflection.push_back(1e-3);
  }
  h.bodies = {"wing", "nose"};
  h.body_force = {h.force, std::vector<double>(h.force.size(), 0.0)};
  h.events = {{passage::Event::Kind::touch, "nose", 0.1, 0.04}, {passage::Event::Kind::lift_off, "wing", 0.2, 0.06}};
  h.method = "none, made up";
  auto& m = r.measures;
  m = {};
  m.landing_body = "nose";
  m.p2 = 123.4e3;
  m.p2_cut_off = 150;
  m.peak_total = 150e3;
  m.minimum_force = nan;
  m.static_load = 90e3;
  return r;
}

struct Folder {
  fs::path path = fs::temp_directory_path() / ("wingnose_result_" + std::to_string(::getpid()));
  Folder() { fs::create_directories(path); }
  ~Folder() { fs::remove_all(path); }
};

std::string refusal(const fs::path& file) {
  try {
    (void)io::read_result(file);
  } catch (const InputError& error) {
    return error.what();
  }
  return "";
}

bool has(const std::string& text, const std::string& piece) { return text.find(piece) != std::string::npos; }

} // namespace

TEST_CASE("what is written to a result file is read back, with units, descriptions and origin") {
  const Folder folder;
  const auto c = io::parse_case("[case]\nname = \"kept\"\n[passage]\nspeed_km_h = 90\n", "kept.toml", ".");
  const auto r = made_up();
  io::write_result(folder.path / "a.h5", c, r);
  const auto stored = io::read_result(folder.path / "a.h5");
  CHECK(stored.schema_version == io::result_schema_version);
  CHECK(stored.version == version);
  CHECK(stored.commit == commit);
  CHECK(stored.case_text == c.source_text);
  CHECK(stored.attributes.at("name") == "kept");
  CHECK(stored.attributes.at("created").size() == 20);
  CHECK(stored.arrays.at("history/force_N").values == r.history.force);
  CHECK(stored.arrays.at("history/force_wing_N").values == r.history.body_force[0]);
  CHECK(stored.arrays.at("history/station_mm").values.back() == Approx(1e3 * r.history.station.back()));
  CHECK(stored.arrays.at("path/height_mm").values[2] == Approx(-1.0)); // the nose carries there
  CHECK(std::isnan(stored.arrays.at("path/nose/height_mm").values[0]));
  CHECK(stored.measures.at("p2_kN") == Approx(123.4));
  CHECK(stored.measures.at("transfer_station_mm") == Approx(50));
  CHECK(std::isnan(stored.measures.at("first_peak_kN")));
  CHECK(stored.texts.at("events/kind") == std::vector<std::string>{"touch", "lift-off"});
  CHECK(stored.texts.at("notes/warnings") == contact::sentences(r.geometry.kinematics.findings));
  REQUIRE(stored.texts.at("case/inputs").size() == 1);
  CHECK(has(stored.texts.at("case/inputs")[0], c.inputs[0].sha256));
  for (const auto& [path, array] : stored.arrays) {
    INFO(path);
    CHECK(!array.unit.empty());
    CHECK(!array.description.empty());
    CHECK(array.shape.size() == 1);
  }
  for (const auto& [key, unit] : stored.measure_units) {
    INFO(key);
    CHECK(!unit.empty());
    CHECK(!stored.measure_descriptions.at(key).empty());
  }
}

TEST_CASE("every dataset of a result file is named on the reference page") {
  const Folder folder;
  io::write_result(folder.path / "a.h5", io::parse_case("[case]\nname=\"x\"\n", "x", "."), made_up());
  const std::string page = io::result_reference();
  for (const auto& [path, array] : io::read_result(folder.path / "a.h5").arrays) {
    std::string general = path;
    for (const std::string body : {"wing", "nose"}) {
      for (const auto& [from, to] :
           {std::pair{"/" + body + "/", "/{body}/"}, std::pair{"_" + body + "_", "_{body}_"}}) {
        if (const auto at = general.find(from); at != std::string::npos) {
          general.replace(at, from.size(), to);
        }
      }
    }
    INFO(path);
    CHECK(has(page, "`" + general + "`"));
  }
}

TEST_CASE("a result that cannot be written leaves the earlier file as it was") {
  const Folder folder;
  const auto c = io::parse_case("[case]\nname=\"x\"\n", "x", ".");
  const fs::path file = folder.path / "a.h5";
  io::write_result(file, c, made_up());
  auto broken = made_up();
  broken.geometry.path = nullptr;
  CHECK_THROWS_AS(io::write_result(file, c, broken), InputError);
  CHECK(io::read_result(file).measures.at("p2_kN") == Approx(123.4));
  CHECK_THROWS_AS(io::write_result(folder.path / "missing" / "a.h5", c, made_up()), InputError);
  CHECK_THROWS_AS(io::write_result(folder.path, c, made_up()), InputError);
  const fs::path case_file = folder.path / "case.toml";
  std::ofstream(case_file) << "[case]\n";
  CHECK_THROWS_AS(io::write_result(case_file, c, made_up()), InputError); // a slip of the name costs no case file
  CHECK(fs::file_size(case_file) == 7);
  int files = 0;
  for (const auto& entry : fs::directory_iterator(folder.path)) {
    INFO(entry.path());
    ++files;
  }
  CHECK(files == 2); // nothing unfinished is left behind
}

TEST_CASE("files that are no wingnose results are refused by name and reason") {
  const Folder folder;
  CHECK(has(refusal(folder.path / "none.h5"), "does not exist"));
  std::ofstream(folder.path / "text.h5") << "station_mm,height_mm\n";
  CHECK(has(refusal(folder.path / "text.h5"), "is not an HDF5 file"));
}

TEST_CASE("the JSON object carries units in its keys and null where there is no value") {
  const auto c = io::parse_case("[case]\nname = \"a \\\"quoted\\\" name\"\n", "x.toml", ".");
  const std::string json = io::measures_json(c, made_up());
  for (const auto* key :
       {"transfer_station_mm", "nose_thickness_at_transfer_mm", "dip_angle_mrad", "dip_depth_mm", "first_peak_kN",
        "p2_kN", "p2_cutoff_hz", "peak_total_kN", "peak_nose_kN", "overlap_mm", "lost_contact_ms", "static_load_kN"}) {
    INFO(key);
    CHECK(has(json, "\"" + std::string(key) + "\":"));
  }
  CHECK(has(json, "\"first_peak_kN\": null"));
  CHECK(has(json, "\"minimum_force_kN\": null")); // not NaN, which is no JSON
  CHECK(has(json, "\"dip_angle_mrad\": 12.3,"));
  CHECK(!has(json, "nan"));
  CHECK(has(json, "a \\\"quoted\\\" name"));
}
