#include "catch.hpp"

#include "wingnose/profile/rail.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <string>

using namespace wingnose;
using profile::rail_head;

namespace {

template <class F> std::string refusal(F&& make) {
  try {
    make();
  } catch (const InputError& e) {
    return e.what();
  }
  return "accepted";
}

bool says(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

const char* const heads[] = {"60E1", "54E1", "60E2", "56E1", "49E1"};

} // namespace

TEST_CASE("Every rail head is smooth from the crown to its side faces") {
  for (const char* name : heads) {
    const auto head = rail_head(name);
    INFO(name);
    const auto& pieces = head.curve.pieces();
    REQUIRE(pieces.size() == 7);
    CHECK(head.curve.value(0.0) == Approx(0.0).epsilon(0).margin(1e-15));
    for (std::size_t k = 1; k < pieces.size(); ++k) {
      const double joint = pieces[k].from;
      const auto left = head.curve.at(joint - 1e-13), right = head.curve.at(joint + 1e-13);
      CHECK(left.value == Approx(right.value).epsilon(0).margin(1e-11));
      CHECK(std::atan(left.slope) == Approx(std::atan(right.slope)).epsilon(0).margin(1e-9));
    }
    CHECK(head.curve.at(head.curve.back()).slope == Approx(-20.0).epsilon(1e-12)); // side face 1:20
    CHECK(head.curve.value(head.curve.back()) == Approx(-0.030).epsilon(1e-12));
  }
}

TEST_CASE("The head of a recalled rail passes through its head width at the stated depth") {
  const struct {
    const char* name;
    double width, depth; // m
  } rows[] = {{"60E2", 0.072, 0.0143}, {"56E1", 0.06985, 0.014}, {"49E1", 0.067, 0.014}};
  for (const auto& row : rows) {
    const auto head = rail_head(row.name);
    INFO(row.name);
    CHECK(head.curve.value(row.width / 2.0) == Approx(-row.depth).epsilon(0).margin(1e-9));
    CHECK(says(head.status, "from memory"));
  }
}

TEST_CASE("An inclined head leans towards the track centre and its highest point is the running surface") {
  for (const double inclination : {std::atan(1.0 / 40.0), std::atan(1.0 / 20.0), 0.1, -0.025}) {
    const auto head = rail_head("60E1", inclination);
    INFO("inclination " << inclination);
    double highest = -1.0, at = 0.0;
    for (double y = head.curve.front(); y <= head.curve.back(); y += 1e-6) {
      if (head.curve.value(y) > highest) {
        highest = head.curve.value(y);
        at = y;
      }
    }
    CHECK(highest == Approx(0.0).epsilon(0).margin(1e-11));
    CHECK(at * inclination > 0.0); // the gauge side drops, so the highest point moves to the field side
    CHECK(head.level_shift < 0.0);
    CHECK(head.inclination == inclination);
  }
  // crown radius 300 mm at 1:40: highest at 300 sin(inclination) from the axis
  const auto head = rail_head("60E1", std::atan(1.0 / 40.0));
  CHECK(head.curve.at(0.300 * std::sin(std::atan(1.0 / 40.0))).slope == Approx(0.0).epsilon(0).margin(1e-12));
}

TEST_CASE("A gauge face that becomes vertical or overhangs ends the curve at its vertical tangent") {
  const auto head = rail_head("60E1", std::atan(1.0 / 20.0));
  CHECK(head.curve.pieces().front().kind == profile::Piece::Kind::arc_upper);
  CHECK(std::abs(head.curve.at(head.curve.front()).slope) == profile::steepest_slope);
  const auto steep = rail_head("60E1", 0.1); // overhangs by about three degrees
  CHECK(std::isfinite(steep.curve.value(steep.curve.front())));
  CHECK(steep.curve.front() < -0.030);
}

TEST_CASE("An unknown rail or an impossible inclination is refused with what is possible") {
  CHECK(says(refusal([] { (void)rail_head("61E1"); }), "60E1, 54E1, 60E2, 56E1, 49E1"));
  CHECK(says(refusal([] { (void)rail_head("60E1", 1.5); }), "-0.2 to 0.2 rad"));
  CHECK(says(refusal([] { (void)rail_head("60E1", std::nan("")); }), "-0.2 to 0.2 rad"));
  CHECK(says(refusal([] { (void)profile::rail_section("60E9"); }), "60E1, 60E2, 54E1"));
}

TEST_CASE("Every listed rail section has plausible properties and says how far it can be trusted") {
  const auto names = profile::rail_section_names();
  CHECK(names.size() == 7);
  for (const auto& name : names) {
    const auto section = profile::rail_section(name);
    INFO(name);
    CHECK(section.name == name);
    CHECK(section.area > 60e-4);
    CHECK(section.area < 80e-4);
    CHECK(std::sqrt(section.inertia / section.area) > 0.050); // radius of gyration, m
    CHECK(std::sqrt(section.inertia / section.area) < 0.065);
    CHECK(!section.status.empty());
  }
}
