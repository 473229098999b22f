// [turnout] reaches its values in SI, from drawings, presets and points.
#include "catch.hpp"
#include "folder.hpp"

#include "wingnose/case/document.hpp"
#include "wingnose/io/case_file.hpp"

#include <algorithm>
#include <fstream>
#include <string>

using namespace wingnose;

namespace {

cases::Case parse(const std::string& text, const std::filesystem::path& folder = ".") {
  return io::parse_case(text, "test.toml", folder);
}

} // namespace

TEST_CASE("A turnout by its drawing arrives in SI") {
  const auto c = parse(R"(
[turnout]
geometry = "drawing"
hand = "right"
way = "diverging"
curve_radius_m = 760
curve_rate = 14
transition_m = 12
end_length_m = 30
gauge_mm = 1433
widening_mm = 5
cant_mm = 20
check_flangeway_mm = 42
check_height_mm = 45
check_flare_mrad = 12.5
check_wear_mm = 1.5
nose_wear_mm = 0.5
gauge_reading_mm = 1436
back_to_back_mm = 1361
)");
  const auto t = cases::turnout_of(c);
  REQUIRE(t);
  CHECK(t->hand == layout::turnout::Hand::right);
  CHECK(c.turnout.way == layout::turnout::Way::diverging);
  CHECK(t->radius == Approx(760));
  CHECK(t->rate == Approx(14));
  CHECK(t->transition == Approx(12));
  CHECK(t->end_length.value() == Approx(30));
  CHECK(t->gauge == Approx(1.433));
  CHECK(t->widening == Approx(0.005));
  CHECK(t->cant == Approx(0.020));
  CHECK(t->check_rail.flangeway.value() == Approx(0.042));
  CHECK(t->check_rail.height == Approx(0.045));
  CHECK(t->check_rail.flare == Approx(0.0125));
  CHECK(t->check_rail.wear == Approx(0.0015));
  CHECK(t->crossing.nose_wear == Approx(0.0005));
  CHECK(t->readings.gauge.value() == Approx(1.436));
  CHECK(c.turnout.wheelset.back_to_back == Approx(1.361));
}

TEST_CASE("A turnout of the trade brings its widening unless the case states its own") {
  CHECK(cases::turnout_of(parse("[turnout]\ngeometry = \"preset\"\npreset = \"R190-1:7.5\""))->widening ==
        Approx(0.006));
  CHECK(cases::turnout_of(parse("[turnout]\ngeometry = \"preset\"\npreset = \"R190-1:7.5\"\nwidening_mm = 0"))
            ->widening == 0.0);
  CHECK_FALSE(cases::turnout_of(parse("[passage]\nspeed_km_h = 50")));
}

TEST_CASE("The curvature of a diverging route is read point by point, with cant where it has some") {
  const Folder folder;
  std::ofstream(folder.path / "curve.csv") << "station_m,curvature_1_m,cant_mm\n0,0,0\n10,0.002,15\n50,0.002,15\n";
  const auto c = parse("[turnout]\ngeometry = \"curvature\"\ncurvature_csv = \"curve.csv\"", folder.path);
  const auto t = cases::turnout_of(c);
  REQUIRE(t);
  REQUIRE(t->curvature.size() == 3);
  CHECK(t->curvature[1].curvature == Approx(0.002));
  CHECK(t->curvature[1].cant == Approx(0.015));
  CHECK(c.inputs.back().role == "curvature of the diverging route");
}

TEST_CASE("Track irregularity is read row by row, told back by its name and kept with its checksum") {
  const Folder folder;
  std::ofstream(folder.path / "rails.csv")
      << "right_lateral_mm,station_m,left_height_mm,right_height_mm,left_lateral_mm\n"
         "0,-5,0,0,0\n4,-2,1,2,3\n4,1,1,2,3\n0,5,0,0,0\n";
  const auto c = parse("[spatial]\nirregularity_csv = \"rails.csv\"", folder.path);
  REQUIRE(c.spatial.irregularity->size() == 4);
  const layout::IrregularityPoint& p = (*c.spatial.irregularity)[1];
  CHECK(p.station == -2.0);
  CHECK(p.left_height == Approx(1e-3));
  CHECK(p.right_height == Approx(2e-3));
  CHECK(p.left_lateral == Approx(3e-3));
  CHECK(p.right_lateral == Approx(4e-3));
  CHECK(c.inputs.back().role == "track irregularity");
  CHECK(c.inputs.back().sha256.size() == 64);
  const auto keys = cases::all_keys(c);
  CHECK(std::any_of(keys.begin(), keys.end(), [](const auto& k) {
    return k.key == "spatial.irregularity_csv" && k.value.find("rails.csv") != std::string::npos;
  }));
}

TEST_CASE("Of a case without turnout no key of one is told but that it has none") {
  const auto keys = cases::all_keys(parse("[passage]\nspeed_km_h = 50"));
  CHECK(std::count_if(keys.begin(), keys.end(), [](const auto& k) { return k.key.starts_with("turnout."); }) == 1);
}
