// The table of numbers told: whole, and used for what its rows say.
#include "catch.hpp"
#include "said.hpp"

#include "wingnose/quantity/quantity.hpp"
#include "wingnose/quantity/statistics.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <string>

using namespace wingnose;
using namespace wingnose::quantity;

namespace {

// A unit as keys write it: "kN", "km_h", "m_s2", "kg_m2"; nothing where there is none.
std::string in_key(const Unit& unit) {
  static const std::map<std::string_view, std::string> written{
      {"-", ""},       {"%", "percent"}, {"km/h", "km_h"}, {"Hz", "hz"},   {"m/s2", "m_s2"},
      {"N s", "Ns"},   {"MN/m", "MN_m"}, {"1e-6", "1e_6"}, {"1/m", "1_m"}, {"J/mm2", "J_mm2"},
      {"kN m", "kNm"}, {"um/m", "um_m"}, {"mm/s", "mm_s"}};
  const auto special = written.find(unit.name);
  return special == written.end() ? std::string(unit.name) : special->second;
}

// Everything a passage can tell, each number 1 in SI.
assess::Assessment all_one() {
  assess::Assessment a;
  a.speed = 1.0;
  auto& k = a.kinematics;
  k.transfer_station = k.nose_thickness = k.contact_y_wing = k.contact_y_nose = k.zone_begin = k.zone_end = 1.0;
  k.rim_margin = 1.0;
  k.dip_depth = k.slope_before = k.slope_after = k.dip_angle = 1.0;
  assess::Measures m{};
  m.landing_time = m.landing_station = m.p2 = m.p2_delay = m.p2_cut_off = m.peak_total = m.peak_total_station = 1.0;
  m.first_peak = m.first_peak_delay = m.peak_nose = m.peak_wing = m.dynamic_transfer_station = 1.0;
  m.overlap_length = m.lost_contact = m.minimum_force = m.impulse = m.force_before_landing = m.static_load = 1.0;
  m.first_peak_over_valleys = m.first_peak_over_low_pass = 1.0;
  m.landing_impulse = m.high_frequency_excess = 1.0;
  m.dynamic_factor = m.p2_dynamic_factor = 1.0;
  m.rail_acceleration = m.bearer_acceleration = 1.0;
  a.measures = m;
  auto& t = a.track.emplace();
  t.rail_deflection = 1.0;
  for (auto* largest : {&t.bearer_deflection, &t.seat_force, &t.seat_uplift, &t.ballast_force, &t.ballast_pressure,
                        &t.bearer_moment, &t.bearer_strain, &t.rail_stress}) {
    *largest = {1.0, 1.0};
  }
  auto& r = a.sensors.emplace_back();
  r.peak_acceleration = r.peak_velocity = r.peak_displacement = r.quasi_static_peak = r.dynamic_peak = 1.0;
  r.indicator_acceleration = r.indicator_displacement = 1.0;
  assess::Estimate e{};
  e.forces.P1 = e.forces.P2 = 1.0;
  a.estimates.push_back(e);
  assess::SteelMeasures s;
  for (auto* peak : {&s.peak_pressure, &s.load_factor, &s.shakedown, &s.fatigue_index, &s.creepage, &s.creep_force,
                     &s.traction, &s.t_gamma, &s.crack_damage, &s.friction_power, &s.change_of_angle, &s.wear_depth}) {
    *peak = {1.0, "nose", 2.0, 3.0, 4.0};
  }
  s.friction_energy = s.wear_volume = 1.0;
  a.steel = s;
  return a;
}

// Everything a ride of a vehicle in space can tell, each number 1 in SI, which has nothing of a passage.
assess::Assessment ride_all_one() {
  assess::Assessment a;
  a.speed = 1.0;
  assess::GuidedWheelset w;
  using W = assess::GuidedWheelset;
  for (double W::*number :
       {&W::static_load, &W::sum_of_Y, &W::prudhomme, &W::outward_over_Q, &W::most_Q, &W::least_Q, &W::unloading,
        &W::most_shift, &W::most_attack, &W::flange_power, &W::flange_energy, &W::check_power, &W::check_energy}) {
    w.*number = 1.0;
  }
  w.transfer = w.nose_margin = 1.0;
  w.check = passage::space::CheckRailBlow{1.0, 1.0, 1.0, 1.0, 1.0, 1.0};
  w.check_peak = w.check_impulse = assess::Band{1.0, 1.0};
  a.guidance = assess::Guidance{{w}, {}, 1.0};
  for (const auto& part : names(assess::VehiclePart{})) {
    a.guidance->accelerations.push_back({std::string(part.name), part.value, 1.0, 1.0});
  }
  return a;
}

} // namespace

TEST_CASE("Every quantity has a key of its own that ends in its unit, and is found by it") {
  std::set<std::string_view> keys, labels;
  for (const Quantity& q : quantities()) {
    CAPTURE(q.key);
    CHECK(keys.insert(q.key).second);
    CHECK(labels.insert(q.label).second);
    CHECK(find(q.key) == &q);
    CHECK_FALSE(q.meaning.empty());
    const std::string unit = in_key(q.unit);
    if (unit.empty()) {
      for (const Unit& other : units) { // none that looks like one
        CHECK_FALSE((!in_key(other).empty() && q.key.ends_with("_" + in_key(other))));
      }
    } else {
      CHECK(q.key.ends_with("_" + unit));
    }
  }
  CHECK(find("p2_N") == nullptr);
  CHECK(find("") == nullptr);
}

TEST_CASE("Every number told comes from the assessment, in its own unit, and from nowhere where there is none") {
  const assess::Assessment passage = all_one(), ride = ride_all_one(), none;
  for (const Quantity& q : quantities()) {
    CAPTURE(q.key);
    const assess::Assessment& one = in_space(q) ? ride : passage;
    REQUIRE(q.of(one));
    CHECK(*q.of(one) == 1.0);
    CHECK(value(q, one) == q.unit.per_si);
    const bool of_both = in_space(q) || q.key == "speed_km_h" || q.key == "dynamic_transfer_station_mm";
    CHECK(std::isnan(value(q, ride)) == !of_both);
    const bool of_path = q.key.starts_with("slope") || q.key.starts_with("dip"); // every path has some
    CHECK(std::isnan(value(q, none)) == !of_path);
  }
}

TEST_CASE("Every member of the measures of the steel is told by one quantity") {
  const assess::SteelMeasures zero;
  assess::Assessment a;
  a.steel = zero;
  std::set<std::string_view> told;
  const auto tells = [&](auto change) {
    assess::Assessment changed = a;
    change(*changed.steel);
    std::size_t count = 0;
    for (const Quantity& q : quantities()) {
      if (of_steel(q) && value(q, changed) != value(q, a)) {
        told.insert(q.key);
        ++count;
      }
    }
    return count;
  };
  using S = assess::SteelMeasures;
  for (auto peak :
       {&S::peak_pressure, &S::load_factor, &S::shakedown, &S::fatigue_index, &S::creepage, &S::creep_force,
        &S::traction, &S::t_gamma, &S::crack_damage, &S::friction_power, &S::change_of_angle, &S::wear_depth}) {
    CHECK(tells([peak](S& s) { (s.*peak).value = 1.0; }) == 1);
  }
  CHECK(tells([](S& s) { s.friction_energy = 1.0; }) == 1);
  CHECK(tells([](S& s) { s.wear_volume = 1.0; }) == 1);
  std::size_t of_the_steel = 0;
  for (const Quantity& q : quantities()) {
    of_the_steel += of_steel(q) ? 1 : 0;
  }
  CHECK(told.size() == of_the_steel); // none is left out
}

TEST_CASE("Where a largest value is reached is told with it, and nowhere where it was never reached") {
  const assess::Assessment one = all_one();
  assess::Assessment never = one;
  never.steel = assess::SteelMeasures{};
  for (const Quantity& q : quantities()) {
    CAPTURE(q.key);
    if (q.uses.place != nullptr) {
      REQUIRE(q.uses.place(one) != nullptr);
      CHECK(q.uses.place(one)->body == "nose");
      CHECK(q.uses.place(never) == nullptr);
    } else {
      CHECK((!of_steel(q) || q.key == "friction_energy_J" || q.key == "wear_volume_mm3"));
    }
  }
}

TEST_CASE("What may be limited, is compared or is swept is found by its key; others are refused with the likely one") {
  std::size_t limits = 0;
  for (const Quantity& q : quantities()) {
    CAPTURE(q.key);
    if (q.uses.limit != Limit::none) {
      CHECK(&limited(q.key) == &q);
      ++limits;
    } else {
      CHECK_THROWS_AS(limited(q.key), InputError);
    }
    for (const bool steel : {false, true}) {
      const auto holds = [&](const std::vector<const Quantity*>& list) {
        return std::count(list.begin(), list.end(), find(q.key)) == 1;
      };
      CHECK(holds(compared(steel)) == (q.uses.compared && (steel || !of_steel(q)) && !q.uses.may_lack));
      CHECK(holds(compared(steel, true)) == (q.uses.compared && (steel || !of_steel(q))));
      CHECK(holds(swept(steel)) == (q.uses.swept && (steel || !of_steel(q)) && !in_space(q)));
      CHECK(holds(swept(steel, true)) == (q.uses.swept && (steel || !of_steel(q))));
    }
  }
  CHECK(limits > 10);
  CHECK(compared(true).size() > compared(false).size());
  CHECK(said::has(said::refusal<InputError>([] { (void)limited("p2_N"); }), "Did you mean \"p2_kN\"?"));
  CHECK(said::has(said::refusal<InputError>([] { (void)limited("landing_time_ms"); }),
                  "no quantity that can be limited"));
}

TEST_CASE("Every criterion and statistic has a key of its own that ends in its unit or level") {
  std::set<std::string> keys;
  for (const Quantity* q : compared(true)) {
    CHECK(keys.insert(std::string(q->key)).second);
  }
  for (const Statistic& criterion : criteria(true)) {
    REQUIRE(criterion.of != nullptr);
    const NamedStatistic n = named(criterion);
    CAPTURE(n.key);
    CHECK(keys.insert(n.key).second);
    CHECK_FALSE(n.label.empty());
    CHECK_FALSE(n.meaning.empty());
    CHECK((n.unit.name == "%" || n.unit.name == criterion.of->unit.name));
    CHECK((n.unit.name != "%" || n.key.ends_with("_percent")));
  }
  CHECK(criteria(false).size() + 3 == criteria(true).size());
  CHECK(quantile_name(0.05) == "q05");
  CHECK(quantile_name(0.5) == "q50");
  CHECK(quantile_name(0.99) == "q99");
  const NamedStatistic median = named({find("p2_kN"), Statistic::Kind::quantile, 0.5, false});
  CHECK(median.key == "p2_kN_q50");
  CHECK(median.label == "P2, median");
}

TEST_CASE("Numbers are told with their decimals and unit, and as none where there is none") {
  CHECK(told(*find("p2_kN"), 123.456) == "123.46 kN");
  CHECK(told(*find("dynamic_factor"), 1.23456) == "1.235");
  CHECK(told(*find("p2_kN"), std::nan("")) == "none");
}
