// Findings go through every study: a grave case is never dropped in silence, never counted as an ordinary one.
#include "catch.hpp"
#include "compare_cases.hpp"
#include "parsed.hpp"
#include "said.hpp"

#include "wingnose/io/stream_file.hpp"
#include "wingnose/io/tree_file.hpp"
#include "wingnose/study/damage.hpp"
#include "wingnose/study/speeds.hpp"
#include "wingnose/study/sweep.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

using namespace wingnose;
using namespace compare_cases;
using said::has;
using said::of_kind;
using said::refusal;
using said::says;
using State = assess::ComparedPassage::State;

namespace {

// So far outward the flange of a wheel rides on the nose, which no free wheelset would do.
constexpr double on_its_flange = 8.0; // mm

cases::Case demo(double offset_mm, const std::string& more = "") {
  return io::parse_case("base = \"demo.toml\"\n[passage]\nfrom_m = -1.5\nto_m = 2\n[track]\nbays = 20\n"
                        "elements_per_bay = 4\n[wheel]\nlateral_offset_mm = " +
                            number(offset_mm) + "\n" + more,
                        "demo", profiles);
}

} // namespace

TEST_CASE("A wheel carried by its flange is a grave finding of the path and of the passage, and is told first") {
  const cases::Case usual = demo(0.0), flange = demo(on_its_flange);
  CHECK_FALSE(any_grave(study::geometry(usual).findings));
  const study::Geometry g = study::geometry(flange);
  REQUIRE(of_kind(g.findings, FindingKind::flange_contact).size() == 1);
  CHECK(says(of_gravity(g.findings, Gravity::grave), "carries the wheel"));
  const study::Result r = study::run(flange);
  CHECK(any_grave(r.assessment.findings));
  const quantity::Tree told = study::tell(flange, r);
  CHECK(told.texts("findings/gravity")[0] == "grave");
  CHECK(told.texts("findings/kind")[0] == "flange_contact");
  CHECK_FALSE(told.texts("findings/advice")[0].empty());
  CHECK(std::isfinite(told.number("measures/p2_kN"))); // the numbers are told all the same
}

TEST_CASE("A window that begins inside the dip is found, whatever the sense of travel and the shape of the dip") {
  const auto begins = [](const std::string& text) {
    const cases::Case c =
        io::parse_case("base = \"demo.toml\"\n[track]\nbays = 20\nelements_per_bay = 4\n" + text, "demo", profiles);
    return of_kind(study::run(c).assessment.findings, FindingKind::window_begins_in_dip);
  };
  CHECK(begins("[passage]\nfrom_m = -1.5\nto_m = 2.5\n").empty());
  const Findings inside = begins("[passage]\nfrom_m = 0.2\nto_m = 2.5\n");
  REQUIRE(inside.size() == 1);
  CHECK(has(inside[0].what, "below its level ahead"));
  CHECK(has(inside[0].where, "200 mm"));
  CHECK(begins("[passage]\ndirection = \"trailing\"\nfrom_m = -2\nto_m = 2\n").empty());
  CHECK(begins("[passage]\ndirection = \"trailing\"\nfrom_m = -2\nto_m = 0.6\n").size() == 1);
  const std::string joint = "[crossing]\nkind = \"joint\"\ndip_angle_mrad = 10\nhalf_length_m = 4\nshape = ";
  const std::string window = "\n[passage]\nfrom_m = -1\nto_m = 2.5\n";
  CHECK(begins(joint + "\"quadratic\"" + window).size() == 1);
  CHECK(begins(joint + "\"sine\"" + window).size() == 1);
  CHECK(begins(joint + "\"kink\"" + window).empty()); // down a straight ramp a wheel runs as steadily as on the level
}

TEST_CASE("A dip beyond the closed forms is found, and the passage is simulated all the same") {
  const study::Result r = study::run(demo(9.0));
  REQUIRE(r.geometry.kinematics.dip_angle > closedform::most_dip_angle);
  CHECK(of_kind(r.assessment.findings, FindingKind::dip_beyond_closed_form).size() == 1);
  CHECK(r.assessment.estimates.empty());
  CHECK(r.assessment.measures->p2 > 0.0);
}

TEST_CASE("A comparison gives its statistics without a grave wheel, and with it counted as the worst") {
  const auto crossings = designed_and_worn();
  const auto population = wheels({-2, 0, on_its_flange, 1});
  const auto c = compared(crossings, population);
  CHECK(c.compared == std::vector<bool>{true, true, false, true});
  for (const auto& crossing : c.crossings) {
    CAPTURE(crossing.name);
    const auto& wheel = crossing.members[2];
    CHECK(wheel.state == State::grave);
    CHECK(has(wheel.failure, "carries the wheel"));
    CHECK(any_grave(wheel.findings));
    CHECK(std::isfinite(wheel.observed[study::observed("p2_kN", false)])); // what was computed is told
    CHECK(crossing.grave == Approx(3.0 / 10.0));                           // of weights 1 to 4
    CHECK(crossing.failed == 0.0);
    CHECK(crossing.distributions[study::observed("p2_kN", false)].count == 3);
  }
  CHECK(c.dropped == Approx(3.0 / 10.0));

  // Statistics, ranking and differences are those of the others.
  auto others = population;
  others.members.erase(others.members.begin() + 2);
  const auto without = compared(crossings, others);
  REQUIRE(c.rankings.size() == without.rankings.size());
  for (std::size_t k = 0; k < c.rankings.size(); ++k) {
    CHECK(c.rankings[k].values == without.rankings[k].values);
    CHECK(c.rankings[k].places == without.rankings[k].places);
  }
  for (std::size_t k = 0; k < c.differences.size(); ++k) {
    CHECK(c.differences[k].value == without.differences[k].value);
  }

  // With it: the same statistic over all wheels, its value beyond all others on the bad side.
  constexpr double inf = std::numeric_limits<double>::infinity();
  std::vector<double> weights;
  for (const auto& member : population.members) {
    weights.push_back(member.weight);
  }
  std::size_t unbounded = 0;
  REQUIRE(c.criteria.size() == c.rankings.size());
  for (std::size_t k = 0; k < c.rankings.size(); ++k) {
    const auto& r = c.rankings[k];
    const auto& of = c.criteria[k];
    CAPTURE(quantity::named(of).key);
    REQUIRE(r.worst_values.size() == 2);
    for (std::size_t i = 0; i < 2; ++i) {
      std::vector<double> values;
      for (const auto& m : c.crossings[i].members) {
        values.push_back(m.observed[study::observed(of.of->key, false)]);
      }
      values[2] = of.higher_is_better ? -inf : inf;
      CHECK(r.worst_values[i] == evaluate({of.kind, of.level}, values, weights));
      CHECK((of.higher_is_better ? r.worst_values[i] <= r.values[i] : r.worst_values[i] >= r.values[i]));
      unbounded += std::isinf(r.worst_values[i]) ? 1 : 0;
    }
    CHECK(r.worst_places.size() == 2);
  }
  CHECK(unbounded > 0); // 95 % of the wheels cannot be told without the 30 % that are grave

  // Nobody can overlook it.
  CHECK(gravity_of(c.findings.front()) == Gravity::grave);
  const Findings flange = of_kind(c.findings, FindingKind::flange_contact);
  REQUIRE(flange.size() == 2);
  CHECK(says(flange, "1 of 4 wheels on \"designed\", wheel 3"));
  CHECK(says(c.findings, "1 of 4 wheels (30.0 % of the weight) could not be computed, or are grave"));
  CHECK(says(c.findings, "counted as the worst, these wheels"));
  const quantity::Tree told = study::tell(crossings, c);
  CHECK(told.numbers("crossings/grave_percent")[0] == Approx(30.0));
  CHECK(told.texts("passages/state")[2] == "grave");
  CHECK(has(told.texts("passages/findings")[2], "flange_contact"));
  CHECK(told.numbers("ranking/worst_value").size() == 2 * c.rankings.size());
  CHECK(told.number("about/wheels_compared") == 3);
}

TEST_CASE("A comparison of grave wheels alone is refused with the reason") {
  const std::string told = refusal<ComputeError>([] {
    (void)compared(designed_and_worn(), wheels({on_its_flange, on_its_flange}));
  });
  CHECK(has(told, "without a grave finding"));
  CHECK(has(told, "carries the wheel"));
}

TEST_CASE("A speed with a grave finding keeps no limit, and no speed above it counts as permissible") {
  const std::vector<study::Limit> limits{study::parse_limit("p2_kN=10000", "far off"),
                                         study::parse_limit("lost_contact_ms=1000", "")};
  const study::SpeedRange range{25.0, 35.0, 5.0};
  const auto usual = study::study_speeds(demo(0.0), range, limits);
  CHECK(usual.permissible.outcome == study::LimitOutcome::not_reached);
  const cases::Case flange = demo(on_its_flange);
  const auto s = study::study_speeds(flange, range, limits);
  REQUIRE(s.points.size() == 3); // the numbers are told
  for (const auto& answer : s.answers) {
    CHECK(answer.outcome == study::LimitOutcome::broken_at_lowest);
    CHECK(answer.first_broken_not_computed);
    CHECK(answer.kept_again.empty());
    CHECK_FALSE(answer.speed);
  }
  CHECK(s.permissible.outcome == study::LimitOutcome::broken_at_lowest);
  CHECK_FALSE(s.permissible.speed);
  CHECK(gravity_of(s.findings.front()) == Gravity::grave);
  CHECK(has(s.findings.front().where, "at all speeds"));
  const quantity::Tree told = study::tell(flange, s);
  CHECK(std::isnan(told.number("permissible/speed_km_h")));
  CHECK(told.text("permissible/outcome") == "broken_at_lowest");
  CHECK(told.number("limits/first_broken_computed") == 0.0);
  CHECK(has(told.text("permissible/answer"), "no speed from 90 km/h upwards can be permitted"));
}

TEST_CASE("A sweep tells the gravest finding of every case, and its summary all of them") {
  const Folder folder;
  folder.write("demo.toml", "base = \"" + (profiles / "demo.toml").string() +
                                "\"\n[passage]\nfrom_m = -1.5\nto_m = 2.5\n[track]\nbays = 20\nelements_per_bay = 4\n");
  const study::Sweep sweep =
      parsed::from_text("case = \"demo.toml\"\n[[vary]]\nkey = \"wheel.lateral_offset_mm\"\nvalues = [0, "
                        "6]\n[[vary]]\nkey = \"passage.to_m\"\nvalues = [2.5, 2]\n",
                        "sweep.toml", folder.path, study::read_sweep);
  study::SweepFound so_far;
  {
    io::StreamFile file(folder.path / "s.h5", sweep.stream(), 2);
    study::SweepOptions options;
    options.found = [&so_far](const study::SweepFound& found) { so_far = found; };
    CHECK(study::run_sweep(sweep, file, options).finished);
  }
  const quantity::Tree stored = io::read_tree(folder.path / "s.h5");
  const auto gravities = stored.numbers("gravity");
  const auto kinds = stored.texts("findings");
  REQUIRE(gravities.size() == 4);
  for (std::size_t i = 0; i < 4; ++i) {
    cases::Case c = sweep.make(i);
    c.passage.probes = false;
    Gravity gravest = Gravity::note;
    for (const Finding& f : study::run(c).assessment.findings) {
      gravest = std::max(gravest, gravity_of(f));
      CHECK(has(kinds[i], std::string(words_of(f.kind).key)));
    }
    CHECK(gravities[i] == static_cast<double>(gravest));
  }
  const auto with = [&](Gravity g) {
    return static_cast<std::size_t>(std::count(gravities.begin(), gravities.end(), static_cast<double>(g)));
  };
  CHECK(so_far.grave == with(Gravity::grave));
  CHECK(so_far.warned == with(Gravity::warning));
  CHECK(so_far.grave + so_far.warned > 0);
  CHECK(so_far.failed == 0);
  CHECK(gravities[0] == 0.0);
  CHECK(gravities[1] == 1.0); // the window is cut
  CHECK(gravities[2] == 2.0); // the wheel hits the nose's first metal
  CHECK(gravities[3] == 2.0);
  CHECK(std::isfinite(stored.numbers("measures/p2_kN")[2]));
  const Findings summary = quantity::findings_of(study::summary(stored));
  REQUIRE(any_grave(summary));
  CHECK(says(of_gravity(summary, Gravity::grave), "2 of 4 cases, first case 2"));
}

TEST_CASE("A traffic tells which of its wheels are grave") {
  const cases::Document document = demo(0.0);
  cases::Population population;
  population.classes.emplace_back().name = "new";
  population.members = {{"one", 0, 1.0, {}}, {"other", 0, 1.0, {{"wheel.lateral_offset_mm", on_its_flange}}}};
  const study::TrafficOptions options{.tonnage = 1e9, .stages = 1};
  const auto s = study::study_damage(document, &options, &population);
  REQUIRE(s);
  CHECK(says(of_gravity(s->findings, Gravity::grave), "1 of 2 wheels, other"));
}

TEST_CASE("Theory that is stretched is a warning and never grave: the wheel counts like any other") {
  CHECK(words_of(FindingKind::theory_stretched).gravity == Gravity::warning);
  const auto crossings = designed_and_worn();
  auto options = few();
  options.steel = true;
  const auto c = compared(crossings, wheels({0, 2, 4, 6}), options);
  std::size_t stretched = 0;
  for (const auto& crossing : c.crossings) {
    for (std::size_t m = 0; m < crossing.members.size(); ++m) {
      const auto& wheel = crossing.members[m];
      const bool found = !of_kind(wheel.findings, FindingKind::theory_stretched).empty();
      stretched += found ? 1 : 0;
      CHECK((!found || any_grave(wheel.findings) || wheel.state == State::done));
      CHECK((wheel.state == State::grave) == any_grave(wheel.findings));
    }
  }
  CHECK(stretched > 0);
  const Findings told = of_kind(c.findings, FindingKind::theory_stretched);
  REQUIRE_FALSE(told.empty());
  CHECK(gravity_of(told.front()) == Gravity::warning);
}

TEST_CASE("A wheelset shifted so far that the other wheel's flange stands on its rail is grave") {
  const auto found = [](double offset) {
    cases::Case c;
    c.wheel.lateral_offset = offset;
    const study::Geometry g = study::geometry(c);
    return std::any_of(g.findings.begin(), g.findings.end(), [](const Finding& f) {
      return f.kind == FindingKind::flange_on_plain_rail && f.what.find("other wheel") != std::string::npos;
    });
  };
  CHECK(found(-0.020));
  CHECK(found(-0.012));
  CHECK_FALSE(found(-0.006));
  CHECK_FALSE(found(0.0));
}
