// Limits from text, and the change between two speeds, on invented numbers.
#include "catch.hpp"

#include "wingnose/io/speeds_output.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <set>

using namespace wingnose;

namespace {

study::SpeedPoint point(double speed, double p2, double lost_contact) {
  study::SpeedPoint p{};
  p.speed = speed;
  p.measures.p2 = p2;
  p.measures.lost_contact = lost_contact;
  p.measures.landing_station = 0.4;
  study::Estimate e{};
  e.track_name = "derived";
  e.forces.P2 = 2.0 * p2;
  p.estimates.push_back(e);
  return p;
}

const io::MeasureChange& find(const std::vector<io::MeasureChange>& list, const std::string& key) {
  const auto found = std::find_if(list.begin(), list.end(), [&](const auto& c) { return c.key == key; });
  REQUIRE(found != list.end());
  return *found;
}

} // namespace

TEST_CASE("a limit is read with its unit from its name") {
  const auto p2 = io::parse_limit("p2_kN=200", "a rule");
  CHECK(p2.quantity == study::Quantity::p2);
  CHECK(p2.value == Approx(200e3));
  CHECK(p2.source == "a rule");
  CHECK(io::parse_limit("dip_angle_mrad = 7.5", "").value == Approx(7.5e-3));
  CHECK(io::parse_limit("lost_contact_ms=0", "").value == 0.0);
  CHECK(io::parse_limit("minimum_force_kN=20", "").quantity == study::Quantity::minimum_force);
  CHECK(io::parse_limit("peak_pressure_MPa=1500", "").value == Approx(1.5e9));
  CHECK(io::parse_limit("shakedown_exceedance=1", "").quantity == study::Quantity::shakedown);
  CHECK(io::parse_limit("t_gamma_N=65", "").quantity == study::Quantity::t_gamma);
  for (const char* text : {"p2_kN", "p2_kN=", "p2_kN=0", "p2_kN=-1", "p2_kN=nan", "p2_kN=1e999", "p2_kN=200 kN", "=200",
                           "p2_MN=0.2", ""}) {
    CAPTURE(text);
    CHECK_THROWS_AS(io::parse_limit(text, ""), InputError);
  }
}

TEST_CASE("every quantity that can be limited is a measure with a unit, named once, and its unit conversion is that of "
          "the measure") {
  study::Case c;
  study::Result r;
  r.measures.p2 = r.measures.peak_total = r.measures.minimum_force = 1.0;
  r.measures.first_peak = r.measures.peak_nose = r.measures.peak_wing = 1.0;
  r.measures.dynamic_factor = r.measures.p2_dynamic_factor = r.measures.lost_contact = 1.0;
  r.measures.rail_acceleration = r.measures.bearer_acceleration = 1.0;
  r.geometry.kinematics.dip_angle = 1.0;
  std::set<std::string> keys;
  for (const auto& q : io::limit_quantities()) {
    CAPTURE(q.key);
    CHECK(keys.insert(q.key).second);
    CHECK_FALSE(q.unit.empty());
    std::optional<double> one;
    for (const auto& m : io::passage_measures()) {
      one = m.key == q.key ? m.value(c, r) : one;
    }
    for (const auto& m : io::geometry_measures()) {
      one = m.key == q.key ? m.value(r.geometry) : one;
    }
    for (const auto& m : io::steel_measures()) {
      one = m.key == q.key ? std::optional(m.per_si) : one;
    }
    REQUIRE(one);
    CHECK(q.per_si == Approx(*one));
    CHECK(io::limit_quantity(q.quantity).key == q.key);
  }
  CHECK(keys.size() == 15);
}

TEST_CASE("every measure of the steel has a key, a unit and a value of its own") {
  std::set<std::string> keys;
  study::SteelMeasures s;
  for (const auto& m : io::steel_measures()) {
    CAPTURE(m.key);
    CHECK(keys.insert(m.key).second);
    CHECK_FALSE(m.unit.empty());
    CHECK_FALSE(m.description.empty());
    CHECK(s.*m.value == 0.0);
    s.*m.value = 1.0;
  }
  CHECK(s == study::SteelMeasures{1.0, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0}); // none is left out
}

TEST_CASE("a change is given as difference and in per cent of today; per cent of nothing is not given") {
  study::SpeedStudy s{};
  s.points = {point(20.0, 100e3, 0.0), point(30.0, 125e3, 2e-3)};
  CHECK(io::speed_changes(s).empty());
  s.today = 0;
  s.proposed = 1;
  const auto changes = io::speed_changes(s);
  const auto& p2 = find(changes, "p2_kN");
  CHECK(*p2.today == Approx(100.0));
  CHECK(*p2.difference == Approx(25.0));
  CHECK(*p2.percent == Approx(25.0));
  const auto& lost = find(changes, "lost_contact_ms");
  CHECK(*lost.difference == Approx(2.0));
  CHECK_FALSE(lost.percent);
  CHECK_FALSE(find(changes, "landing_station_mm").percent);
  CHECK(*find(changes, "closed_form/derived/p2_kN").proposed == Approx(250.0));
  CHECK(std::none_of(changes.begin(), changes.end(), [](const auto& c) { return c.key == "speed_km_h"; }));
  CHECK(std::none_of(changes.begin(), changes.end(), [](const auto& c) { return c.key == "peak_nose_kN"; }));
  CHECK(std::none_of(changes.begin(), changes.end(), [](const auto& c) { return c.key == "wear_volume_mm3"; }));
  s.points[0].steel = study::SteelMeasures{.shakedown = 1.5, .fatigue_index = -0.1, .wear_volume = 2e-12};
  s.points[1].steel = study::SteelMeasures{.shakedown = 3.0, .fatigue_index = 0.1, .wear_volume = 3e-12};
  const auto with_steel = io::speed_changes(s);
  CHECK(*find(with_steel, "wear_volume_mm3").difference == Approx(0.001));
  CHECK(*find(with_steel, "wear_volume_mm3").percent == Approx(50.0));
  CHECK(*find(with_steel, "surface_fatigue_index").difference == Approx(0.2));
  CHECK_FALSE(find(with_steel, "surface_fatigue_index").percent);
  CHECK(with_steel.back().key == "closed_form/derived/p2_kN"); // closed forms stay last
}
