// Crossings compared under a few wheels: real passages on a short track.
#include "catch.hpp"
#include "compare_cases.hpp"
#include "said.hpp"

#include "wingnose/study/compare.hpp"
#include "wingnose/study/many.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>

using namespace wingnose;
using namespace compare_cases;
using said::has;
using said::of_kind;
using said::refusal;
using said::says;
using State = assess::ComparedPassage::State;

namespace {

const std::size_t p2 = study::observed("p2_kN", false),
                  thickness = study::observed("nose_thickness_at_transfer_mm", false);

} // namespace

TEST_CASE("Each wheel on each crossing is answered as its case alone is") {
  const auto crossings = designed_and_worn();
  const auto population = wheels({-2, 1, 2});
  const auto c = compared(crossings, population);
  for (std::size_t i = 0; i < 2; ++i) {
    for (std::size_t m = 0; m < 3; ++m) {
      const std::vector<cases::Case> one{study::case_of(crossings, i, population, m)};
      const auto outcome = study::run_many(one, {.threads = 1});
      REQUIRE(outcome.front().assessment);
      CHECK(c.crossings[i].members[m].observed[p2] == outcome.front().assessment->measures->p2);
      CHECK(c.crossings[i].members[m].observed[thickness] ==
            outcome.front().assessment->kinematics.nose_thickness.value());
    }
  }
}

TEST_CASE("A comparison gives the same bits whatever threads and chunks it was worked off in") {
  const auto crossings = designed_and_worn();
  const auto population = wheels({-3, -1, 0, 1, 2});
  auto options = few(3);
  options.passages_per_chunk = 4;
  const auto one = compared(crossings, population), other = compared(crossings, population, options);
  REQUIRE(one.differences.size() == other.differences.size());
  for (std::size_t k = 0; k < one.differences.size(); ++k) {
    CHECK(one.differences[k].value == other.differences[k].value);
    CHECK(one.differences[k].interval.low == other.differences[k].interval.low);
    CHECK(one.differences[k].interval.high == other.differences[k].interval.high);
  }
  CHECK(one.crossings[1].envelope.high == other.crossings[1].envelope.high);
  CHECK(one.crossings[1].nose_load.mean == other.crossings[1].nose_load.mean);
  CHECK(one.dependence == other.dependence);
}

TEST_CASE("A crossing compared with itself differs by nothing, and nothing ranks before the other") {
  const auto c =
      compared({demo_crossing("first", "demo.toml"), demo_crossing("second", "demo.toml")}, wheels({-2, 0, 1, 3}));
  for (const auto& d : c.differences) {
    CHECK(d.value == 0.0);
    CHECK(d.interval.low == 0.0);
    CHECK(d.interval.high == 0.0);
    CHECK((std::isnan(d.higher) || d.higher == 0.0));
  }
  for (const auto& r : c.rankings) {
    CHECK(r.places == std::vector<std::size_t>{1, 1});
    CHECK(!r.apart.front());
  }
  CHECK(says(c.dependence, "all crossings are equal"));
}

TEST_CASE("Differences change their sign when two crossings change places") {
  const auto crossings = designed_and_worn();
  const auto population = wheels({-2, 0, 1, 3});
  const auto there = compared(crossings, population), back = compared({crossings[1], crossings[0]}, population);
  REQUIRE(there.differences.size() == back.differences.size());
  for (std::size_t k = 0; k < there.differences.size(); ++k) {
    CHECK(there.differences[k].value == -back.differences[k].value);
    CHECK(there.differences[k].interval.low == -back.differences[k].interval.high);
  }
}

TEST_CASE("Weights in other units change nothing") {
  const auto crossings = designed_and_worn();
  auto population = wheels({-2, 0, 1, 3});
  const auto before = compared(crossings, population);
  for (auto& member : population.members) {
    member.weight *= 1024.0;
  }
  const auto after = compared(crossings, population);
  for (std::size_t k = 0; k < before.differences.size(); ++k) {
    CHECK(before.differences[k].value == after.differences[k].value);
    CHECK(before.differences[k].interval.low == after.differences[k].interval.low);
  }
}

TEST_CASE("A wheel that fails on one crossing is told with its reason and left out on all of them") {
  auto population = wheels({-2, 0, 1, 3});
  population.members[1].values.push_back({"vehicle.static_load_kN", -5.0});
  const auto c = compared(designed_and_worn(), population);
  CHECK(c.compared == std::vector<bool>{true, false, true, true});
  CHECK(c.crossings[0].members[1].state == State::bad_input);
  CHECK(c.crossings[0].failed == Approx(2.0 / 10.0)); // of weights 1 to 4
  CHECK(c.dropped == Approx(2.0 / 10.0));
  CHECK(c.crossings[0].distributions[p2].count == 3);
  CHECK(says(c.findings, "1 of 4 wheels (20.0 % of the weight)"));
  CHECK(says(c.findings, "static_load_kN"));
  // The others are as if it had never been there.
  population.members.erase(population.members.begin() + 1);
  CHECK(c.differences.front().value == compared(designed_and_worn(), population).differences.front().value);
}

TEST_CASE("When no wheel works on all crossings the comparison says why") {
  auto population = wheels({0});
  population.members[0].values.push_back({"vehicle.static_load_kN", -5.0});
  CHECK(has(refusal([&] { (void)study::compare(designed_and_worn(), population, few()); }), "static_load_kN"));
}

TEST_CASE("Wheels that transfer early onto a thin nose are named with crossing, class and place") {
  auto options = few();
  const auto population = wheels({0, 0, 4, -2});
  const auto c = compared(designed_and_worn(), population, options);
  // Wheel 3, shifted outward by 4 mm, meets the worn nose where it is thinnest.
  const double earliest = c.crossings[1].members[2].observed[thickness];
  REQUIRE(earliest < 0.020);
  CHECK(c.crossings[1].early_members == std::vector<std::size_t>{2});
  CHECK(c.crossings[1].early == Approx(3.0 / 10.0));
  CHECK(c.crossings[0].early_members.empty());
  const Findings early = of_kind(c.findings, FindingKind::early_transfer);
  REQUIRE(early.size() == 1);
  CHECK(says(early, "on \"worn\": 30.0 % of the wheels transfer early"));
  CHECK(says(early, "wheel 3 at"));
  CHECK(says(early, "of class new"));
  options.thin_nose = earliest - 0.001;
  const auto none = compared(designed_and_worn(), population, options);
  CHECK(of_kind(none.findings, FindingKind::early_transfer).empty());
  CHECK(says(none.findings, "the earliest is wheel 3 on \"worn\""));
}

TEST_CASE("Of trailing wheels that leave the nose where it is thin the comparison says that they transfer late") {
  const std::string trailing = "direction = \"trailing\"\n";
  const std::vector<study::ComparedCrossing> crossings{demo_crossing("designed", "demo.toml", trailing),
                                                       demo_crossing("worn", "worn.toml", trailing)};
  const auto c = compared(crossings, wheels({0, 0, 4, -2}), few());
  CHECK(c.crossings[1].early_members == std::vector<std::size_t>{2});
  const Findings late = of_kind(c.findings, FindingKind::early_transfer);
  REQUIRE(late.size() == 1);
  CHECK(says(late, "on \"worn\": 30.0 % of the wheels transfer late, where the nose is thinner than 20"));
  CHECK(says(late, "; latest wheel 3 at"));
  CHECK_FALSE(says(late, "earl"));
}

TEST_CASE("Envelopes hold the peaks of every passage and nose loads end where the nose is not yet reached") {
  const auto crossings = designed_and_worn();
  const auto population = wheels({-2, 0, 2});
  const auto c = compared(crossings, population);
  for (std::size_t k = 0; k < c.crossings.size(); ++k) {
    const auto& a = c.crossings[k];
    const auto& e = a.envelope;
    REQUIRE(e.station.size() > 100);
    double most = 0.0, peak = 0.0;
    for (std::size_t i = 0; i < e.station.size(); ++i) {
      CHECK(e.low[i] <= e.middle[i]);
      CHECK(e.middle[i] <= e.high[i]);
      CHECK(e.high[i] <= e.most[i]);
      most = std::max(most, e.most[i]);
    }
    // The largest sample; a peak as a measure is sought between samples.
    for (std::size_t m = 0; m < 3; ++m) {
      const std::vector<cases::Case> one{study::case_of(crossings, k, population, m)};
      const auto outcome = study::run_many(one, {.threads = 1, .keep_history = true});
      const auto& history = outcome.front().kept->history;
      for (std::size_t i = 0; i < history.force.size(); ++i) {
        if (history.station[i] > e.station.front() && history.station[i] < e.station.back()) {
          peak = std::max(peak, history.force[i]);
        }
      }
    }
    CHECK(most == Approx(peak).epsilon(1e-7)); // kept in single precision
    for (std::size_t i = 0; i < a.nose_load.from.size(); ++i) {
      if (a.nose_load.to[i] < 0.010) {
        CHECK(a.nose_load.mean[i] == 0.0);
      }
      CHECK(a.nose_load.mean[i] <= a.nose_load.high[i] + 1e-9);
    }
  }
}

TEST_CASE("Classes keep the profile they name on every crossing, and the wheel paths stored are of every class") {
  auto population = wheels({0, 1});
  population.classes[1].wheel = io::parse_case(
      "[wheel]\nprofile = \"cone\"\nconicity = 0.05\n[crossing]\nkind = \"joint\"\ndip_angle_mrad = 1\n", "cone", "");
  population.members[1].values.pop_back();
  const auto crossings = designed_and_worn();
  for (std::size_t i = 0; i < 2; ++i) {
    CHECK(study::case_of(crossings, i, population, 0).wheel.shape == crossings[0].document->wheel.shape);
    CHECK(study::case_of(crossings, i, population, 1).wheel.shape == (*population.classes[1].wheel)->wheel.shape);
  }
  auto options = few();
  options.paths = true;
  const auto c = compared(crossings, population, options);
  for (const auto& a : c.crossings) {
    REQUIRE(a.paths.size() == 3);
    CHECK(a.paths[0].reason == "typical of new");
    CHECK(a.paths[1].member == 1);
    CHECK(a.paths[2].reason == "earliest transfer");
    CHECK(a.paths[0].path->station.size() > 1000);
  }
}

TEST_CASE("A cancelled comparison has no answer") {
  std::atomic<bool> stop{true};
  auto options = few();
  options.cancel = &stop;
  CHECK(!study::compare(designed_and_worn(), wheels({0, 1}), options));
}

TEST_CASE("Impossible comparisons are refused with what to do") {
  const auto crossings = designed_and_worn();
  const auto population = wheels({0});
  using Crossings = std::vector<study::ComparedCrossing>;
  CHECK(has(refusal([&] { (void)compared(Crossings{}, population); }), "at least two crossings"));
  CHECK(has(refusal([&] { (void)compared({crossings[0]}, population); }), "at least two crossings"));
  CHECK(has(refusal([&] { (void)compared({crossings[0], crossings[0]}, population); }), "called \"designed\""));
  const study::ComparedCrossing joint{"joint", io::parse_case("base = \"dipped_joint.toml\"\n", "joint", profiles)};
  CHECK(has(refusal([&] { (void)compared({crossings[0], joint}, population); }), "needs crossings"));
  auto misspelt = population;
  misspelt.members[0].values = {{"pasage.speed_km_h", 100.0}};
  CHECK(has(refusal([&] { (void)compared(crossings, misspelt); }), "passage.speed_km_h"));
  auto options = few();
  options.thin_nose = 0.0;
  CHECK_THROWS_AS(compared(crossings, population, options), InputError);
  options = few();
  options.resamples = 10;
  CHECK_THROWS_AS(compared(crossings, population, options), InputError);
}

TEST_CASE("Every key in which compared cases differ beside the crossing is told, and whether that was meant") {
  const std::string more = "[measures]\np2_cut_off_Hz = 90\n[contact]\nyoung_GPa = 190\n"
                           "[wheel]\nradius_mm = 420\n[vehicle]\nunsprung_mass_kg = 700\n";
  const std::vector<study::ComparedCrossing> crossings{demo_crossing("designed", "demo.toml"),
                                                       demo_crossing("other", "demo.toml", more)};
  const auto population = wheels({-2, 1});
  const auto found = [&](const study::CompareOptions& options, FindingKind kind) {
    std::string all;
    for (const Finding& f : compared(crossings, population, options).findings) {
      all += f.kind == kind ? f.what + "\n" : "";
    }
    return all;
  };
  const std::string unlike = found(few(), FindingKind::unlike_cases);
  for (const char* key :
       {"measures.p2_cut_off_Hz", "contact.young_GPa", "wheel.radius_mm", "vehicle.unsprung_mass_kg"}) {
    CAPTURE(key, unlike);
    CHECK(unlike.find(key) != std::string::npos);
  }
  study::CompareOptions meant = few();
  meant.differs_on_purpose = {"measures.p2_cut_off_Hz", "contact.young_GPa", "wheel.radius_mm"};
  const std::string left = found(meant, FindingKind::unlike_cases);
  CHECK(left.find("vehicle.unsprung_mass_kg") != std::string::npos);
  CHECK(left.find("wheel.radius_mm") == std::string::npos);
  CHECK(found(meant, FindingKind::reading).find("on purpose in ") != std::string::npos);
  meant.differs_on_purpose = {"wheel.radius"};
  CHECK(refusal([&] { (void)compared(crossings, population, meant); }).find("wheel.radius_mm") != std::string::npos);
}
