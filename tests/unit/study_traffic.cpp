// A mixed traffic over one crossing: the same as its wheels one by one, failures told, stopped when asked.
#include "catch.hpp"

#include "wingnose/study/steel_damage.hpp"
#include "wingnose/study/traffic.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <filesystem>
#include <functional>
#include <numeric>
#include <string>
#include <vector>

using namespace wingnose;

namespace {

const std::filesystem::path profiles = std::filesystem::path(WINGNOSE_SOURCE_DIR) / "profiles";

// The demo crossing under a track that is quick to make.
io::CaseDocument quick() {
  return io::parse_case_document("base = \"demo.toml\"\n[passage]\nfrom_m = -1.5\nto_m = 2\n", "quick", profiles);
}

study::Population wheels(const std::vector<std::pair<double, double>>& offsets_and_weights) {
  study::Population p;
  p.classes.emplace_back().name = "new";
  for (const auto& [offset, weight] : offsets_and_weights) {
    p.members.push_back(
        {"wheel " + std::to_string(p.members.size() + 1), 0, weight, {{"wheel.lateral_offset_mm", offset}}});
  }
  return p;
}

std::string refusal(const std::function<void()>& work) {
  try {
    work();
  } catch (const std::runtime_error& error) {
    return error.what();
  }
  return "accepted";
}
bool has(const std::string& text, const std::string& piece) { return text.find(piece) != std::string::npos; }

} // namespace

TEST_CASE("A traffic of one wheel is the damage of that wheel as often as it comes") {
  const io::CaseDocument document = quick();
  study::TrafficOptions options;
  options.tonnage = 3e9;
  options.stages = 2;
  options.steel = assess::steel("Mn");
  const auto t = study::traffic(document, wheels({{0.0, 1.0}}), options);
  REQUIRE(t);
  const study::Result result = study::run(document.base());
  const assess::ContactTrail trail = study::contact_trail(document.base(), result);
  const std::vector<assess::TrafficWheel> one{{.trail = &trail, .wheels = 1.0, .load = result.history.static_load}};
  const auto alone =
      assess::damage_of_traffic(assess::for_tonnage(one, 3e9), *options.steel, document.base().damage, 2);
  // Histories of many agree with one alone to the rounding of the passage.
  CHECK(t->damage.wheels == Approx(alone.wheels));
  CHECK(t->damage.friction_energy == Approx(alone.friction_energy).epsilon(1e-6));
  CHECK(t->damage.stages.back().shakedown == Approx(alone.stages.back().shakedown).epsilon(1e-6));
  CHECK(t->members.front().wheels == Approx(t->damage.wheels));
  CHECK(t->members.front().friction_energy * t->damage.wheels == Approx(t->damage.friction_energy));
  CHECK(t->failed == 0);
}

TEST_CASE("Wheels of a traffic come in the proportion of their weights and weigh its tonnage, whatever the threads") {
  const io::CaseDocument document = quick();
  study::TrafficOptions options;
  options.tonnage = 1e9;
  options.stages = 1;
  options.threads = 1;
  options.passages_per_chunk = 2;
  std::size_t told = 0, last = 0, total = 0;
  options.progress = [&](std::size_t done, std::size_t of) {
    ++told;
    CHECK(done >= last);
    last = done;
    total = of;
  };
  const auto mix = wheels({{-2.0, 1.0}, {0.0, 2.0}, {2.0, 4.0}});
  const auto one = study::traffic(document, mix, options);
  REQUIRE(one);
  CHECK(told > 0);
  CHECK(last == total);
  double mass = 0.0;
  for (const auto& m : one->members) {
    mass += m.wheels * 2.0 * m.static_load / gravity;
  }
  CHECK(mass == Approx(1e9));
  CHECK(one->members[2].wheels == Approx(4.0 * one->members[0].wheels));
  const auto worst = std::max_element(one->members.begin(), one->members.end(),
                                      [](const auto& a, const auto& b) { return a.shakedown < b.shakedown; });
  const std::string name = one->population.members[static_cast<std::size_t>(worst - one->members.begin())].name;
  CHECK(has(one->damage.notes.back(), "is that of " + name));
  options.threads = 2;
  options.passages_per_chunk = 32;
  options.progress = {};
  const auto two = study::traffic(document, mix, options);
  REQUIRE(two);
  CHECK(two->damage.friction_energy == one->damage.friction_energy);
  CHECK(two->damage.maps.back().wear_depth == one->damage.maps.back().wear_depth);
}

TEST_CASE("Wheels that cannot be computed are counted and named, and the others carry the tonnage") {
  const io::CaseDocument document = quick();
  study::TrafficOptions options;
  options.tonnage = 1e9;
  options.stages = 1;
  const auto t = study::traffic(document, wheels({{0.0, 3.0}, {1000.0, 1.0}}), options);
  REQUIRE(t);
  CHECK(t->failed == 1);
  CHECK(t->failed_share == Approx(0.25));
  CHECK(t->members[1].wheels == 0.0);
  CHECK(!t->members[1].failure.empty());
  CHECK(t->members[0].wheels * 2.0 * t->members[0].static_load / gravity == Approx(1e9));
  const auto& notes = t->damage.notes;
  CHECK(std::any_of(notes.begin(), notes.end(),
                    [](const auto& note) { return has(note, "1 of 2 wheels") && has(note, "wheel 2"); }));
  CHECK(has(refusal([&] { (void)study::traffic(document, wheels({{1000.0, 1.0}}), options); }), "no wheel"));
  CHECK(has(refusal([&] {
              (void)study::traffic(document, wheels({{0.0, 0.0}, {1000.0, 1.0}}), options);
            }),
            "no wheel"));
}

TEST_CASE("A traffic is stopped when asked") {
  const std::atomic<bool> stop{true};
  study::TrafficOptions options;
  options.cancel = &stop;
  CHECK(!study::traffic(quick(), wheels({{0.0, 1.0}}), options));
  std::atomic<bool> later{false};
  options.cancel = &later;
  options.progress = [&](std::size_t done, std::size_t) { later = done >= 2; };
  CHECK(!study::traffic(quick(), wheels({{0.0, 1.0}, {1.0, 1.0}, {2.0, 1.0}}), options));
}

TEST_CASE("A traffic without meaning is refused before anything rolls") {
  const auto refused = [](const io::CaseDocument& document, const study::Population& p,
                          const study::TrafficOptions& options) {
    return refusal([&] { (void)study::traffic(document, p, options); });
  };
  const auto good = wheels({{0.0, 1.0}});
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
  CHECK(has(refused(io::read_case_document(profiles / "dipped_joint.toml"), good, options), "joint"));
}
