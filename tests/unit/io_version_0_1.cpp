// Files that version 0.1 wrote open, and say what that version printed of them (tests/data/README.md).
#include "catch.hpp"
#include "folder.hpp"

#include "wingnose/io/tree_file.hpp"

#include <string>
#include <vector>

using namespace wingnose;

namespace {

quantity::Tree old(const std::string& name) { return io::read_tree(source_folder / "tests/data" / (name + "_0_1.h5")); }

} // namespace

TEST_CASE("A passage stored by version 0.1 opens with its measures, histories and texts") {
  const quantity::Tree run = old("run");
  CHECK(run.kind() == "result"); // as 0.1 called it
  CHECK(run.attribute("version") == "0.1.0");
  CHECK(run.attribute("schema_version") == "1");
  CHECK(run.attribute("name") == "joint");
  CHECK(run.number("measures/p2_kN") == Approx(106.64).margin(0.005));
  CHECK(run.number("measures/first_peak_delay_ms") == Approx(0.261).margin(0.0005));
  const quantity::Array& p2 = *run.find("measures/p2_kN");
  CHECK(p2.unit == "kN");
  CHECK(p2.label == quantity::find("p2_kN")->label); // it had none
  CHECK_FALSE(p2.meaning.empty());
  const auto force = run.numbers("history/force_N");
  CHECK(force.size() == run.numbers("history/station_mm").size());
  CHECK(force.size() > 40);
  CHECK(run.find("history/force_N")->unit == "N");
  CHECK(run.text("case/text").find("dip_angle_mrad = 10") != std::string::npos);
  CHECK(run.text("notes/landing_body") == "path");
  CHECK(run.find("path/path/height_mm")->shape == run.find("path/station_mm")->shape);
}

TEST_CASE("Damage, speeds, contact and sweeps stored by version 0.1 open too") {
  const quantity::Tree damage = old("damage");
  CHECK(damage.kind() == "damage");
  CHECK(damage.number("measures/shakedown_exceedance") == Approx(3.57).margin(0.005));
  CHECK(damage.find("passage/nose/wear_depth_um")->shape.size() == 2);
  CHECK(damage.number("traffic/measures/tonnage_MGT") == 1.0);

  const quantity::Tree speeds = old("speeds");
  CHECK(speeds.kind() == "speeds");
  CHECK(speeds.numbers("speeds/speed_km_h").size() == 2);
  CHECK(speeds.texts("limits/quantity")[0] == "p2_kN");
  CHECK(speeds.texts("limits/outcome")[0] == "not_reached");

  const quantity::Tree contact = old("contact");
  CHECK(contact.kind() == "contact");
  CHECK(contact.attribute("law") == "ellipse");
  CHECK(contact.texts("patches/body")[0] == "wing");
  CHECK(contact.numbers("patches/normal_force_kN")[0] == Approx(45.35).margin(0.005));
  const quantity::Array& pressure = *contact.find("nose/field/pressure_MPa");
  REQUIRE(pressure.dims.size() == 2);
  CHECK(pressure.shape[0] == pressure.shape[1]);
  CHECK(pressure.dims[0] != pressure.dims[1]);

  const quantity::Tree sweep = old("sweep");
  CHECK(sweep.kind() == "sweep");
  CHECK(sweep.numbers("status")[1] == 1.0);
  CHECK(sweep.numbers("input/passage.speed_km_h")[0] == 30.0);
  CHECK(sweep.numbers("measures/p2_kN")[1] > sweep.numbers("measures/p2_kN")[0]);
}

TEST_CASE("A file of version 0.1 is written again in today's layout with everything it held") {
  const Folder folder;
  for (const std::string name : {"run", "contact", "damage", "speeds"}) {
    CAPTURE(name);
    const quantity::Tree before = old(name);
    io::write_tree(folder.path / "new.h5", before);
    const quantity::Tree after = io::read_tree(folder.path / "new.h5");
    for (const quantity::Group& group : before.groups()) {
      for (const quantity::Array& a : group.arrays) {
        const std::string path = group.path.empty() ? a.name : group.path + "/" + a.name;
        CAPTURE(path);
        const quantity::Array* again = after.find(path);
        REQUIRE(again != nullptr);
        CHECK(again->shape == a.shape);
        CHECK(again->texts == a.texts);
        CHECK(again->unit == a.unit);
        CHECK(again->label == a.label);
      }
    }
  }
}
