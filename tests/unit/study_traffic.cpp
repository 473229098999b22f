// A mixed traffic over one crossing: the same as its wheels one by one, failures told, stopped when asked.
#include "catch.hpp"
#include "folder.hpp"
#include "said.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/study/steel.hpp"
#include "wingnose/study/traffic.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <numeric>
#include <string>
#include <vector>

using namespace wingnose;
using said::has;
using said::refusal;
using said::says;

namespace {

// The demo crossing under a track that is quick to make.
cases::Document quick(const std::string& more = "") {
  return io::parse_case("base = \"demo.toml\"\n[passage]\nfrom_m = -1.5\nto_m = 2\n" + more, "quick", profiles);
}

cases::Population wheels_at(const std::vector<std::pair<double, double>>& offsets_and_weights) {
  cases::Population p;
  p.classes.emplace_back().name = "new";
  for (const auto& [offset, weight] : offsets_and_weights) {
    p.members.push_back(
        {"wheel " + std::to_string(p.members.size() + 1), 0, weight, {{"wheel.lateral_offset_mm", offset}}});
  }
  return p;
}

} // namespace

TEST_CASE("A traffic of one wheel is the damage of that wheel as often as it comes") {
  const cases::Document document = quick("[damage]\nsteel = \"Mn\"\n");
  study::TrafficOptions options;
  options.tonnage = 3e9;
  options.stages = 2;
  const auto t = study::traffic(document, wheels_at({{0.0, 1.0}}), options);
  REQUIRE(t);
  const study::Result result = study::run(document.base());
  const assess::ContactTrail trail = study::contact_trail(document.base(), result.geometry, result.history);
  const std::vector<assess::TrafficWheel> one{{.trail = &trail, .wheels = 1.0, .load = result.history.static_load}};
  const auto alone = assess::damage_of_traffic(assess::for_tonnage(one, 3e9), cases::steel_of(document.base()),
                                               document.base().damage, 2);
  // Histories of many agree with one alone to the rounding of the passage.
  CHECK(t->damage.wheels == Approx(alone.wheels));
  CHECK(t->damage.friction_energy == Approx(alone.friction_energy).epsilon(1e-6));
  CHECK(t->damage.stages.back().shakedown == Approx(alone.stages.back().shakedown).epsilon(1e-6));
  CHECK(t->members.front().wheels == Approx(t->damage.wheels));
  CHECK(t->members.front().passage.steel->friction_energy * t->damage.wheels == Approx(t->damage.friction_energy));
  CHECK(t->failed == 0);
}

TEST_CASE("Wheels of a traffic come in the proportion of their weights and weigh its tonnage, whatever the threads") {
  const cases::Document document = quick();
  study::TrafficOptions options;
  options.tonnage = 1e9;
  options.stages = 1;
  options.threads = 1;
  std::size_t told = 0, last = 0, total = 0;
  options.progress = [&](std::size_t done, std::size_t of) {
    ++told;
    CHECK(done >= last);
    last = done;
    total = of;
  };
  const auto mix = wheels_at({{-2.0, 1.0}, {0.0, 2.0}, {2.0, 4.0}});
  const auto one = study::traffic(document, mix, options);
  REQUIRE(one);
  CHECK(told > 0);
  CHECK(last == total);
  double mass = 0.0;
  for (const auto& m : one->members) {
    mass += m.wheels * 2.0 * m.passage.measures->static_load / gravity;
  }
  CHECK(mass == Approx(1e9));
  CHECK(one->members[2].wheels == Approx(4.0 * one->members[0].wheels));
  const auto worst = std::max_element(one->members.begin(), one->members.end(),
                                      [](const study::TrafficMember& a, const study::TrafficMember& b) {
                                        return a.passage.steel->shakedown.value < b.passage.steel->shakedown.value;
                                      });
  const std::string name = one->population.members[static_cast<std::size_t>(worst - one->members.begin())].name;
  CHECK(says(said::of_kind(one->damage.findings, FindingKind::reading), "is that of " + name));
  options.threads = 2;
  options.progress = {};
  const auto two = study::traffic(document, mix, options);
  REQUIRE(two);
  CHECK(two->damage.friction_energy == one->damage.friction_energy);
  CHECK(two->damage.maps.back().wear_depth == one->damage.maps.back().wear_depth);
}

TEST_CASE("Wheels that cannot be computed are counted and named, and the others carry the tonnage") {
  const cases::Document document = quick();
  study::TrafficOptions options;
  options.tonnage = 1e9;
  options.stages = 1;
  const auto t = study::traffic(document, wheels_at({{0.0, 3.0}, {1000.0, 1.0}}), options);
  REQUIRE(t);
  CHECK(t->failed == 1);
  CHECK(t->failed_share == Approx(0.25));
  CHECK(t->members[1].wheels == 0.0);
  CHECK(!t->members[1].failure.empty());
  CHECK(t->members[0].wheels * 2.0 * t->members[0].passage.measures->static_load / gravity == Approx(1e9));
  const Findings failures = said::of_kind(t->damage.findings, FindingKind::not_computed);
  REQUIRE(failures.size() == 1);
  CHECK(has(sentence(failures.front()), "1 of 2 wheels"));
  CHECK(has(sentence(failures.front()), "wheel 2"));
  CHECK(has(refusal([&] { (void)study::traffic(document, wheels_at({{1000.0, 1.0}}), options); }), "no wheel"));
  CHECK(has(refusal([&] {
              (void)study::traffic(document, wheels_at({{0.0, 0.0}, {1000.0, 1.0}}), options);
            }),
            "no wheel"));
}

TEST_CASE("A traffic is stopped when asked") {
  const std::atomic<bool> stop{true};
  study::TrafficOptions options;
  options.cancel = &stop;
  CHECK(!study::traffic(quick(), wheels_at({{0.0, 1.0}}), options));
  std::atomic<bool> later{false};
  options.cancel = &later;
  options.progress = [&](std::size_t done, std::size_t) { later = done >= 2; };
  CHECK(!study::traffic(quick(), wheels_at({{0.0, 1.0}, {1.0, 1.0}, {2.0, 1.0}}), options));
}

TEST_CASE("A traffic without meaning is refused before anything rolls") {
  const auto refused = [](const cases::Document& document, const cases::Population& p,
                          const study::TrafficOptions& options) {
    return refusal([&] { (void)study::traffic(document, p, options); });
  };
  const auto good = wheels_at({{0.0, 1.0}});
  study::TrafficOptions options;
  options.tonnage = -1e9;
  CHECK(has(refused(quick(), good, options), "-1 MGT"));
  options.tonnage = 1e9;
  options.stages = 0;
  CHECK(has(refused(quick(), good, options), "1 to 1000"));
  options.stages = 1;
  CHECK(has(refused(quick(), {}, options), "wheel"));
  auto misspelt = good;
  misspelt.members.front().values = {{"passage.sped_km_h", 80.0}};
  CHECK(has(refused(quick(), misspelt, options), "speed_km_h"));
  auto friction = good;
  friction.members.front().values = {{"damage.friction", 0.2}};
  CHECK(has(refused(quick(), friction, options), "cannot vary"));
  CHECK(has(refused(io::read_case(profiles / "dipped_joint.toml"), good, options), "joint"));
}
