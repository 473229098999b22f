// A vehicle through the turnout of a case: what is told of it, and what is refused.
#include "catch.hpp"
#include "said.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/study/turnout_ride.hpp"

#include <algorithm>
#include <string>

using namespace wingnose;

namespace {

study::TurnoutRide ride(const std::string& text) {
  return study::ride_through(io::parse_case(text, "test.toml", "."), {.vehicle = "bogie", .step = 4e-4});
}
const std::string diverging = "[turnout]\ngeometry = \"preset\"\npreset = \"R300-1:9\"\nway = \"diverging\"\n";

} // namespace

TEST_CASE("A bogie through the diverging route is told wheelset by wheelset, the leading one on the check rail") {
  const cases::Case c = io::parse_case(diverging + "[passage]\nspeed_km_h = 50\n", "test.toml", ".");
  const study::TurnoutRide answer = study::ride_through(c, {.vehicle = "bogie", .step = 4e-4});
  REQUIRE(answer.wheelsets.size() == 2);
  CHECK(answer.wheelsets[0].check);
  CHECK_FALSE(answer.wheelsets[1].check);
  CHECK(answer.wheelsets[0].sum_of_Y > answer.wheelsets[1].sum_of_Y);
  CHECK_FALSE(any_grave(answer.findings));
  CHECK(std::any_of(answer.findings.begin(), answer.findings.end(), [](const Finding& f) {
    return f.kind == FindingKind::assumption && f.what.find("its [vehicle], its [track]") != std::string::npos;
  }));
  const quantity::Tree tree = study::tell(c, answer);
  CHECK(tree.text("ride/way") == "diverging");
  CHECK(tree.number("ride/speed_km_h") == Approx(50.0));
}

TEST_CASE("Wetter rails take guiding force off the leading wheelset") {
  const study::TurnoutRide dry = ride(diverging + "[damage]\nfriction = 0.4\n[passage]\nspeed_km_h = 50\n");
  const study::TurnoutRide wet = ride(diverging + "[damage]\nfriction = 0.15\n[passage]\nspeed_km_h = 50\n");
  CHECK(wet.wheelsets[0].outward_over_Q < dry.wheelsets[0].outward_over_Q);
}

TEST_CASE("A ride asks for a turnout, a generated crossing, a facing move and a vehicle in space") {
  const auto refused = [](const std::string& text, const std::string& says) {
    INFO(text);
    REQUIRE_THROWS_AS(ride(text), InputError);
    try {
      (void)ride(text);
    } catch (const InputError& error) {
      CHECK(said::has(error.what(), says));
    }
  };
  refused("[passage]\nspeed_km_h = 50\n", "this case has no turnout");
  refused(diverging + "[passage]\ndirection = \"trailing\"\n", "facing move");
  refused(diverging + "[crossing]\nkind = \"joint\"\ndip_angle_mrad = 10\n", "generated crossing");
  const cases::Case c = io::parse_case(diverging, "test.toml", ".");
  CHECK_THROWS_AS(study::ride_through(c, {.vehicle = "tram"}), InputError);
  CHECK_THROWS_AS(study::ride_through(c, {.check_stiffness = 0.0}), InputError);
}
