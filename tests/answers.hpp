// Made-up answers with known numbers, small enough to check by eye; nothing is simulated.
#pragma once

#include "damage_cases.hpp"

#include "wingnose/study/compare.hpp"
#include "wingnose/study/damage.hpp"
#include "wingnose/study/run.hpp"

#include <cmath>
#include <limits>
#include <memory>
#include <string>
#include <vector>

namespace answers {

using namespace wingnose;

inline constexpr double nan = std::numeric_limits<double>::quiet_NaN();

inline study::Result run() {
  study::Result r;
  contact::WheelPath path;
  path.station = {-0.1, 0.0, 0.1};
  path.bodies = {{"wing", {0, -1e-3, -2e-3}, {0.7, 0.7, 0.7}, {0, 0, 0}, {0, 0, 0}, {0, 0, 0}, {2, 2, 2}, {3, 3, 3}},
                 {"nose",
                  {-INFINITY, -3e-3, -1e-3},
                  {nan, 0.7, 0.7},
                  {nan, 0, 0},
                  {nan, 0, 0},
                  {nan, 0, 0},
                  {nan, 2, 2},
                  {nan, 3, 3}}};
  path.excitation = "crossing";
  r.geometry.path = std::make_shared<const contact::WheelPath>(path);
  r.geometry.kinematics.transfer_station = 0.05;
  r.geometry.kinematics.dip_angle = 0.0123;
  auto& h = r.history;
  for (int i = 0; i < 3000; ++i) { // long enough to be packed
    h.time.push_back(i * 1e-4);
    h.station.push_back(-1 + i * 1e-3);
    h.force.push_back(90e3 + i);
    h.wheel_height.push_back(0);
    h.wheel_acceleration.push_back(0.1 * i);
    h.rail_deflection.push_back(1e-3);
  }
  h.bodies = {"wing", "nose"};
  h.body_force = {h.force, std::vector<double>(h.force.size(), 0.0)};
  h.events = {{passage::Event::Kind::touch, "nose", 0.1, 0.04}, {passage::Event::Kind::lift_off, "wing", 0.2, 0.06}};
  h.method = "none, made up";
  assess::Measures m{};
  m.landing_body = "nose";
  m.p2 = 123.4e3;
  m.p2_cut_off = 150;
  m.peak_total = 150e3;
  m.minimum_force = nan;
  m.static_load = 90e3;
  r.assessment.kinematics = r.geometry.kinematics;
  r.assessment.measures = m;
  r.assessment.findings = {{FindingKind::rim_contact, "the wing carries the wheel near its rim", "station 40 mm"}};
  return r;
}

inline constexpr int stages = 3;

// One passage, its damage, and a mixed traffic of two wheels of which one failed. c: gives the steel.
inline study::DamageStudy damage(const cases::Case& c) {
  study::DamageStudy s;
  const assess::Steel steel = cases::steel_of(c);
  s.trail = damage_cases::trail(damage_cases::jump(0.0, 0.010, damage_cases::landing), c.damage);
  s.damage = assess::damage(s.trail, steel, c.damage);
  s.assessment.steel = s.damage;
  s.findings = s.damage.findings;
  study::Traffic t;
  t.tonnage = 5e9;
  const std::vector<assess::TrafficWheel> one{{.trail = &s.trail, .wheels = 1.0, .load = damage_cases::load}};
  const auto mix = assess::for_tonnage(one, t.tonnage);
  t.damage = assess::damage_of_traffic(mix, steel, c.damage, stages);
  t.population.classes.emplace_back().name = "new";
  t.population.members = {{"wheel 1", 0, 3.0, {}}, {"wheel 2", 0, 1.0, {}}};
  t.members.resize(2);
  t.members[0].wheels = mix.front().wheels;
  t.members[0].passage.steel = s.damage;
  t.members[0].passage.measures.emplace().static_load = damage_cases::load;
  t.members[1].failure = "the wheel never changes over";
  t.failed = 1;
  t.failed_share = 0.25;
  s.traffic = t;
  return s;
}

// Two crossings, three wheels, the last of which failed on the second crossing. steel: with what the landings do to it.
inline study::Comparison comparison(bool steel = false) {
  study::Comparison c;
  c.options.steel = steel;
  c.population.classes.emplace_back().name = "new";
  for (int i = 0; i < 3; ++i) {
    c.population.members.push_back(
        {"wheel " + std::to_string(i + 1), 0, 1.0, {{"wheel.lateral_offset_mm", static_cast<double>(i)}}});
  }
  c.compared = {true, true, false};
  c.dropped = 1.0 / 3.0;
  c.crossings.resize(2);
  const std::size_t quantities = quantity::compared(steel).size();
  for (std::size_t i = 0; i < 2; ++i) {
    auto& a = c.crossings[i];
    a.name = i == 0 ? "designed" : "worn";
    a.members.resize(3);
    for (std::size_t m = 0; m < 3; ++m) {
      a.members[m].speed = 30.0;
      a.members[m].observed.assign(quantities, 1000.0 * static_cast<double>(i + m + 1));
    }
    a.distributions.resize(quantities);
    auto& d = a.distributions[study::observed("p2_kN", steel)];
    d.count = 2;
    d.mean = 150e3;
    d.quantiles.fill(160e3);
    d.values = {100e3, 200e3};
    d.cumulative = {0.5, 1.0};
    a.envelope = {{0.1}, {1e3}, {2e3}, {3e3}, {4e3}};
    a.nose_load = {{0.02}, {0.022}, {50e3}, {70e3}, {1.0}};
    auto path = std::make_shared<contact::WheelPath>();
    path->station = {0.0, 0.1};
    path->bodies.resize(2);
    path->bodies[0].name = "wing";
    path->bodies[0].height = {0.001, 0.0005};
    path->bodies[1].name = "nose";
    path->bodies[1].height = {-INFINITY, 0.002};
    a.paths.push_back({0, "typical of new", path});
    if (steel) {
      a.steel = "R260";
      a.friction = 0.25;
      a.beyond_shakedown = 0.75;
      a.members[0].observed[study::observed("wear_volume_mm3", true)] = 2e-12;
      a.members[2].observed[study::observed("wear_volume_mm3", true)] = nan;
      a.members[2].findings = {{FindingKind::steel_unknown, "no contact"}};
      a.distributions[study::observed("peak_pressure_MPa", true)].mean = 1.5e9;
    }
  }
  c.crossings[1].members[2].state = assess::ComparedPassage::State::could_not_compute;
  c.crossings[1].members[2].failure = "the wheel leaves the rail";
  c.crossings[1].failed = 1.0 / 3.0;
  c.crossings[1].early = 0.5;
  c.crossings[1].early_members = {1};
  std::vector<PairedRanking> rankings;
  for (const auto& criterion : quantity::criteria(steel)) {
    const PairedRanking ranking{{1.0, 2.0}, {0, 1}, {true}, {1, 2}};
    rankings.push_back(ranking);
    c.differences.push_back({1, study::observed(criterion.of->key, steel), c.rankings.size(), 0.5, {0.25, 0.75}, 1.0});
    c.rankings.push_back({ranking, {1.0, INFINITY}, {1, 2}});
    c.criteria.push_back(criterion);
  }
  c.groups.push_back({assess::WheelGroup::Kind::load, "wheel loads up to 80 kN", {0}, 0.5, rankings, {}});
  c.groups.back().flips.assign(c.rankings.size(), false);
  c.findings = {{FindingKind::early_transfer, "one wheel transfers early", "on \"worn\""}};
  c.inputs = {{"crossing worn: case", "worn.toml", std::string(64, 'a')}};
  return c;
}

} // namespace answers
