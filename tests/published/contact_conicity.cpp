// A wheelset on two rails: rolling radii, equivalent conicity rigid and under load, arcs in closed form.
#include "scoreboard.hpp"

#include "wingnose/contact/space/conicity.hpp"
#include "wingnose/words/frame.hpp"

#include <cmath>
#include <numbers>
#include <string>

using namespace wingnose;
using namespace wingnose::contact;

namespace {

WheelsetOnTrack s1002_on(const char* rail, int inclination) {
  return alike(profile::s1002(), profile::rail_head(rail, std::atan(1.0 / inclination)));
}

std::string at_mm(const std::string& what, double shift) {
  return what + " at " + scoreboard::number(shift * 1e3) + " mm";
}

} // namespace

TEST_CASE("Under next to no load a wheelset rolls on the radii worked for a model of its own") {
  struct Row {
    double shift, difference; // mm
  };
  const WheelsetOnTrack set = s1002_on("60E1", 40);
  for (const Row& row : {Row{1.0, 0.6096}, Row{3.0, 0.9430}, Row{5.0, 1.4597}}) {
    const Source source{Trust::worked,
                        "a guided wheelset worked apart, 100 N a wheel, shift at rail level, gauge 1435"};
    score_abs(at_mm("radius difference under 100 N, mm", row.shift * 1e-3),
              standing(set, row.shift * 1e-3, 100.0).difference() * 1e3, row.difference, 2e-4, source);
    score_abs(at_mm("radius difference, rigid, mm", row.shift * 1e-3),
              standing(set, row.shift * 1e-3).difference() * 1e3, row.difference, 0.002, source);
  }
}

// The table does not name its level: at rail level all its rows agree, at axle level the differences are larger by 0.5
// % and more, so rail level is taken to be the table's. The conicities at 3 mm that follow from it, 0.17 to 0.18 on
// 1:40 and about 0.01 on 1:20, are those commonly quoted (from memory, medium).
TEST_CASE("S1002 on 60E1 and 54E1 has the tabulated rolling radius differences") {
  struct Row {
    const char* rail;
    int inclination;          // 1:n
    double shift, difference; // mm
  };
  const Row rows[] = {{"60E1", 40, 1.0, 0.6100}, {"60E1", 40, 3.0, 0.9428}, {"60E1", 40, 5.0, 1.4581},
                      {"60E1", 20, 3.0, 0.0574}, {"60E1", 20, 6.0, 0.1411}, {"54E1", 40, 2.0, 0.8607},
                      {"54E1", 40, 3.0, 1.0806}, {"54E1", 20, 3.0, 0.0623}, {"54E1", 20, 5.0, 0.1167}};
  for (const Row& row : rows) {
    score_abs(std::string("radius difference of S1002 on ") + row.rail + " 1:" + std::to_string(row.inclination) +
                  " at " + scoreboard::number(row.shift) + " mm, mm",
              standing(s1002_on(row.rail, row.inclination), row.shift * 1e-3).difference() * 1e3, row.difference, 5e-4,
              {Trust::worked, "no publication: independent rigid contact with roll, gauge 1435 mm"});
  }
}

TEST_CASE("S1002 has the equivalent conicities worked for it, rigid and under load") {
  // Tolerance: digits given, or what the reference's table of the difference can be told to. That smears the jump of
  // the contact below 0.5 mm of shift, which is still felt at 1 mm; ours stays at 0.3543 with eight times the places.
  struct Row {
    const char* rail;
    int inclination;
    double amplitude, conicity, tolerance; // mm, -, -
  };
  const Row rows[] = {{"60E1", 40, 1.0, 0.3531, 1.3e-3},  {"60E1", 40, 2.0, 0.2190, 2e-4},
                      {"60E1", 40, 3.0, 0.1746, 2e-4},    {"60E1", 40, 4.0, 0.1556, 2e-4},
                      {"60E1", 40, 5.0, 0.1497, 2e-4},    {"60E1", 40, 6.0, 0.2682, 2e-4},
                      {"60E1", 20, 1.0, 0.0091, 0.51e-4}, {"60E1", 20, 3.0, 0.0094, 0.51e-4},
                      {"60E1", 20, 6.0, 0.0108, 0.51e-4}, {"54E1", 40, 3.0, 0.196, 0.51e-3}};
  for (const Row& row : rows) {
    score_abs(
        at_mm(std::string("equivalent conicity of S1002 on ") + row.rail + " 1:" + std::to_string(row.inclination),
              row.amplitude * 1e-3),
        equivalent_conicity(s1002_on(row.rail, row.inclination), row.amplitude * 1e-3), row.conicity, row.tolerance,
        {Trust::worked, "no publication: wave of y'' = -difference / (2 s r), rigid contact with roll, gauge 1435 mm, "
                        "amplitude at rail level"});
  }
  const double cone =
      equivalent_conicity(alike(profile::cone(0.05), profile::rail_head("60E1", std::atan(0.025))), 1e-3);
  score_abs("wavelength of cones 1:20 on 60E1 1:40, m, amplitude 1 mm",
            2.0 * std::numbers::pi * std::sqrt(0.46 * taping_line_y / cone), 16.34, 0.02,
            {Trust::worked, "a guided wheelset run in time, worked apart"});
  score("equivalent conicity of S1002 on 60E1 1:40 at 1 mm under 54.5 kN",
        equivalent_conicity(s1002_on("60E1", 40), 1e-3, 54.5e3), 0.162, 0.004,
        {Trust::worked, "a guided wheelset worked apart: an ellipse for each region of contact"});
}

namespace {

// Wheels and rails that are arcs, touching at the taping lines under a contact angle.
WheelsetOnTrack arcs(double wheel_radius, double rail_radius, double angle) {
  const double sine = std::sin(angle), cosine = std::cos(angle);
  using profile::Piece;
  const Piece wheel{-0.03, 0.03, Piece::Kind::arc_lower, {wheel_radius * sine, wheel_radius * cosine, wheel_radius}};
  const Piece rail{-0.03, 0.03, Piece::Kind::arc_upper, {rail_radius * sine, -rail_radius * cosine, rail_radius}};
  WheelsetOnTrack set = alike({"arc", profile::Curve({wheel})}, {"arc", profile::Curve({rail}), "drawn for a test"});
  set.gauge = 2.0 * (set.half_spacing + profile::gauge_point(set.rail[0])); // its axis at the taping line
  return set;
}

} // namespace

TEST_CASE("On arcs a wheelset rolls, and its axle is centred by its weight, as exact geometry has it") {
  struct Row {
    double wheel, rail, angle, stiffness, roll;
  };
  const Row rows[] = {{0.5, 0.3, 0.025, 5.3342, 0.03386},  {0.5, 0.3, 0.05, 5.69887, 0.06884},
                      {0.5, 0.3, 0.1, 6.53485, 0.14255},   {0.33, 0.3, 0.025, 35.1837, 0.03388},
                      {0.33, 0.3, 0.05, 37.2047, 0.06888}, {1000, 0.3, 0.025, 0.06967, 0.03386},
                      {1000, 0.3, 0.05, 0.14256, 0.06883}, {1000, 0.3, 0.1, 0.30335, 0.14255}};
  const Source source{Trust::worked,
                      "second derivative of the axle's height, exact rigid geometry worked apart; y at the "
                      "axle"};
  for (const Row& row : rows) {
    const WheelsetOnTrack set = arcs(row.wheel, row.rail, row.angle);
    const Stand middle = standing(set, 0.0), shifted = standing(set, 0.2e-3);
    const double y = shifted.axle_shift;
    const std::string what = "arcs " + scoreboard::number(row.wheel) + " on " + scoreboard::number(row.rail) +
                             " m, angle " + scoreboard::number(row.angle);
    score(what + ", lateral stiffness over axle load, 1/m", 2.0 * (shifted.axle_height - middle.axle_height) / (y * y),
          row.stiffness, 1e-3, source);
    score(what + ", roll per shift, rad/m", shifted.roll / y, row.roll, 1e-3, source);
  }
}

TEST_CASE("Two arcs have the equivalent conicity after Wickens, at the axle and at rail level") {
  const double wheel = 0.5, rail = 0.3, slope = 0.025, l = taping_line_y, r = 0.46;
  const Stand shifted = standing(arcs(wheel, rail, std::atan(slope)), 0.1e-3);
  const double half = 0.5 * shifted.difference(), grown = slope * wheel / (wheel - rail) * (l + rail * slope);
  const Source source{Trust::worked, "Wickens, two arcs, formula from memory; 0.06411 at the axle verified by exact "
                                     "geometry worked apart"};
  score("two arcs, conicity, shift at rail level", half / shifted.shift, grown / l, 1e-4, source);
  score("two arcs, conicity, shift at the axle", half / shifted.axle_shift, grown / (l - r * slope), 1e-4, source);
  score("two arcs, conicity, shift at the axle, exact", half / shifted.axle_shift, 0.06411, 1e-4, source);
  // The reference at rail level holds for a contact angle of 0.025 rad, not for that slope.
  const Stand angled = standing(arcs(wheel, rail, slope), 0.1e-3);
  score("two arcs, conicity, shift at rail level, exact", 0.5 * angled.difference() / angled.shift, 0.06314, 1e-4,
        source);
}
