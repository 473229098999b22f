// Beam on elastic foundation, pinned-pinned frequency and moving load against worked tables.
#include "scoreboard.hpp"

#include "wingnose/closedform/foundation_beam.hpp"

#include <string>
#include <vector>

using namespace wingnose::closedform;

namespace {

constexpr double E = 210e9;                        // N/m2
constexpr double G = E / (2.0 * (1.0 + 0.3));      // N/m2
constexpr double cm4 = 1e-8, cm2 = 1e-4, MN = 1e6; // to SI

struct Rail {
  std::string name;
  double area, inertia, mass; // cm2, cm4, kg/m
};
// Supplier tables quoting EN 13674-1, and memory for some inertias.
const Rail r60E1{"60E1", 76.7, 3038.3, 60.21};
const Rail r56E1{"56E1", 71.69, 2321.0, 56.3};
const Rail r54E1{"54E1", 69.77, 2337.9, 54.77};
const Rail r49E1{"49E1", 62.92, 1816.0, 49.39};

const Source zimmermann{Trust::worked, "formulas of Zimmermann 1888 evaluated apart"};

} // namespace

TEST_CASE("Deflection, moment and stiffness of rails on a foundation match the worked Zimmermann table") {
  struct Row {
    Rail rail;
    double k, length, w0, M0, stiffness; // MN/m2, m, mm, kNm, MN/m
  };
  const std::vector<Row> table{
      {r60E1, 25, 1.0052, 1.9897, 25.129, 50.26},   {r60E1, 50, 0.8452, 1.1831, 21.131, 84.53},
      {r60E1, 100, 0.7108, 0.7035, 17.769, 142.15}, {r56E1, 50, 0.7902, 1.2655, 19.755, 79.02},
      {r54E1, 50, 0.7917, 1.2632, 19.791, 79.17},   {r49E1, 50, 0.7432, 1.3455, 18.580, 74.32}};
  constexpr double P = 100e3; // N
  for (const auto& row : table) {
    const FoundationBeam beam{E * row.rail.inertia * cm4, row.k * MN};
    const std::string who = row.rail.name + " on " + std::to_string(static_cast<int>(row.k)) + " MN/m2: ";
    // Half a unit of the last digit of the table is 5e-5 to 7e-5 of the value.
    score(who + "characteristic length, m", characteristic_length(beam), row.length, 1e-4, zimmermann);
    score(who + "deflection under 100 kN, mm", 1e3 * deflection(beam, P, 0.0), row.w0, 1e-4, zimmermann);
    score(who + "moment under 100 kN, kNm", 1e-3 * moment(beam, P, 0.0), row.M0, 1e-4, zimmermann);
    score(who + "point stiffness, MN/m", 1e-6 * point_stiffness(beam), row.stiffness, 1e-4, zimmermann);
  }
}

TEST_CASE("The bedding-modulus form of Zimmermann's method gives the worked rail foot stress") {
  const double C = 0.10e9;           // N/m3, bedding modulus
  const double half_sleeper = 0.285; // m2 per rail
  const double spacing = 0.6;        // m
  const double W = 375.5e-6;         // m3, foot section modulus of 60E1
  const FoundationBeam beam{E * r60E1.inertia * cm4, C * half_sleeper / spacing};
  score("bedding modulus 0.10 N/mm3: foundation modulus, N/mm2", 1e-6 * beam.k, 47.5, 1e-12, zimmermann);
  score("bedding modulus 0.10 N/mm3: characteristic length, mm", 1e3 * characteristic_length(beam), 856.2, 1e-4,
        zimmermann);
  score("bedding modulus 0.10 N/mm3: deflection, mm", 1e3 * deflection(beam, 100e3, 0.0), 1.2295, 1e-4, zimmermann);
  score("bedding modulus 0.10 N/mm3: moment, kNm", 1e-3 * moment(beam, 100e3, 0.0), 21.404, 1e-4, zimmermann);
  score("bedding modulus 0.10 N/mm3: foot stress, MPa", 1e-6 * moment(beam, 100e3, 0.0) / W, 57.0, 1e-3, zimmermann);
}

TEST_CASE("Pinned-pinned frequencies of common rails match the worked table") {
  struct Row {
    Rail rail;
    double spacing, euler, kappa40, kappa34; // m, Hz
  };
  const std::vector<Row> table{{r60E1, 0.60, 1420.4, 1067.3, 1032.8},
                               {r60E1, 0.65, 1210.3, 939.2, 911.5},
                               {r56E1, 0.60, 1283.8, 1004.2, 975.3},
                               {r54E1, 0.60, 1306.4, 1015.2, 985.4},
                               {r56E1, 0.65, 1093.9, 880.6, 857.6}};
  const Source source{Trust::worked, "lower root of the Timoshenko beam, one half wave per bay"};
  for (const auto& row : table) {
    const double EI = E * row.rail.inertia * cm4;
    const double GA = G * row.rail.area * cm2;
    const double rho_I = 7850.0 * row.rail.inertia * cm4;
    const std::string who =
        row.rail.name + ", bearers at " + std::to_string(static_cast<int>(100.0 * row.spacing + 0.5)) + " cm: ";
    score(who + "pinned-pinned without shear, Hz",
          pinned_pinned_frequency(EI, 1e9 * GA, row.rail.mass, 0.0, row.spacing), row.euler, 1e-4, source);
    score(who + "pinned-pinned kappa 0.40, Hz",
          pinned_pinned_frequency(EI, 0.40 * GA, row.rail.mass, rho_I, row.spacing), row.kappa40, 1e-4, source);
    score(who + "pinned-pinned kappa 0.34, Hz",
          pinned_pinned_frequency(EI, 0.34 * GA, row.rail.mass, rho_I, row.spacing), row.kappa34, 1e-4, source);
  }
}

TEST_CASE("Critical speeds and moving-load factors match Fryba's beam on a Winkler foundation") {
  const Source source{Trust::worked, "formula of Fryba 1972, recalled (high), verified by Fourier integral, evaluated"};
  struct Row {
    double k, rail_only, with_sleepers; // MN/m2, m/s
  };
  for (const auto& row : {Row{25, 647.7, 285.3}, Row{50, 770.3, 339.3}, Row{100, 916.0, 403.5}}) {
    const FoundationBeam beam{E * r60E1.inertia * cm4, row.k * MN};
    const std::string who = "60E1 on " + std::to_string(static_cast<int>(row.k)) + " MN/m2: critical speed ";
    score(who + "of the rail alone, m/s", critical_speed(beam, r60E1.mass), row.rail_only, 1e-4, source);
    score(who + "with 150 kg per 0.6 m, m/s", critical_speed(beam, r60E1.mass + 150.0 / 0.6), row.with_sleepers, 2e-4,
          source);
  }
  score("moving-load factor at 0.25 of the critical speed", moving_load_factor(0.25, 1.0), 1.03280, 5e-6, source);
  score("moving-load factor at 0.5 of the critical speed", moving_load_factor(0.5, 1.0), 1.15470, 5e-6, source);
  score("moving-load factor at 0.75 of the critical speed", moving_load_factor(0.75, 1.0), 1.51186, 5e-6, source);
  score("moving-load factor at 0.9 of the critical speed", moving_load_factor(0.9, 1.0), 2.29416, 5e-6, source);
}
