// Damage laws against the numbers of their authors, recalled or worked from their formulas.
#include "scoreboard.hpp"

#include "wingnose/assess/fatigue.hpp"
#include "wingnose/assess/shakedown.hpp"
#include "wingnose/assess/steel.hpp"
#include "wingnose/assess/wear.hpp"
#include "wingnose/contact/normal/hertz.hpp"

#include <cmath>
#include <string>

using namespace wingnose;
using namespace wingnose::assess;

TEST_CASE("The surface fatigue index of a 98.1 kN wheel changes sign where the friction is k over the peak pressure") {
  // The rows are worked from the published formula and a peak pressure of 1229.7 MPa; a and b only enter as a product,
  // fixed by force and pressure.
  constexpr double force = 98.1e3, p0 = 1229.7e6;
  const double ab = 1.5 * force / (3.14159265358979323846 * p0);
  const double a = std::sqrt(ab), b = ab / a;
  const Source source{Trust::worked, "formula of Ekberg, Kabo & Andersson 2002, recalled (high), evaluated"};
  const double k[] = {210e6, 277e6, 300e6, 350e6, 500e6}, rows[] = {0.1292, 0.0747, 0.0560, 0.0154, -0.1066};
  for (int i = 0; i < 5; ++i) {
    score_abs("FI_surf, mu 0.3, k " + std::to_string(static_cast<int>(k[i] * 1e-6)) + " MPa, -",
              surface_fatigue_index(0.3, a, b, k[i], force), rows[i], 0.6e-4, source);
  }
  score_abs("FI_surf at mu 0.2440, k 300 MPa, -", surface_fatigue_index(0.2440, a, b, 300e6, force), 0.0, 0.6e-4,
            source);
}

TEST_CASE("The crack function of T-gamma has its published corners and slopes") {
  const Source source{Trust::from_memory, "Burstow 2004 (high), an input of ours"};
  const Source slope{Trust::worked, "slopes between the corners of Burstow 2004, recalled (high)"};
  score_abs("crack damage at 15 N, 1e-6 per wheel", crack_damage(15.0) * 1e6, 0.0, 1e-12, source);
  score("crack damage at 65 N, 1e-6 per wheel", crack_damage(65.0) * 1e6, 10.0, 1e-12, source);
  score_abs("crack damage at 175 N, 1e-6 per wheel", crack_damage(175.0) * 1e6, 0.0, 1e-12, source);
  score("rise of the crack function, 1e-6 per N", (crack_damage(40.0) - crack_damage(20.0)) / 20.0 * 1e6, 0.2, 1e-9,
        slope);
  score("fall of the crack function, 1e-6 per N", (crack_damage(150.0) - crack_damage(100.0)) / 50.0 * 1e6, -0.090909,
        1e-5, slope);
}

TEST_CASE("Limits of first yield and shakedown have their published ends") {
  const ShakedownMap line(ContactShape::line), circle(ContactShape::circle);
  const Source johnson{Trust::from_memory, "Johnson 1985 (high)"};
  const Source johnson_input{Trust::from_memory, "Johnson 1985 (high), an input of ours"};
  const Source ponter{Trust::from_memory, "Ponter, Hearle & Johnson 1985 (medium), an input of ours"};
  score("first yield of a line contact without traction, p0/k", line.first_yield(0.0), 3.3, 0.02, johnson);
  score("shakedown of a line contact without traction, p0/k", line.elastic_shakedown(0.0), 4.0, 1e-6, johnson);
  // Reaching the surface: 0.367 is Johnson's number; the tables are read every 0.0125.
  double reach = 0.3;
  while (line.elastic_shakedown(reach) * reach < 1.0 - 1e-9) {
    reach += 1e-4;
  }
  score_abs("traction coefficient from which the surface decides shakedown, -", reach, 0.367, 0.002, johnson);
  score("shakedown at f 0.5, p0/k", line.elastic_shakedown(0.5), 2.0, 1e-12,
        {Trust::worked, "p0/k = 1/f at the surface, Johnson 1985, evaluated"});
  score("first yield of a circular contact, p0/k", circle.first_yield(0.0), 2.8, 1e-12, johnson_input);
  score("shakedown of a circular contact, p0/k", circle.elastic_shakedown(0.0), 4.7, 1e-12, ponter);
}

TEST_CASE("The wear map takes its coefficients from the middle of the published bands") {
  const Source source{Trust::worked, "middle of the bands of Jendel 2002, recalled (high): our choice"};
  constexpr double H = 2.6e9;
  score("mild wear below 0.2 m/s, 1e-4", wear_coefficient(0.1, 1e9, H) * 1e4, 5.5, 1e-12, source);
  score("severe wear between 0.2 and 0.7 m/s, 1e-4", wear_coefficient(0.4, 1e9, H) * 1e4, 35.0, 1e-12, source);
  score("mild wear above 0.7 m/s, 1e-4", wear_coefficient(0.8, 1e9, H) * 1e4, 5.5, 1e-12, source);
  score("seizure above 0.8 H, 1e-4", wear_coefficient(0.1, 0.81 * H, H) * 1e4, 350.0, 1e-12, source);
  const Source braghin{Trust::from_memory, "Braghin et al. 2006 (high), an input of ours"};
  const Source braghin_line{Trust::worked, "straight lines of Braghin et al. 2006, recalled (high), evaluated"};
  score("wear rate at T-gamma/A 10 N/mm2, ug/m/mm2", energy_wear_rate(10e6) * 1e3, 53.0, 1e-12, braghin_line);
  score("wear rate at T-gamma/A 40 N/mm2, ug/m/mm2", energy_wear_rate(40e6) * 1e3, 55.1, 1e-12, braghin);
  score("wear rate at T-gamma/A 87.2 N/mm2, ug/m/mm2", energy_wear_rate(87.2e6) * 1e3, 674.1, 1e-12, braghin_line);
}

TEST_CASE("Steels have the yield in shear that their proof stress gives") {
  const auto k = [](const char* name) { return shear_yield(steel(name)) * 1e-6; };
  score_abs("shear yield of R260, MPa", k("R260"), 277.0, 0.5,
            {Trust::worked, "proof stress 480 MPa, recalled (medium), over the root of 3"});
  score_abs("shear yield of Australian standard carbon rail, MPa", k("AS carbon"), 242.0, 0.5,
            {Trust::worked, "proof stress 420 MPa, read in a data sheet, over the root of 3"});
  score("shear yield of R350HT, MPa", k("R350HT"), 430.0, 0.07,
        {Trust::from_memory, "band 400 to 460 MPa (medium), an input of ours"});
  score("shear yield of cast manganese steel, MPa", k("Mn"), 217.5, 0.058,
        {Trust::from_memory, "band 205 to 230 MPa (medium), an input of ours"});
  score("shear yield of explosion-hardened manganese steel, MPa", k("Mn explosion hardened"), 385.0, 0.04,
        {Trust::from_memory, "band 370 to 400 MPa (low), an input of ours"});
  score(
      "Brinell hardness of R350HT, MPa over 9.80665", wear_hardness(steel("R350HT")) / 9.80665e6, 350.0, 1e-12,
      {Trust::printed, "EN 13674-1, table of steel grades as another print quotes it: lowest value, an input of ours"});
}
