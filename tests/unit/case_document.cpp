#include "catch.hpp"
#include "said.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <string>
#include <vector>

using namespace wingnose;
using cases::Override;

namespace {

const std::string text = R"(
[crossing]
kind = "generated"
rate = 12
[vehicle]
preset = "wheel"
[passage]
speed_km_h = 90
)";

cases::Document document() { return io::parse_case(text, "a.toml", "."); }

std::string refusal(const std::vector<Override>& overrides) {
  return said::refusal<InputError>([&] { (void)cases::vary(document(), overrides); });
}

} // namespace

TEST_CASE("A case varied from a document equals the case written in full; the document stays as it was") {
  const auto d = document();
  const std::vector<Override> other{
      {"passage.speed_km_h", 126.0}, {"passage.direction", std::string("trailing")}, {"wheel.lateral_offset_mm", 2.0}};
  const auto varied = cases::vary(d, other);
  const auto written =
      io::parse_case("[crossing]\nkind = \"generated\"\nrate = 12\n[vehicle]\npreset = \"wheel\"\n[passage]\n"
                     "speed_km_h = 126\ndirection = \"trailing\"\n[wheel]\nlateral_offset_mm = 2\n",
                     "b.toml", ".");
  CHECK(varied.passage.speed == Approx(35.0));
  CHECK(varied.passage.direction == Direction::trailing);
  CHECK(varied.passage == written.passage);
  CHECK(varied.kinematics == written.kinematics);
  CHECK(varied.excitation == written.excitation);
  CHECK(varied.wheel == written.wheel);
  CHECK(varied.vehicle == written.vehicle);
  CHECK(varied.track == written.track);
  CHECK(d.base().passage.speed == Approx(25.0));
  CHECK(d.base().passage.direction == Direction::facing);
}

TEST_CASE("Values that vary face the checks of a case file: unknown keys, ranges, choices, keys given twice") {
  CHECK(refusal({{"passage.speed_kmh", 100.0}}).find("speed_km_h") != std::string::npos);
  CHECK(refusal({{"passage.speed_km_h", 1e6}}).find("500") != std::string::npos);
  CHECK(refusal({{"passage.direction", std::string("tailing")}}).find("trailing") != std::string::npos);
  CHECK(!refusal({{"passage.speed_km_h", std::string("fast")}}).empty());
  CHECK(!refusal({{"passage.speed_km_h", 80.0}, {"passage.speed_km_h", 90.0}}).empty());
  CHECK(!refusal({{"crossing.dip_angle_mrad", 10.0}}).empty()); // a key of joints, not of generated crossings
  CHECK(refusal({{"passage.speed_km_h", 80.0}}).empty());
}

TEST_CASE("A document lists the keys that can vary with their units and ranges") {
  const auto keys = cases::varying_keys(document());
  const auto speed =
      std::find_if(keys.begin(), keys.end(), [](const auto& k) { return k.key == "passage.speed_km_h"; });
  REQUIRE(speed != keys.end());
  CHECK(speed->unit == "km/h");
  CHECK(speed->least == 1.0);
  CHECK(speed->most == 500.0);
  CHECK(cases::key_info(document(), "passage.direction").choices == std::vector<std::string>{"facing", "trailing"});
}
