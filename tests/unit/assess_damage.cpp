// Damage of made-up passages: where it sits, how traffic hardens the steel, what is refused.
#include "catch.hpp"
#include "damage_cases.hpp"

#include "wingnose/assess/damage_along.hpp"
#include "wingnose/assess/damage_traffic.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <string>
#include <vector>

using namespace wingnose;
using namespace wingnose::assess;
using namespace damage_cases;

namespace {

std::string refusal(const std::function<void()>& work) {
  try {
    work();
  } catch (const InputError& error) {
    return error.what();
  }
  return "accepted";
}
bool has(const std::string& text, const std::string& piece) { return text.find(piece) != std::string::npos; }

} // namespace

TEST_CASE("The landing damages the nose where the wheel lands, and the maps show it there") {
  const Damage d = damage(trail(jump(0.030, -0.010, landing)), steel("R260"), {});
  CHECK(d.peak_pressure.body == "nose");
  CHECK(d.peak_pressure.x == Approx(0.05).margin(speed * step));
  CHECK(d.peak_pressure.y == Approx(0.74));
  CHECK(d.t_gamma.body == "nose"); // the wheel slides where its rolling radius has jumped
  CHECK(d.t_gamma.x < 0.06);
  CHECK(d.wear_depth.body == "nose");
  REQUIRE(d.maps.size() == 2);
  const DamageMap& nose = d.maps[1];
  const double seen = *std::max_element(nose.peak_pressure.begin(), nose.peak_pressure.end());
  CHECK(seen <= d.peak_pressure.value);
  CHECK(seen > 0.99 * d.peak_pressure.value);
  CHECK(nearest(nose.grid, nose.wheels, 0.05, 0.74) == 1.0);
  CHECK(nearest(nose.grid, nose.wheels, 0.05, 0.76) == 0.0);
  // Rolling freely on the wing does no harm.
  CHECK(integral(d.maps[0].grid, d.maps[0].friction_energy) < 1e-3 * d.friction_energy);
}

TEST_CASE("The shakedown exceedance and the fatigue index of a steady load are those of the formulas") {
  const auto t = trail(jump(0.0, 0.0, [](double) { return load; }));
  const Steel s = steel("R260");
  const Damage d = damage(t, s, {});
  const auto patch = contact::hertz_patch(load, 1.0 / 0.46, 1.0 / 0.30);
  CHECK(d.load_factor.value == Approx(patch.peak_pressure / shear_yield(s)).epsilon(1e-9));
  CHECK(d.creep_force.value == Approx(0.0).margin(1e-6 * load));
  CHECK(d.shakedown.value == Approx(patch.peak_pressure / shear_yield(s) / 4.0).epsilon(1e-6));
  CHECK(d.fatigue_index.value == Approx(-shear_yield(s) / patch.peak_pressure).epsilon(1e-6));
}

namespace {

DamageOptions worn_to(double limit) {
  DamageOptions options;
  options.wear_depth_limit = limit;
  return options;
}

} // namespace

TEST_CASE("Manganese steel hardens under traffic: less beyond shakedown and less wear in later stages") {
  const auto t = trail(jump(0.030, -0.010, landing));
  const std::vector<TrafficWheel> mix{{&t, 200e3, load}};
  const TrafficDamage d = damage_of_traffic(mix, steel("Mn"), worn_to(1.0), 5);
  REQUIRE(d.stages.size() == 5);
  for (std::size_t i = 1; i < 5; ++i) {
    CHECK(d.stages[i].shear_yield > d.stages[i - 1].shear_yield);
    CHECK(d.stages[i].shakedown < d.stages[i - 1].shakedown);
    CHECK(d.stages[i].wear_depth > d.stages[i - 1].wear_depth);
  }
  CHECK(d.stages[1].shear_yield == Approx(shear_yield(steel("Mn"), 40e3)).epsilon(1e-9));
  CHECK(d.wear_volume < 200e3 * damage(t, steel("Mn"), {}).wear_volume);
}

TEST_CASE("Wear stops being told where it would change the shape, and up to which wheel it holds is said") {
  const auto t = trail(jump(0.030, -0.010, landing));
  const std::vector<TrafficWheel> mix{{&t, 200e3, load}};
  const auto deepest = [](const TrafficDamage& d) {
    double most = 0.0;
    for (const DamageMap& map : d.maps) {
      most = std::max(most, *std::max_element(map.wear_depth.begin(), map.wear_depth.end()));
    }
    return most;
  };
  const TrafficDamage free = damage_of_traffic(mix, steel("R350HT"), worn_to(1.0), 4);
  CHECK(free.wear_wheels == free.wheels);
  CHECK(free.findings.empty());
  const double limit = 0.6 * deepest(free); // reached within the third of four stages
  const TrafficDamage d = damage_of_traffic(mix, steel("R350HT"), worn_to(limit), 4);
  CHECK(deepest(d) == Approx(limit).epsilon(1e-9));
  CHECK(d.wear_wheels == Approx(0.6 * 200e3).epsilon(1e-9)); // this steel does not harden: wear is a straight line
  CHECK(d.wear_volume == Approx(0.6 * free.wear_volume).epsilon(1e-9));
  CHECK(d.wheels == free.wheels);
  CHECK(d.friction_energy == free.friction_energy);
  CHECK(d.stages[3].wear_depth == d.stages[2].wear_depth);
  REQUIRE(d.findings.size() == 1);
  CHECK(d.findings[0].kind == FindingKind::wear_changes_shape);
  CHECK(d.findings[0].what.find("60 %") != std::string::npos);
}

TEST_CASE("One million gross tonnes of 90 kN wheels are 54 500 axles") {
  const auto t = trail(jump(0.0, 0.0, [](double) { return load; }));
  const std::vector<TrafficWheel> mix{{&t, 1.0, load}};
  const auto scaled = for_tonnage(mix, 1e9);
  CHECK(scaled[0].wheels == Approx(54500.0).epsilon(1e-12)); // 1e9 kg * 9.81 m/s2 / 180 kN
}

TEST_CASE("A sharp nose stretches the half-space, and the findings say where") {
  auto p = jump(0.030, -0.010, landing);
  std::fill(p.path.bodies[1].curvature_y.begin(), p.path.bodies[1].curvature_y.end(), 1.0 / 0.006);
  const Damage d = damage(trail(p), steel("Mn"), {});
  CHECK(d.change_of_angle.value > 0.15);
  const auto stretched = [](const Finding& f) { return f.kind == FindingKind::theory_stretched; };
  const auto found = std::find_if(d.findings.begin(), d.findings.end(), stretched);
  REQUIRE(found != d.findings.end());
  CHECK(has(found->where, "nose"));
  const Damage wide = damage(trail(jump(0.030, -0.010, landing)), steel("Mn"), {});
  CHECK(std::none_of(wide.findings.begin(), wide.findings.end(), stretched));
}

TEST_CASE("Damage refuses options, histories and traffic without meaning") {
  const auto p = jump(0.030, -0.010, landing);
  const auto with = [&p](auto change) {
    return refusal([&] {
      DamageOptions o;
      change(o);
      (void)trail(p, o);
    });
  };
  CHECK(has(with([](DamageOptions& o) { o.friction = -0.1; }), "friction:"));
  CHECK(has(with([](DamageOptions& o) { o.friction = std::nan(""); }), "friction:"));
  CHECK(has(with([](DamageOptions& o) { o.spin_inertia = 0.0; }), "spin_inertia:"));
  CHECK(has(with([](DamageOptions& o) { o.after = 0.0; }), "after:"));
  CHECK(has(with([](DamageOptions& o) { o.spacing_x = 0.0; }), "map_x:"));
  CHECK(has(with([](DamageOptions& o) { o.strips = 2; }), "strips"));
  auto renamed = p;
  renamed.history.bodies[1] = "frog";
  CHECK(has(refusal([&] { (void)trail(renamed); }), "bodies"));
  CHECK_THROWS_AS(contact_trail(p.history, p.path, profile::cone(0.05), 50.0, {}, {}), ComputeError);

  const auto t = trail(p);
  const std::vector<TrafficWheel> none{{&t, 0.0, load}}, negative{{&t, -1.0, load}}, weightless{{&t, 1.0, 0.0}};
  const Steel s;
  CHECK(has(refusal([&] { (void)damage_of_traffic(none, s, {}); }), "above 0"));
  CHECK(has(refusal([&] { (void)damage_of_traffic(negative, s, {}); }), "0 or more"));
  CHECK(has(refusal([&] { (void)damage_of_traffic({}, s, {}); }), "above 0"));
  CHECK(has(refusal([&] { (void)for_tonnage(weightless, 1e9); }), "static load"));
  CHECK(has(refusal([&] { (void)for_tonnage(negative, 1e9); }), "0 or more"));
  const std::vector<TrafficWheel> good{{&t, 1.0, load}};
  CHECK(has(refusal([&] { (void)for_tonnage(good, 0.0); }), "tonnage"));
  CHECK(has(refusal([&] { (void)damage_of_traffic(good, s, {}, 0); }), "stages"));
}

TEST_CASE("Damage maps of other spacings are refused, of other extents joined") {
  const Grid fine{.spacing_x = 0.001, .spacing_y = 0.001, .first_x = 0, .first_y = 0, .count_x = 3, .count_y = 2};
  Grid coarse = fine;
  coarse.spacing_x = 0.002;
  CHECK(has(refusal([&] { (void)union_of(fine, coarse); }), "equal spacings"));
  Grid aside = fine;
  aside.first_x = 5;
  aside.first_y = -4;
  DamageMap sum = empty_map("nose", fine), other = empty_map("nose", aside);
  sum.wheels[0] = 1.0;
  other.wheels[3] = 2.0;
  add(sum, other, 10.0);
  CHECK(sum.grid.count_x == 8);
  CHECK(sum.grid.count_y == 6);
  CHECK(nearest(sum.grid, sum.wheels, 0.0, 0.0) == 1.0);
  CHECK(nearest(sum.grid, sum.wheels, 0.006, -0.003) == 20.0);
  CHECK(integral(sum.grid, sum.wheels) == Approx(21.0e-6));
  CHECK(has(refusal([&] { add(sum, other, -1.0); }), "weight"));
  CHECK(has(refusal([&] { (void)grid_around(1e-4, 1e-5, -50.0, 50.0, 0.0, 0.1); }), "nodes"));
}

TEST_CASE(
    "Contact by contact, the largest values are the peaks, and several stages at once are the stages one by one") {
  const ContactTrail passed = trail(jump(0.0, 0.010, landing));
  const Steel mn = steel("Mn");
  const DamageOptions options;
  std::vector<DamageMap> rolled = loaded_places(passed, options);
  const Damage fresh = damage(passed, mn, options);
  for (std::size_t b = 0; b < rolled.size(); ++b) {
    CHECK(rolled[b].wheels == fresh.maps[b].wheels);
    for (double& wheels : rolled[b].wheels) {
      wheels *= 1e5;
    }
  }
  double most = 0.0;
  for (const auto& at : steel_along(passed, mn, options)) {
    most = std::max(most, at.shakedown);
  }
  CHECK(most == fresh.shakedown.value);
  constexpr std::array shares{0.0, 0.5, 1.0};
  const auto stages = damage_after(passed, mn, options, &rolled, shares);
  REQUIRE(stages.size() == shares.size());
  CHECK(stages[0].wear_volume == fresh.wear_volume);
  CHECK(stages[2].wear_volume == damage(passed, mn, options, &rolled).wear_volume);
  CHECK(stages[1].shakedown.value < stages[0].shakedown.value);
  CHECK(stages[2].shakedown.value < stages[1].shakedown.value);
  CHECK(stages[1].friction_energy == fresh.friction_energy); // sliding does not depend on the steel
}

TEST_CASE("A patch narrower than the spacing of the maps is counted and hardens the steel all the same") {
  DamageOptions wide;
  wide.spacing_x = 0.1;
  wide.spacing_y = 0.05;
  const ContactTrail passed = trail(jump(0.0, 0.010, landing), wide);
  const std::vector<DamageMap> rolled = loaded_places(passed, wide);
  for (const RollingStep& s : passed.steps) {
    CHECK(nearest(rolled[s.body].grid, rolled[s.body].wheels, s.x, s.y) == 1.0);
  }
  const std::vector<TrafficWheel> many{{.trail = &passed, .wheels = 1e6}};
  const TrafficDamage t = damage_of_traffic(many, steel("Mn"), wide, 2);
  CHECK(t.stages.back().shakedown < t.stages.front().shakedown);
}
