// Limits from text, and the change between two speeds, on invented numbers.
#include "catch.hpp"

#include "wingnose/study/speeds.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>

using namespace wingnose;

namespace {

study::SpeedPoint point(double speed, double p2, double lost_contact) {
  study::SpeedPoint p{};
  p.speed = speed;
  p.assessment.speed = speed;
  assess::Measures m{};
  m.p2 = p2;
  m.lost_contact = lost_contact;
  m.landing_station = 0.4;
  p.assessment.measures = m;
  assess::Estimate e{};
  e.track_name = "derived";
  e.forces.P2 = 2.0 * p2;
  p.assessment.estimates.push_back(e);
  return p;
}

assess::SteelMeasures steel(double shakedown, double fatigue_index, double wear_volume) {
  assess::SteelMeasures s;
  s.shakedown.value = shakedown;
  s.fatigue_index.value = fatigue_index;
  s.wear_volume = wear_volume;
  return s;
}

const study::QuantityChange& find(const std::vector<study::QuantityChange>& list, const std::string& key) {
  const auto found = std::find_if(list.begin(), list.end(), [&](const auto& c) { return c.key == key; });
  REQUIRE(found != list.end());
  return *found;
}

bool tells(const std::vector<study::QuantityChange>& list, const std::string& key) {
  return std::any_of(list.begin(), list.end(), [&](const auto& c) { return c.key == key; });
}

std::string_view key_of(const study::Limit& limit) { return limit.quantity->key; }

} // namespace

TEST_CASE("A limit is read with its unit from its name") {
  const auto p2 = study::parse_limit("p2_kN=200", "a rule");
  CHECK(key_of(p2) == "p2_kN");
  CHECK(p2.value == Approx(200e3));
  CHECK(p2.source == "a rule");
  CHECK(study::parse_limit("dip_angle_mrad = 7.5", "").value == Approx(7.5e-3));
  CHECK(study::parse_limit("lost_contact_ms=0", "").value == 0.0);
  CHECK(key_of(study::parse_limit("minimum_force_kN=20", "")) == "minimum_force_kN");
  CHECK(study::parse_limit("minimum_force_kN=20", "").at_least());
  CHECK_FALSE(p2.at_least());
  CHECK(study::parse_limit("peak_pressure_MPa=1500", "").value == Approx(1.5e9));
  CHECK(key_of(study::parse_limit("shakedown_exceedance=1", "")) == "shakedown_exceedance");
  CHECK(key_of(study::parse_limit("t_gamma_N=65", "")) == "t_gamma_N");
  for (const char* text : {"p2_kN", "p2_kN=", "p2_kN=0", "p2_kN=-1", "p2_kN=nan", "p2_kN=1e999", "p2_kN=200 kN", "=200",
                           "p2_MN=0.2", ""}) {
    CAPTURE(text);
    CHECK_THROWS_AS(study::parse_limit(text, ""), InputError);
  }
}

TEST_CASE(
    "A limit in its unit comes back as the sentence that tells it, and only numbers that may be limited have one") {
  std::size_t limits = 0;
  for (const quantity::Quantity& q : quantity::quantities()) {
    CAPTURE(q.key);
    const std::string text = std::string(q.key) + "=3.5";
    if (q.uses.limit == quantity::Limit::none) {
      CHECK_THROWS_AS(study::parse_limit(text, ""), InputError);
      continue;
    }
    ++limits;
    const study::Limit limit = study::parse_limit(text, "");
    CHECK(limit.quantity == &q);
    CHECK(limit.value * q.unit.per_si == Approx(3.5));
    CHECK(study::sentence(limit).starts_with(std::string(q.label) +
                                             (limit.at_least() ? " at least 3.5" : " at most 3.5")));
  }
  CHECK(limits > 10); // forces, losses of contact, factors, accelerations, steel
}

TEST_CASE("A change is given as difference and in per cent of today; per cent of nothing is not given") {
  study::SpeedStudy s{};
  s.points = {point(20.0, 100e3, 0.0), point(30.0, 125e3, 2e-3)};
  CHECK(study::speed_changes(s).empty());
  s.today = 0;
  s.proposed = 1;
  const auto changes = study::speed_changes(s);
  const auto& p2 = find(changes, "p2_kN");
  CHECK(*p2.today == Approx(100.0));
  CHECK(*p2.difference == Approx(25.0));
  CHECK(*p2.percent == Approx(25.0));
  const auto& lost = find(changes, "lost_contact_ms");
  CHECK(*lost.difference == Approx(2.0));
  CHECK_FALSE(lost.percent);
  CHECK_FALSE(find(changes, "landing_station_mm").percent);
  CHECK(*find(changes, "closed_form/derived/p2_kN").proposed == Approx(250.0));
  CHECK_FALSE(tells(changes, "speed_km_h"));
  CHECK_FALSE(tells(changes, "peak_nose_kN"));
  CHECK_FALSE(tells(changes, "wear_volume_mm3"));
  s.points[0].assessment.steel = steel(1.5, -0.1, 2e-12);
  s.points[1].assessment.steel = steel(3.0, 0.1, 3e-12);
  const auto with_steel = study::speed_changes(s);
  CHECK(*find(with_steel, "wear_volume_mm3").difference == Approx(0.001));
  CHECK(*find(with_steel, "wear_volume_mm3").percent == Approx(50.0));
  CHECK(*find(with_steel, "surface_fatigue_index").difference == Approx(0.2));
  CHECK_FALSE(find(with_steel, "surface_fatigue_index").percent);
  CHECK(with_steel.back().key == "closed_form/derived/p2_kN"); // closed forms stay last
}
