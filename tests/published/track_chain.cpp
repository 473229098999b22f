// Bearers and voids against values of Euler beams worked out apart from the chain (reference rows on bearers).
#include "scoreboard.hpp"

#include "chain_samples.hpp"

#include <array>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

using namespace chain_samples;

namespace {

const Source beam_on_winkler{Trust::worked, "Euler beam on Winkler support, 400 elements"};

double hertz(double stiffness) { return std::sqrt(stiffness) / (2.0 * std::numbers::pi); }

// Elements of 0.15 m raise the third bending mode of a short bearer by 1e-4.
double bar(int mode) { return mode < 3 ? 1e-4 : 2e-4; }

// Rails that carry nothing themselves: a load over a seat goes into its bearer alone.
Model single(double L, double EI, double mass, double ballast, double near_seat) {
  Model m = plain(3, {0.0, L, mass, EI, 0.22, 12});
  m.rails[0].section = m.rails[1].section = {1.0, 1e3, 60.0, 0.1};
  for (Bearer& b : m.bearers) {
    b.ballast = {ballast, 0.0};
    b.seat[0].y = near_seat;
    b.seat[1].y = near_seat + 1.5;
  }
  return m;
}

} // namespace

TEST_CASE("Bearers bend freely and on ballast at the frequencies of the Euler beam") {
  struct Row {
    double L, EI, mass;
    std::array<double, 3> free;
    std::array<double, 4> on_ballast; // 30 MN/m2
  };
  const Source source{Trust::worked, "beta^2 / (2 pi L^2) sqrt(EI/m); with ballast sqrt(f^2 + k / (4 pi^2 m))"};
  for (const Row& row : {Row{2.5, 6.4e6, 123, {129.96, 358.24, 702.29}, {78.60, 151.88, 366.76, 706.67}},
                         Row{2.6, 6.4e6, 115, {124.26, 342.54, 671.51}, {81.29, 148.49, 352.05, 676.41}},
                         Row{3.2, 8e6, 140, {83.12, 229.14, 449.20}, {73.67, 111.08, 240.69, 455.20}},
                         Row{3.6, 8e6, 140, {65.68, 181.05, 354.92}, {73.67, 98.70, 195.46, 362.49}},
                         Row{4.0, 9e6, 145, {55.45, 152.84, 299.62}, {72.39, 91.19, 169.12, 308.25}},
                         Row{4.4, 10e6, 150, {47.49, 130.91, 256.63}, {71.18, 85.56, 149.01, 266.32}},
                         Row{4.7, 10e6, 150, {41.62, 114.73, 224.91}, {71.18, 82.45, 135.01, 235.91}}}) {
    const std::string of = " of " + scoreboard::number(row.L, "%.1f") + " m, Hz";
    const auto free = make_chain(single(row.L, row.EI, row.mass, 0.0, 0.5));
    const auto held = make_chain(single(row.L, row.EI, row.mass, 30e6, 0.5));
    for (int j = 0; j < 3; ++j) {
      score("free bending " + std::to_string(j + 1) + of, hertz(free->bearer_of(1).stiffness[j + 2]), row.free[j],
            bar(j + 1), source);
    }
    score("on ballast, rigid" + of, hertz(held->bearer_of(1).stiffness[0]), row.on_ballast[0], 2e-4, source);
    for (int j = 1; j < 4; ++j) {
      score("on ballast, bending " + std::to_string(j) + of, hertz(held->bearer_of(1).stiffness[j + 1]),
            row.on_ballast[j], bar(j), source);
    }
  }
}

TEST_CASE("Bearers under 50 kN a seat rest as the Euler beam on its bedding") {
  struct Row {
    double L, EI, near_seat, other_load;
    std::vector<std::pair<double, double>> at; // y from the near end, mm
  };
  for (const Row& row :
       {Row{2.6, 6.4e6, 0.55, 5e4, {{0.0, 1.3113}, {0.55, 1.3205}, {1.3, 1.2028}}},
        Row{2.6, 6.4e6, 0.55, 0.0, {{0.0, 1.6977}, {2.6, -0.3865}, {0.55, 1.3330}, {2.05, -0.0125}, {1.3, 0.6014}}},
        Row{2.6, 6.4e12, 0.55, 0.0, {{0.55, 1.2811}, {2.05, 0.0009}}},
        Row{3.6, 8e6, 1.05, 5e4, {{0.0, 0.3679}, {1.05, 1.0932}, {1.8, 1.1753}}},
        Row{4.4, 10e6, 1.45, 5e4, {{0.0, -0.0193}, {1.45, 1.0604}, {2.2, 1.1659}}},
        Row{4.4, 10e6, 0.55, 5e4, {{0.0, 1.4612}, {4.4, -0.2720}, {0.55, 1.3909}, {2.05, 0.9850}}},
        Row{4.4, 10e6, 0.55, 0.0, {{0.0, 1.6211}, {4.4, -0.0620}, {0.55, 1.2404}, {2.05, 0.1505}}}}) {
    const auto c = make_chain(single(row.L, row.EI, 130.0, 30e6, row.near_seat));
    const std::vector<Load> loads{{0, 0.6, 5e4}, {1, 0.6, row.other_load}};
    const Motion rest = at_rest(*c, loads);
    for (const auto& [y, mm] : row.at) {
      score_abs("bearer of " + scoreboard::number(row.L, "%.1f") + " m, at " + scoreboard::number(y, "%.2f") + " m, mm",
                1e3 * bearer_deflection(*c, rest, 1, y), mm, 2e-4, beam_on_winkler);
    }
    double sum = 0.0;
    for (const double force : ballast_forces(*c, rest, 1)) {
      sum += force;
    }
    score("mean deflection of a bearer of " + scoreboard::number(row.L, "%.1f") + " m, mm", 1e3 * sum / (30e6 * row.L),
          1e3 * (5e4 + row.other_load) / (30e6 * row.L), 1e-4, {Trust::worked, "sum P / (k L)"});
  }
  const auto c = make_chain(single(2.6, 6.4e6, 130.0, 30e6, 0.55));
  const std::vector<Load> loads{{0, 0.6, 5e4}, {1, 0.6, 5e4}};
  score("moment in the middle of a bearer of 2.6 m, kN m", 1e-3 * bearer_moment(*c, at_rest(*c, loads), 1, 1.3), -4.385,
        1e-2, beam_on_winkler);
}

TEST_CASE("A void under the loaded seat loads its neighbours as the reference rows have it") {
  struct Row {
    double seat, gap, own, neighbour; // N/m, mm, kN, factor
  };
  const Source source{Trust::worked, "60E1 Euler beam on 41 springs, two-way but for the void"};
  const std::vector<Load> loads{{0, 12.0, 1e5}};
  for (const Row& row : {Row{50e6, 0.25, 32.687, 1.125}, Row{50e6, 0.5, 25.208, 1.250}, Row{50e6, 1.0, 10.249, 1.500},
                         Row{50e6, 1.5, 0.0, 1.671}, Row{30e6, 0.25, 30.567, 1.075}, Row{30e6, 0.5, 25.723, 1.150},
                         Row{30e6, 1.0, 16.035, 1.300}, Row{30e6, 1.5, 6.347, 1.450}, Row{30e6, 2.0, 0.0, 1.548}}) {
    Model m = on_springs(row.seat, 41);
    const auto full = make_chain(m);
    m.bearers[20].voids.push_back({-1.0, 1.0, 1e-3 * row.gap});
    const auto c = make_chain(m);
    const Motion a = at_rest(*full, loads), b = at_rest(*c, loads);
    const std::string of = " over a void of " + scoreboard::number(row.gap, "%.2f") + " mm, " +
                           scoreboard::number(row.seat * 1e-6, "%.0f") + " MN/m";
    score_abs("own force" + of + ", kN", 1e-3 * ballast_force(*c, b, 20), row.own, 2e-3, source);
    score("neighbours carry" + of + ", -", ballast_force(*c, b, 21) / ballast_force(*full, a, 21), row.neighbour, 6e-4,
          source);
  }
  for (const auto& [seat, deflected, forces] : {std::tuple{30e6, 1.1804, std::array{35.412, 24.575, 9.772}},
                                                {50e6, 0.8033, std::array{40.166, 25.399, 7.693}}}) {
    const auto c = make_chain(on_springs(seat, 41));
    const Motion rest = at_rest(*c, loads);
    score("deflection over a seat, mm", 1e3 * deflection(*c, loads, 0, 12.0), deflected, 1e-4, source);
    for (int i = 0; i < 3; ++i) {
      score("force of seat " + std::to_string(i) + ", kN", 1e-3 * ballast_force(*c, rest, 20 + i), forces[i], 1e-4,
            source);
    }
  }
}

TEST_CASE("The same gap under three seats touches in the order of the reference rows") {
  struct Row {
    double gap, deflected;
    std::array<double, 3> force;
  };
  const Source source{Trust::worked, "60E1 Euler beam on 41 springs of 50 MN/m, unilateral under three"};
  const std::vector<Load> loads{{0, 12.0, 1e5}};
  for (const Row& row : {Row{0.5, 1.2581, {37.907, 18.714, 15.888}}, Row{1.0, 1.7130, {35.648, 12.028, 24.084}},
                         Row{2.0, 2.5964, {29.822, 0.0, 39.828}}, Row{5.0, 3.6998, {0.0, 0.0, 56.753}}}) {
    Model m = on_springs(50e6, 41);
    for (const int i : {19, 20, 21}) {
      m.bearers[i].voids.push_back({-1.0, 1.0, 1e-3 * row.gap});
    }
    const auto c = make_chain(m);
    const Motion rest = at_rest(*c, loads);
    const std::string of = ", gap " + scoreboard::number(row.gap, "%.1f") + " mm under three seats";
    score("deflection, mm" + of, 1e3 * deflection(*c, loads, 0, 12.0), row.deflected, 1e-4, source);
    for (int i = 0; i < 3; ++i) {
      score_abs("force of seat " + std::to_string(i) + ", kN" + of, 1e-3 * ballast_force(*c, rest, 20 + i),
                row.force[i], 4e-3, source);
    }
  }
}

TEST_CASE("Two rails under equal loads on rigid bearers deflect as the one-rail track of the method notes") {
  Model m = plain(41, {-1.3, 1.3, 300.0 / 2.6, 6.4e12});
  for (Bearer& b : m.bearers) {
    b.ballast = {60e6 / 1.3, 80e3 / 1.3};
  }
  const auto c = make_chain(m);
  const Source source{Trust::worked, "prototype of a chain under 90 kN, today's track likewise"};
  for (const auto& [x, mm, where] : {std::tuple{12.0, 0.898, "over a seat"}, {12.3, 0.929, "between seats"}}) {
    const std::vector<Load> loads{{0, x, 9e4}, {1, x, 9e4}};
    score_abs(std::string("deflection ") + where + ", mm", 1e3 * deflection(*c, loads, 1, x), mm, 5e-4, source);
  }
}

TEST_CASE("On fine supports a chain is a beam on an elastic foundation") {
  // 60E1 without shear, 0.1 m apart: w = P beta / (2 k), beta = (k / 4 EI)^(1/4).
  Model m = on_springs(5e6, 201);
  for (int i = 0; i < 201; ++i) {
    m.bearers[i].x = 0.1 * i;
    m.bearers[i].width = 0.05;
  }
  const auto c = make_chain(m);
  const double k = 5e6 / 0.1, EI = m.rails[0].section.EI, beta = std::pow(k / (4 * EI), 0.25);
  const Source source{Trust::worked, "infinite Euler beam on Winkler's foundation"};
  score("deflection under 100 kN, mm", 1e3 * deflection(*c, {{0, 10.0, 1e5}}, 0, 10.0), 1e3 * 1e5 * beta / (2 * k),
        1e-3, source);
  const double x = 0.8;
  score("deflection 0.8 m away, mm", 1e3 * deflection(*c, {{0, 10.0, 1e5}}, 0, 10.0 + x),
        1e3 * 1e5 * beta / (2 * k) * std::exp(-beta * x) * (std::cos(beta * x) + std::sin(beta * x)), 1e-3, source);
}
