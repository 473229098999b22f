// Finer maps and finer cells: totals stay, depths settle.
#include "catch.hpp"
#include "damage_cases.hpp"

#include <cmath>
#include <numbers>
#include <vector>

using namespace wingnose;
using namespace wingnose::assess;
using namespace damage_cases;

TEST_CASE("Finer maps keep the totals of energy and wear, and the area that was loaded settles") {
  const auto t = trail(jump(0.030, -0.010, landing));
  std::vector<double> area;
  const Damage usual = damage(t, steel("R260"), {});
  for (const double refine : {1.0, 2.0, 4.0}) {
    DamageOptions options;
    options.spacing_x /= refine;
    options.spacing_y /= refine;
    const Damage d = damage(t, steel("R260"), options);
    CHECK(d.wear_volume * 1e9 == Approx(usual.wear_volume * 1e9).epsilon(1e-12));
    CHECK(total(d, &DamageMap::wear_depth) * 1e9 == Approx(usual.wear_volume * 1e9).epsilon(1e-9));
    CHECK(total(d, &DamageMap::friction_energy) == Approx(usual.friction_energy).epsilon(1e-9));
    area.push_back(total(d, &DamageMap::wheels));
  }
  // A staircase of nodes along the edge of the loaded band: the error falls with the spacing, if not smoothly.
  double exact = 0.0;
  for (std::size_t i = 0; i < t.steps.size(); ++i) {
    const RollingStep& s = t.steps[i];
    const bool first = i == 0 || t.steps[i - 1].body != s.body;
    const bool last = i + 1 == t.steps.size() || t.steps[i + 1].body != s.body;
    exact += last ? 0.0 : 2.0 * s.patch.a_y * speed * step;
    exact += first || last ? 0.5 * std::numbers::pi * s.patch.a_x * s.patch.a_y : 0.0; // half an ellipse at each end
  }
  for (std::size_t i = 0; i < area.size(); ++i) {
    CHECK(area[i] == Approx(exact).epsilon(0.06 / std::pow(2.0, static_cast<double>(i)) + 0.01));
  }
}

TEST_CASE("More strips and cells change the friction energy by less and less") {
  std::vector<double> energy;
  for (const int cells : {10, 20, 40, 80}) {
    DamageOptions options;
    options.strips = options.cells = cells;
    energy.push_back(damage(trail(jump(0.030, -0.010, landing), options), steel("R260"), options).friction_energy);
  }
  const double coarse = std::abs(energy[1] - energy[3]), fine = std::abs(energy[2] - energy[3]);
  CHECK(fine < 0.6 * coarse);
  CHECK(coarse < 0.01 * energy[3]);
}

TEST_CASE("Twice the step of the history moves friction energy and wear by less than 3 %") {
  const auto p = jump(0.030, -0.010, landing);
  auto coarse = p;
  passage::History& h = coarse.history;
  h.step *= 2.0;
  const auto thin = [](std::vector<double>& v) {
    std::vector<double> kept;
    for (std::size_t i = 0; i < v.size(); i += 2) {
      kept.push_back(v[i]);
    }
    v = kept;
  };
  thin(h.time);
  thin(h.station);
  thin(h.force);
  for (auto& f : h.body_force) {
    thin(f);
  }
  const Damage one = damage(trail(p), steel("R260"), {}), two = damage(trail(coarse), steel("R260"), {});
  CHECK(two.friction_energy == Approx(one.friction_energy).epsilon(0.03));
  CHECK(two.wear_volume * 1e9 == Approx(one.wear_volume * 1e9).epsilon(0.03));
}
