// The discrete track model against values worked from continuous beams.
#include "scoreboard.hpp"

#include "wingnose/track/modal.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <limits>
#include <numbers>
#include <string>
#include <vector>

using namespace wingnose::track;

namespace {

// Rail whose ends and seats cannot move vertically and whose seats offer no rotation: modes of a continuous beam.
Track on_rigid_supports(const RailProperties& rail, double spacing, int bays) {
  Track t;
  t.rail = rail;
  t.spacing = spacing;
  t.bays = bays;
  t.cut_off = 3000.0;
  t.seat.pad_stiffness = t.seat.ballast_stiffness = 1e15;
  t.seat.pad_damping = t.seat.ballast_damping = 0.0;
  t.seat.bearer_mass = 1.0;
  return t;
}

double lowest_frequency(const Track& t) {
  const auto m = modal_track(t);
  double lowest = std::numeric_limits<double>::infinity();
  for (int k = 0; k < m->modes; ++k) {
    lowest = std::min(lowest, m->lambda_im[static_cast<std::size_t>(k)]);
  }
  return lowest / (2.0 * std::numbers::pi);
}

Track wu_thompson() {
  Track t;
  const double G = 210e9 / (2.0 * (1.0 + 0.3));
  t.rail = {6.4e6, 0.40 * G * 76.7e-4, 60.0,
            7850.0 * 6.4e6 / 210e9}; // section area of 60E1, which the set does not name
  t.rail_loss = 0.01;
  t.seat = {350e6, 0.0, 0.25, 162.0, 50e6, 0.0, 1.0};
  t.bays = 120;
  return t;
}

} // namespace

TEST_CASE("A rail on rigid supports vibrates pinned-pinned at the frequency of the Timoshenko beam") {
  const Source source{Trust::worked, "lower root of the Timoshenko beam, one half wave per bay"};
  struct Row {
    const char* name;
    double area, inertia, mass, spacing, kappa, frequency; // m2, m4, kg/m, m, -, Hz
  };
  for (const auto& row : {Row{"60E1 at 60 cm", 76.7e-4, 3038.3e-8, 60.21, 0.60, 0.40, 1067.3},
                          Row{"60E1 at 60 cm, kappa 0.34", 76.7e-4, 3038.3e-8, 60.21, 0.60, 0.34, 1032.8},
                          Row{"60E1 at 65 cm", 76.7e-4, 3038.3e-8, 60.21, 0.65, 0.40, 939.2},
                          Row{"56E1 at 60 cm", 71.69e-4, 2321.0e-8, 56.3, 0.60, 0.40, 1004.2},
                          Row{"54E1 at 60 cm", 69.77e-4, 2337.9e-8, 54.77, 0.60, 0.40, 1015.2}}) {
    // Bar of the project: 0.5 %. Eight elements per bay allow far less; the digits of the table are good to 5e-5.
    score(std::string("finite elements, pinned-pinned ") + row.name + ", Hz",
          lowest_frequency(on_rigid_supports(steel_rail(row.area, row.inertia, row.mass, row.kappa), row.spacing, 6)),
          row.frequency, 2e-4, source);
  }
  // Literature band for this rail and spacing: Grassie and others 1982, Knothe and Grassie 1993 (memory, high).
  const double f = lowest_frequency(on_rigid_supports(Track{}.rail, 0.6, 6));
  CHECK(f > 1050.0);
  CHECK(f < 1090.0);
}

TEST_CASE("Closely spaced seats under a shear-stiff rail deflect like Zimmermann's beam to 0.1 %") {
  struct Row {
    double k, w0; // N/m2, m under 100 kN
  };
  for (const auto& row : {Row{25e6, 1.9897e-3}, Row{50e6, 1.1831e-3}, Row{100e6, 0.7035e-3}}) {
    Track t;
    t.rail.EI = 210e9 * 3038.3e-8;
    t.rail.kappa_GA = 1e15;
    t.spacing = 0.05;
    t.bays = 400;
    t.elements_per_bay = 1;
    t.seat.pad_stiffness = 1e12;
    t.seat.ballast_stiffness = row.k * t.spacing;
    const auto a = assemble(t);
    const std::array<double, 1> under{0.0};
    score("finite elements, 60E1 on " + std::to_string(static_cast<int>(row.k * 1e-6)) +
              " MN/m2: deflection under 100 kN, mm",
          1e3 * static_deflection(a, 100e3, 0.0, under)[0], 1e3 * row.w0, 1e-3,
          {Trust::worked, "formulas of Zimmermann 1888 evaluated apart"});
    // Away from the load: e^(-bx) (cos bx + sin bx) of the peak.
    const double b = std::pow(row.k / (4.0 * t.rail.EI), 0.25);
    const std::array<double, 3> away{0.4, -1.0, 1.63};
    const auto w = static_deflection(a, 100e3, 0.0, away);
    for (std::size_t i = 0; i < away.size(); ++i) {
      const double bx = b * std::abs(away[i]);
      CHECK(w[i] == Approx(row.w0 * std::exp(-bx) * (std::cos(bx) + std::sin(bx))).margin(1e-3 * row.w0));
    }
  }
}

TEST_CASE("Point receptance of the Wu and Thompson track matches the landmark table to 1 % from 50 to 800 Hz") {
  // Magnitudes (m/N) and phases (degrees) of an infinite Timoshenko beam on 121 discrete supports, worked
  // apart with the parameters of Wu and Thompson 1999 (recalled, high).
  struct Row {
    double f, mid, mid_phase, seat, seat_phase;
  };
  const std::vector<Row> table{
      {50, 8.55979e-09, -37.20, 8.31545e-09, -39.22},   {76, 9.17270e-09, -55.38, 9.04531e-09, -57.59},
      {100, 7.79291e-09, -79.61, 7.85500e-09, -82.11},  {150, 3.38971e-09, -100.58, 3.75216e-09, -104.85},
      {200, 1.47485e-09, -86.47, 2.04718e-09, -105.00}, {228, 1.14722e-09, -57.73, 1.36860e-09, -101.88},
      {250, 1.27113e-09, -38.22, 9.91817e-10, -86.25},  {300, 1.80577e-09, -22.60, 1.05330e-09, -44.88},
      {400, 2.99282e-09, -22.30, 1.95522e-09, -31.21},  {500, 5.13277e-09, -47.60, 3.53516e-09, -54.72},
      {530, 5.49392e-09, -66.00, 3.82179e-09, -73.31},  {600, 3.87023e-09, -99.50, 2.70480e-09, -108.27},
      {800, 1.68688e-09, -110.29, 1.04875e-09, -125.80}};
  const auto a = assemble(wu_thompson());
  std::vector<double> frequency;
  for (const auto& row : table) {
    frequency.push_back(row.f);
  }
  const auto mid = receptance(a, 0.3, frequency);
  const auto seat = receptance(a, 0.0, frequency);
  const auto degrees = [](std::complex<double> h) { return std::arg(h) * 180.0 / std::numbers::pi; };
  const Source source{Trust::worked,
                      "infinite beam on 121 supports, parameters of Wu and Thompson 1999, recalled (high)"};
  for (std::size_t i = 0; i < table.size(); ++i) {
    const std::string at = " at " + std::to_string(static_cast<int>(table[i].f)) + " Hz, nm/N";
    score("receptance mid-span" + at, 1e9 * std::abs(mid[i]), 1e9 * table[i].mid, 1e-2, source);
    score("receptance over sleeper" + at, 1e9 * std::abs(seat[i]), 1e9 * table[i].seat, 1e-2, source);
    CHECK(degrees(mid[i]) == Approx(table[i].mid_phase).margin(0.6)); // 1 % of a right-angled component
    CHECK(degrees(seat[i]) == Approx(table[i].seat_phase).margin(0.6));
  }
}

TEST_CASE("Resonances of the Wu and Thompson track lie where the landmarks put them") {
  const auto a = assemble(wu_thompson());
  const auto extreme = [&](double x, double from, double to, double sign) {
    std::vector<double> f;
    for (double hertz = from; hertz <= to; hertz += 1.0) {
      f.push_back(hertz);
    }
    const auto h = receptance(a, x, f);
    const auto best =
        std::max_element(h.begin(), h.end(), [&](auto p, auto q) { return sign * std::abs(p) < sign * std::abs(q); });
    return f[static_cast<std::size_t>(best - h.begin())];
  };
  const Source source{Trust::worked,
                      "infinite beam on 121 supports, parameters of Wu and Thompson 1999, recalled (high)"};
  score_abs("full-track resonance mid-span, Hz", extreme(0.3, 60, 90, 1.0), 76.0, 1.0, source);
  score_abs("sleeper anti-resonance mid-span, Hz", extreme(0.3, 205, 250, -1.0), 228.0, 2.0, source);
  score_abs("sleeper anti-resonance over sleeper, Hz", extreme(0.0, 245, 290, -1.0), 268.0, 3.0, source);
  score_abs("rail-on-pad resonance mid-span, Hz", extreme(0.3, 510, 550, 1.0), 530.0, 2.0, source);
  score("pinned-pinned peak mid-span, Hz", extreme(0.3, 1050, 1095, 1.0), 1072.0, 5e-3, source);
}
