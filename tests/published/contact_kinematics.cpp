// Crossing geometry against the naming of angles, worked dip angles and bands of practice.
#include "catch.hpp"
#include "path_samples.hpp"
#include "published/scoreboard.hpp"
#include "wingnose/closedform/linear_crossing.hpp"

using namespace samples;

namespace {

constexpr double degrees = 180.0 / std::numbers::pi;

// Wing running out level at 1:N and nose rising at `ramp`, both with one rounded edge: linear in x exactly.
SectionedShape linear(double rate, double ramp, double nose_at_0, double wing_rise) {
  constexpr double radius = 0.010;
  SectionedShape s;
  s.rate = rate;
  s.noise = 0.0;
  s.bodies = {{"wing", {}}, {"nose", {}}};
  const auto strip = [&](double x, double edge, double level, double width) {
    Section out{x, {}, {}};
    for (int j = 0; j <= 400; ++j) {
      const double eta = 0.5 * width * (1.0 - std::cos(std::numbers::pi * j / 400)), a = std::max(0.0, radius - eta);
      out.y.push_back(edge + eta);
      out.z.push_back(level - radius + std::sqrt(radius * radius - a * a));
    }
    return out;
  };
  for (int i = 0; i <= 8; ++i) {
    const double x = 0.1 * i;
    s.bodies[0].sections.push_back(strip(x, 0.7175 + 0.044 + x / rate, wing_rise * x, 0.060));
    s.bodies[1].sections.push_back(strip(x, 0.7205, nose_at_0 + ramp * x, 0.020));
  }
  return s;
}

// Level of a cone of slope gamma on an edge of 10 mm radius whose flat top lies at `level` and whose face stands at y.
double cone_on_edge(double gamma, double level, double y) {
  constexpr double radius = 0.010;
  const double theta = std::atan(gamma);
  return level - radius * (1.0 - std::cos(theta)) - gamma * (y + radius * (1.0 - std::sin(theta)) - taping_line_y);
}

const Source transfer{Trust::worked, "transfer geometry, worked by hand"};
const Source lines{Trust::worked, "two lines with rolling term, our closed form"};

} // namespace

TEST_CASE("The gauge lines of a generated crossing meet at the angle of the right-angle method") {
  // Three naming methods are in use (read in the literature); the numbers are worked from this one.
  const struct {
    double rate, degrees;
  } table[] = {{8, 7.12502}, {9, 6.34019}, {9.25, 6.17018}, {12, 4.76364}, {15, 3.81407}, {18.5, 3.09406}};
  for (const auto& row : table) {
    CrossingShape s;
    s.rate = row.rate;
    const Crossing c = generate(s);
    const auto& wing = std::get<GeneratedWing>(c.bodies[0].surface);
    const double run = 0.2;
    const double angle = std::atan2(wing.edge(0.2 + run) - wing.edge(0.2), run) * degrees;
    score_abs("crossing angle 1:" + std::to_string(row.rate).substr(0, 4) + ", deg", angle, row.degrees, 5e-6,
              {Trust::worked, "right-angle method, atan(1/N) evaluated apart"});
  }
}

TEST_CASE("The nose reaches 10, 20, 50 and 70 mm at N times that distance behind the theoretical point") {
  const struct {
    double rate, thickness_mm, station_mm;
  } table[] = {{15, 10, 150}, {15, 20, 300}, {15, 50, 750}, {15, 70, 1050},
               {9, 10, 90},   {9, 20, 180},  {9, 50, 450},  {9, 70, 630}};
  for (const auto& row : table) {
    CrossingShape s;
    s.rate = row.rate;
    s.nose_setback = 0.0;
    const Crossing c = generate(s);
    const auto& nose = std::get<GeneratedNose>(c.bodies[1].surface);
    score("nose thickness 1:" + std::to_string(static_cast<int>(row.rate)) + ", mm",
          nose.width(row.station_mm / 1000.0) * 1000.0, row.thickness_mm, 1e-9, transfer);
    CHECK(c.nose_thickness(row.station_mm / 1000.0) == Approx(row.thickness_mm / 1000.0).epsilon(1e-12));
  }
}

TEST_CASE("The throat lies flangeway times N before the point") {
  for (const double rate : {15.0, 9.0}) {
    CrossingShape s;
    s.rate = rate;
    s.wing_knuckle_radius = 0.02; // nearly sharp: the edge leaves the gauge line at the throat
    const Crossing c = generate(s);
    const auto& wing = std::get<GeneratedWing>(c.bodies[0].surface);
    double x = -2.0;
    while (wing.edge(x) <= 0.7175 + 1e-9) {
      x += 0.0001;
    }
    score_abs("throat before the point 1:" + std::to_string(static_cast<int>(rate)) + ", mm", -x * 1000.0,
              rate == 15.0 ? 660.0 : 396.0, 2.0, transfer);
  }
}

TEST_CASE("A coned wheel over a straight wing and nose has the dip angle of the closed form") {
  const struct {
    const char* what;
    double rate, gamma, ramp, nose_at_0, wing_rise, dip_mrad;
  } cases[] = {{"1:15, cone 1:20, ramp 1:200", 15.0, 0.05, 1.0 / 200.0, -0.0060, 0.0, 8.33},
               {"1:9, cone 1:20, ramp 1:100", 9.0, 0.05, 1.0 / 100.0, -0.0060, 0.0, 15.56},
               {"1:15, cone 1:10, ramp 1:100", 15.0, 0.10, 1.0 / 100.0, -0.0120, 0.0, 16.67}};
  for (const auto& k : cases) {
    const Crossing c = from_sections(linear(k.rate, k.ramp, k.nose_at_0, k.wing_rise));
    const profile::WheelProfile wheel = profile::cone(k.gamma);
    const WheelPath path = roll(c, wheel, {.from = 0.1, .to = 0.7, .pitch = 0.0005});
    const Kinematics found = kinematics(path, &c, wheel, {});
    const closedform::LinearCrossingResult exact =
        closedform::linear_crossing({.rate = k.rate,
                                     .conicity = k.gamma,
                                     .ramp_slope = k.ramp,
                                     .wing_rise = k.wing_rise,
                                     .wing_height_at_0 = cone_on_edge(k.gamma, 0.0, 0.7175 + 0.044),
                                     .nose_height_at_0 = cone_on_edge(k.gamma, k.nose_at_0, 0.7205),
                                     .wheel_radius = 0.46});
    REQUIRE(found.transfer_station);
    const std::string name = k.what;
    score("dip angle " + name + ", mrad", found.dip_angle * 1e3, k.dip_mrad, 0.005 / k.dip_mrad,
          {Trust::worked, "gamma/N + i, two decimals"});
    score_abs("dip angle against closed form, " + name + ", rad", found.dip_angle, exact.dip_angle, 1e-6,
              {Trust::worked, "gamma/N + i, our closed form"});
    score_abs("transfer station, " + name + ", m", *found.transfer_station, exact.transfer_station, 2e-5, lines);
    score_abs("height at transfer, " + name + ", m", read(path, combined(path), *found.transfer_station),
              exact.height_at_transfer, 1e-6, lines);
  }
}

TEST_CASE("A wing rising at gamma over N keeps the wheel level up to the transfer") {
  const double rise = 0.05 / 15.0; // lift cancels the fall of a cone
  const Crossing c = from_sections(linear(15.0, 1.0 / 200.0, -0.0050, rise));
  const WheelPath path = roll(c, profile::cone(0.05), {.from = 0.05, .to = 0.2});
  const std::vector<double>& z = named(path, "wing").height;
  CHECK(*std::max_element(z.begin(), z.end()) - *std::min_element(z.begin(), z.end()) < 1e-8);
}

TEST_CASE("The default 1:15 crossing with a new S1002 lies within the bands of practice") {
  const Crossing c = generate({});
  const profile::WheelProfile wheel = profile::s1002();
  const Kinematics k = kinematics(roll(c, wheel, {.from = -4.0, .to = 4.0}), &c, wheel, {});
  REQUIRE(k.transfer_station);
  // All plausibility bands, from memory: transfer 150 to 700 mm behind the point, dip angle of a new crossing 5 to
  // 12 mrad, depth 1 to 4 mm.
  CHECK(*k.transfer_station > 0.150);
  CHECK(*k.transfer_station < 0.700);
  CHECK(*k.nose_thickness > 0.020);
  CHECK(*k.nose_thickness < 0.050);
  CHECK(k.dip_angle > 0.005);
  CHECK(k.dip_angle < 0.012);
  CHECK(k.dip_depth > 0.001);
  CHECK(k.dip_depth < 0.004);
  // Contact well inside the tread on both bodies: 10 mm from the rim, clear of the flange.
  CHECK(*k.contact_y_wing - taping_line_y < 0.050);
  CHECK(*k.contact_y_nose - taping_line_y > -0.026);
  CHECK(k.findings.empty());
}

TEST_CASE("The default rises back to the level it came from") {
  const WheelPath path = roll(generate({}), profile::s1002(), {.from = -4.0, .to = 4.0});
  CHECK(combined(path).front() == Approx(combined(path).back()).margin(2e-4));
}

TEST_CASE("A worn crossing has a dip angle of 15 to 25 mrad, repair brings it back towards new") {
  const profile::WheelProfile wheel = profile::s1002();
  const auto dip = [&](const CrossingShape& s) {
    const Crossing c = generate(s);
    return kinematics(roll(c, wheel, around_transfer()), &c, wheel, {}).dip_angle;
  };
  const double as_new = dip({}), as_worn = dip(worn()), as_repaired = dip(repaired());
  CHECK(as_worn > 0.015); // plausibility band, from memory
  CHECK(as_worn < 0.025);
  CHECK(as_repaired < as_worn);
  CHECK(as_repaired > as_new);
}

TEST_CASE("A shallower crossing angle is kinder: the dip angle falls with N (common practice, no source)") {
  const profile::WheelProfile wheel = profile::s1002();
  double before = 1.0;
  for (const double rate : {7.0, 9.0, 12.0, 15.0, 18.5, 25.0}) {
    CrossingShape s;
    s.rate = rate;
    const Crossing c = generate(s);
    const Kinematics k = kinematics(roll(c, wheel, {.from = -2.0, .to = 2.5}), &c, wheel, {});
    REQUIRE(k.transfer_station);
    CAPTURE(rate);
    CHECK(k.dip_angle < before);
    // The same section is met at the same nose thickness: 0.5 mm of room for rolling and rounding.
    CHECK(*k.nose_thickness == Approx(0.0275).margin(0.0005));
    before = k.dip_angle;
  }
}

TEST_CASE("On plain line the flange stays clear (common practice, no source)") {
  const WheelPath path = roll(generate({}), profile::s1002(), {.from = -5.0, .to = -2.0});
  CHECK(named(path, "wing").wheel_y.front() > -0.026);
}
