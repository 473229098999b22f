// What landings do to the steel, told by studies of many passages: the numbers of the damage of each passage.
#include "catch.hpp"
#include "folder.hpp"
#include "said.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/study/compare.hpp"
#include "wingnose/study/many.hpp"
#include "wingnose/study/speeds.hpp"
#include "wingnose/study/steel.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

using namespace wingnose;
using said::says;

namespace {

constexpr double km_h = 1.0 / 3.6;

std::size_t at(std::string_view key) { return study::observed(key, true); }

constexpr std::array of_steel{"peak_pressure_MPa", "shakedown_exceedance", "surface_fatigue_index", "t_gamma_N",
                              "crack_damage_1e_6", "friction_energy_J",    "wear_volume_mm3"};

using Values = std::array<double, of_steel.size()>;
Values values_of(const assess::SteelMeasures& s) {
  return {s.peak_pressure.value, s.shakedown.value, s.fatigue_index.value, s.t_gamma.value,
          s.crack_damage.value,  s.friction_energy, s.wear_volume};
}
// What the study of steel alone tells of a passage.
assess::SteelMeasures told(const cases::Case& c, const study::Geometry& geometry, const passage::History& history) {
  assess::Assessment a;
  study::add_steel(a, c, geometry, history);
  return a.steel.value();
}
assess::SteelMeasures told(const cases::Case& c) {
  const study::Result r = study::run(c);
  return told(c, r.geometry, r.history);
}

// A demo case on a short, coarse track, so that a passage costs little.
cases::Document document(const std::string& base, const std::string& more = "") {
  const std::string text =
      "base = \"" + base + "\"\n[passage]\nfrom_m = -1.5\nto_m = 2\n[track]\nbays = 20\nelements_per_bay = 4\n" + more;
  return io::parse_case(text, base, profiles);
}
std::vector<study::ComparedCrossing> designed_and_worn(const std::string& worn_more = "") {
  return {{"designed", document("demo.toml")}, {"worn", document("worn.toml", worn_more)}};
}

cases::Population wheels(const std::vector<double>& offsets) {
  cases::Population population;
  population.classes.emplace_back().name = "new";
  for (std::size_t i = 0; i < offsets.size(); ++i) {
    population.members.push_back(
        {"wheel " + std::to_string(i + 1), 0, 1.0 + static_cast<double>(i), {{"wheel.lateral_offset_mm", offsets[i]}}});
  }
  return population;
}

study::Comparison compared(const std::vector<study::ComparedCrossing>& crossings, const cases::Population& population,
                           bool steel, int threads = 2) {
  study::CompareOptions options;
  options.resamples = 200;
  options.threads = threads;
  options.paths = false;
  options.steel = steel;
  return study::compare(crossings, population, options).value();
}

study::SpeedOptions with_steel() {
  study::SpeedOptions options;
  options.steel = true;
  return options;
}

bool same(double a, double b) { return a == b || (std::isnan(a) && std::isnan(b)); }

} // namespace

TEST_CASE("Measures of the steel are the peaks and sums of the damage, whatever its maps are spaced like") {
  cases::Case c = document("worn.toml").base();
  c.passage.probes = false;
  const study::Result result = study::run(c);
  assess::Assessment damage = result.assessment;
  damage.steel = study::damage(c, result.geometry, result.history);
  assess::Assessment steel = result.assessment;
  study::add_steel(steel, c, result.geometry, result.history);
  for (const quantity::Quantity& q : quantity::quantities()) {
    CAPTURE(q.key);
    if (quantity::of_steel(q) && q.key == "wear_depth_nm") { // of the maps, which only the damage makes
      CHECK(std::isnan(quantity::value(q, steel)));
      CHECK(quantity::value(q, damage) > 0.0);
    } else if (quantity::of_steel(q)) {
      CHECK(quantity::value(q, steel) == quantity::value(q, damage));
      CHECK(quantity::value(q, steel) != 0.0);
    }
  }
  CHECK(steel.steel->wear_volume > 0.0);
}

TEST_CASE("The steel under each wheel of a comparison is that of its case alone, for any number of threads") {
  const auto crossings = designed_and_worn();
  const auto population = wheels({-2, 1, 2});
  const auto c = compared(crossings, population, true), one = compared(crossings, population, true, 1);
  for (std::size_t i = 0; i < 2; ++i) {
    for (std::size_t m = 0; m < 3; ++m) {
      const std::vector<cases::Case> alone{study::case_of(crossings, i, population, m)};
      const auto outcome = study::run_many(alone, {.threads = 1, .keep_history = true});
      REQUIRE(outcome.front().assessment);
      const auto& kept = *outcome.front().kept;
      const auto expected = values_of(study::damage(alone.front(), kept.geometry, kept.history));
      for (std::size_t k = 0; k < of_steel.size(); ++k) {
        CAPTURE(i, m, k);
        const std::size_t q = at(of_steel[k]);
        CHECK(c.crossings[i].members[m].observed[q] == expected[k]);
        CHECK(one.crossings[i].members[m].observed[q] == expected[k]);
        CHECK(c.crossings[i].distributions[q].count == 3);
      }
    }
  }
}

TEST_CASE("Asking for the steel changes no other number of a comparison, to the last bit") {
  const auto crossings = designed_and_worn();
  const auto population = wheels({-3, -1, 0, 1, 4});
  const auto off = compared(crossings, population, false), on = compared(crossings, population, true);
  const std::size_t plain = quantity::compared(false).size();
  for (std::size_t i = 0; i < 2; ++i) {
    const auto &a = off.crossings[i], &b = on.crossings[i];
    for (std::size_t m = 0; m < a.members.size(); ++m) {
      for (std::size_t q = 0; q < plain; ++q) {
        CHECK(same(a.members[m].observed[q], b.members[m].observed[q]));
        CHECK(same(a.distributions[q].mean, b.distributions[q].mean));
        CHECK(a.distributions[q].values == b.distributions[q].values);
      }
      CHECK(a.members[m].observed.size() == plain); // nothing of the steel
    }
    CHECK(a.envelope.high == b.envelope.high);
    CHECK(a.nose_load.mean == b.nose_load.mean);
    CHECK(a.early_members == b.early_members);
    CHECK(std::isnan(a.beyond_shakedown));
    CHECK(b.beyond_shakedown >= 0.0);
  }
  REQUIRE(on.rankings.size() == off.rankings.size() + 3);
  for (std::size_t k = 0; k < off.rankings.size(); ++k) {
    CHECK(off.rankings[k].values == on.rankings[k].values);
    CHECK(off.rankings[k].order == on.rankings[k].order);
    CHECK(off.rankings[k].apart == on.rankings[k].apart);
  }
  for (const auto& d : off.differences) {
    const auto of = study::statistic_of(off, d);
    const auto found = std::find_if(on.differences.begin(), on.differences.end(), [&](const PairedDifference& other) {
      const auto also = study::statistic_of(on, other);
      return also.of == of.of && also.kind == of.kind && also.level == of.level;
    });
    REQUIRE(found != on.differences.end());
    CHECK(same(found->value, d.value));
    CHECK(same(found->interval.low, d.interval.low));
    CHECK(same(found->interval.high, d.interval.high));
  }
  for (const Finding& f : off.findings) { // those of the steel come beside them
    CAPTURE(sentence(f));
    CHECK(std::find(on.findings.begin(), on.findings.end(), f) != on.findings.end());
  }
  const auto silent = study::tell(crossings, off), telling = study::tell(crossings, on);
  CHECK(silent.texts("assumptions/steel/sentence").empty());
  CHECK(says(telling.texts("assumptions/steel/sentence"), "runs straight"));
  CHECK(says(telling.texts("assumptions/steel/sentence"), "run-in pressure"));
}

TEST_CASE("Shares of wheels beyond shakedown and at the surface are shares of the weight of those that are") {
  const auto c = compared(designed_and_worn(), wheels({-2, 0, 1, 3}), true);
  for (const auto& crossing : c.crossings) {
    double shakedown = 0.0, surface = 0.0;
    for (std::size_t m = 0; m < 4; ++m) {
      const auto& o = crossing.members[m].observed;
      shakedown += o[at("shakedown_exceedance")] > 1.0 ? 1.0 + static_cast<double>(m) : 0.0;
      surface += o[at("surface_fatigue_index")] > 0.0 ? 1.0 + static_cast<double>(m) : 0.0;
    }
    CHECK(crossing.beyond_shakedown == Approx(shakedown / 10.0)); // of weights 1 to 4
    CHECK(crossing.beyond_surface_flow == Approx(surface / 10.0));
    CHECK(crossing.steel == "R350HT");
  }
}

TEST_CASE("A softer steel is strained more under the same pressures, and the comparison says that it differs") {
  const auto base = designed_and_worn();
  const std::vector<study::ComparedCrossing> crossings{
      base[0], {"softer", document("demo.toml", "[damage]\nsteel = \"R260\"\n")}};
  const auto c = compared(crossings, wheels({-2, 0, 2}), true);
  CHECK(says(c.findings, "also in damage.steel"));
  CHECK(c.crossings[1].steel == "R260");
  for (std::size_t m = 0; m < 3; ++m) {
    const auto &hard = c.crossings[0].members[m].observed, &soft = c.crossings[1].members[m].observed;
    CHECK(soft[at("peak_pressure_MPa")] == hard[at("peak_pressure_MPa")]);
    CHECK(soft[at("t_gamma_N")] == hard[at("t_gamma_N")]);
    CHECK(soft[at("shakedown_exceedance")] > hard[at("shakedown_exceedance")]);
    CHECK(soft[at("surface_fatigue_index")] > hard[at("surface_fatigue_index")]);
  }
  CHECK_FALSE(says(compared(crossings, wheels({0}), false).findings, "also in"));
}

TEST_CASE("A wheel whose steel cannot be told is compared all the same, and told with the reason") {
  // No contact counts as one: there is nothing to tell of the worn crossing's steel.
  const auto crossings = designed_and_worn("[damage]\nleast_force_N = 1000000\n");
  const auto population = wheels({-2, 0, 2});
  const auto c = compared(crossings, population, true), off = compared(crossings, population, false);
  CHECK(c.dropped == 0.0);
  CHECK(c.crossings[1].distributions[at("wear_volume_mm3")].count == 0);
  CHECK(std::isnan(c.crossings[1].beyond_shakedown));
  CHECK(says(c.findings, "3 of 3 wheels on \"worn\", first wheel 1: no contact within"));
  CHECK(said::of_kind(c.findings, FindingKind::steel_unknown).size() == 1);
  CHECK(c.differences.front().value == off.differences.front().value);
}

TEST_CASE("Asking for the steel changes no force of a study of speeds, and a limit on the steel asks for it") {
  const cases::Case c = document("demo.toml").base();
  const study::SpeedRange range{80 * km_h, 120 * km_h, 20 * km_h};
  const auto off = study::study_speeds(c, range), on = study::study_speeds(c, range, {}, with_steel());
  REQUIRE(on.points.size() == off.points.size());
  for (std::size_t i = 0; i < on.points.size(); ++i) {
    CHECK(on.points[i].assessment.measures->p2 == off.points[i].assessment.measures->p2);
    CHECK(on.points[i].assessment.measures->peak_total == off.points[i].assessment.measures->peak_total);
    CHECK_FALSE(off.points[i].assessment.steel);
    REQUIRE(on.points[i].assessment.steel);
    cases::Case at = c;
    at.passage.speed = on.points[i].speed;
    CHECK(values_of(*on.points[i].assessment.steel) == values_of(told(at)));
  }
  CHECK_FALSE(off.steel);
  const auto silent = study::tell(c, off), telling = study::tell(c, on);
  CHECK(silent.texts("assumptions/steel/sentence").empty());
  CHECK_FALSE(telling.texts("assumptions/steel/sentence").empty());
  CHECK(telling.text("steel/name") == "R350HT");
  const std::vector<study::Limit> limits{{quantity::find("peak_pressure_MPa"), 1e12, "far off"}};
  const auto asked = study::study_speeds(c, range, limits);
  CHECK(asked.steel);
  CHECK(values_of(*asked.points[1].assessment.steel) == values_of(*on.points[1].assessment.steel));
  CHECK(asked.answers[0].outcome == study::LimitOutcome::not_reached);
}

TEST_CASE("A limit on shakedown, pressure or T-gamma is kept at the speed answered and broken just above") {
  const cases::Case c = document("demo.toml").base();
  const study::SpeedRange range{60 * km_h, 160 * km_h, 10 * km_h};
  const auto free = study::study_speeds(c, range, {}, with_steel());
  for (const std::string key : {"shakedown_exceedance", "peak_pressure_MPa", "t_gamma_N"}) {
    CAPTURE(key);
    const quantity::Quantity* const limited = quantity::find(key);
    const auto value_of = [&](const study::SpeedPoint& p) { return limited->of(p.assessment); };
    // A limit between the first value and the largest is broken within the range.
    double most = 0.0;
    for (const auto& point : free.points) {
      most = std::max(most, *value_of(point));
    }
    const double first = *value_of(free.points.front());
    REQUIRE(most > first);
    const std::vector<study::Limit> limits{{limited, 0.5 * (first + most), "a house rule"}};
    const auto s = study::study_speeds(c, range, limits);
    REQUIRE(s.answers[0].outcome == study::LimitOutcome::found);
    const double found = *s.answers[0].speed, tolerance = study::SpeedOptions{}.tolerance;
    // Peaks are those of the time steps, which lie elsewhere at every speed: closely above the answer some speeds may
    // keep the limit again.
    const auto at = study::study_speeds(c, {found, found + tolerance, tolerance / 40.0}, {}, with_steel());
    CHECK(*value_of(at.points.front()) <= limits[0].value);
    CHECK(std::any_of(at.points.begin(), at.points.end(),
                      [&](const study::SpeedPoint& p) { return *value_of(p) > limits[0].value; }));
    const double first_broken = *s.answers[0].first_broken;
    const auto broken = std::find_if(free.points.begin(), free.points.end(),
                                     [&](const study::SpeedPoint& p) { return p.speed == first_broken; });
    REQUIRE(broken != free.points.end());
    CHECK(*value_of(*broken) > limits[0].value);
    CHECK(first_broken > found);
    CHECK(s.permissible.governs == 0U);
  }
}

TEST_CASE("A limit on a steel that cannot be told is no limit kept") {
  cases::Case c = document("demo.toml").base();
  c.damage.least_force = 1e6;
  const study::SpeedRange range{80 * km_h, 100 * km_h, 20 * km_h};
  const auto s = study::study_speeds(c, range, {}, with_steel());
  CHECK_FALSE(s.points.front().assessment.steel);
  CHECK(says(said::of_kind(s.findings, FindingKind::steel_unknown), "no contact within"));
  const std::vector<study::Limit> limits{{quantity::find("shakedown_exceedance"), 1.0, ""}};
  CHECK_THROWS_AS(study::study_speeds(c, range, limits), ComputeError);
}
