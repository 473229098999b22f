// A constant load that moves along a beam on elastic foundation (Fryba 1972), by the track model with fine seats.
#include "passage_cases.hpp"
#include "scoreboard.hpp"

#include <cmath>
#include <numeric>
#include <string>
#include <vector>

using namespace wingnose;

TEST_CASE("A moving constant load deflects the track by the static value over the root of 1 - (v / critical)^2") {
  // A slender beam (characteristic length 42 cm) on seats every 15 cm with pads that do not give, stiff in shear and
  // without rotary inertia: Euler's beam on Winkler's foundation but for the spacing. Undamped, so the load has to grow
  // slowly, over 25 m, or the track would ring.
  track::Track t;
  t.rail = {6.38e6 / 16.0, 1e11, 60.21, 0.0};
  t.spacing = 0.15;
  t.bays = 360;
  t.elements_per_bay = 1;
  t.cut_off = 1500.0;
  constexpr double k = 50e6; // N/m2
  t.seat = {1e11, 0.0, 0.0, 0.01, k * 0.15, 0.0, 0.0};
  const auto table = passage::step_table(track::modal_track(t), 4e-5);
  const double mass = t.rail.rho_A + t.seat.bearer_mass / t.spacing;
  const double critical = std::pow(4.0 * k * t.rail.EI / (mass * mass), 0.25);
  const double length = std::pow(4.0 * t.rail.EI / k, 0.25), still = 100e3 / (2.0 * k * length);
  struct Row {
    double ratio, factor;
  };
  for (const Row& row : {Row{0.25, 1.03280}, Row{0.5, 1.15470}, Row{0.75, 1.51186}}) {
    const double v = row.ratio * critical, begin = -26.5;
    const auto load = [&](double time) {
      const double u = std::min(1.0, v * time / 25.0);
      return 100e3 * u * u * u * (10.0 - 15.0 * u + 6.0 * u * u);
    };
    const int steps = static_cast<int>(48.0 / (v * table->step));
    const auto w = passage::moving_load(*table, load, begin, v, steps);
    // Mean over the last 15 m before the end is near: what the load's growth has set swinging averages out.
    const auto tail = w.end() - static_cast<std::ptrdiff_t>(15.0 / (v * table->step));
    const double mean = std::accumulate(tail, w.end(), 0.0) / static_cast<double>(w.end() - tail);
    const auto [low, high] = std::minmax_element(tail, w.end());
    CAPTURE(*low / still, *high / still);
    CHECK(*high - *low < 0.03 * mean);
    // Tolerance: seats at a finite spacing and what is left of the transient; the digits of the factor are good to
    // 1e-5.
    score("moving load at " + scoreboard::number(row.ratio, "%.2f") + " of the critical speed, factor on deflection, -",
          mean / still, row.factor, 3e-3,
          {Trust::worked, "formula of Fryba 1972, recalled (high), verified by Fourier integral, evaluated"});
  }
}
