#include "catch.hpp"

#include "wingnose/contact/normal/loaded_wheel.hpp"
#include "wingnose/contact/path/kinematics.hpp"
#include "wingnose/words/error.hpp"
#include "wingnose/words/frame.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

using namespace wingnose;
using namespace wingnose::contact;

namespace {

const WheelSurface wheel(profile::s1002(), 0.46);

StationContact stand(const StationOptions& options, double station, double load) {
  const auto c = layout::generate({});
  return contact_at(wheel, c.bodies, {.station = station, .lateral = taping_line_y}, load, {}, options);
}

} // namespace

TEST_CASE("Near the transfer wing and nose share the wheel's load, whatever the law") {
  for (const bool half_space : {false, true}) {
    for (const NormalLaw& law : {NormalLaw{Ellipse{}}, NormalLaw{Strips{}}}) {
      const StationContact s = stand({.law = law, .half_space = half_space}, 0.412, 90e3);
      CAPTURE(s.law);
      REQUIRE(s.bodies.size() == 2);
      CHECK(s.bodies[0].body == "wing");
      CHECK(s.bodies[1].body == "nose");
      CHECK(s.bodies[0].vertical + s.bodies[1].vertical == Approx(90e3).epsilon(1e-6));
      REQUIRE(s.patches.size() == 2);
      double vertical = 0.0;
      for (const PatchSummary& p : s.patches) {
        CHECK(p.force > 10e3);
        CHECK(p.half_length > p.half_width); // narrow on the rounded edges
        CHECK(p.approach > 20e-6);
        CHECK(p.peak_pressure > 1e9);
        vertical += p.force * std::cos(p.angle);
      }
      CHECK(vertical == Approx(90e3).epsilon(0.01));
      CHECK(s.patches[0].dx < 0.0); // behind the axle on the falling wing, ahead of it on the rising nose
      CHECK(s.patches[1].dx > 0.0);
    }
  }
}

TEST_CASE("Cells finer than the columns of the search find one smooth hill of pressure on a rounded edge, no ridges") {
  const auto crossing = layout::generate({});
  const std::vector<BodyLoad> loads{{"wing", 62e3}, {"nose", 62e3}};
  std::vector<double> peaks;
  for (const std::size_t cells : {64u, 128u}) {
    const auto s = contact_under(wheel, crossing.bodies, {.station = 0.412, .lateral = taping_line_y}, loads, {},
                                 {.fields = true, .cells = {cells, cells}});
    for (const BodyContact& body : s.bodies) {
      CAPTURE(cells, body.body);
      REQUIRE(body.field);
      const PressureField& f = *body.field;
      std::vector<double> across;
      for (std::size_t j = 0; j < f.y.size(); ++j) {
        const auto row = f.pressure.begin() + static_cast<std::ptrdiff_t>(j * f.x.size());
        across.push_back(*std::max_element(row, row + static_cast<std::ptrdiff_t>(f.x.size())));
      }
      int hills = 0;
      for (std::size_t j = 1; j + 1 < across.size(); ++j) {
        hills += across[j] > across[j - 1] && across[j] >= across[j + 1] ? 1 : 0;
      }
      CHECK(hills == 1);
      peaks.push_back(f.peak_pressure);
    }
  }
  CHECK(peaks[2] == Approx(peaks[0]).epsilon(0.005));
  CHECK(peaks[3] == Approx(peaks[1]).epsilon(0.005));
}

TEST_CASE("A pressure field carries the vertical force asked for, in the flange root too where its normals turn") {
  const std::vector<layout::Body> rail{layout::plain_rail(profile::rail_head("60E1", 0.025))};
  for (const double shift : {0.0, 0.004, 0.007, 0.008}) {
    CAPTURE(shift);
    const auto s = contact_at(wheel, rail, {.lateral = taping_line_y + shift}, 90e3, {}, {.fields = true});
    REQUIRE(s.bodies[0].field);
    CHECK(s.bodies[0].field->vertical == Approx(90e3).epsilon(2e-5));
    CHECK(s.bodies[0].field->force > 90e3);
  }
}

TEST_CASE("Far from the transfer one body carries alone, as its half-space field does") {
  const StationContact s = stand({.fields = true}, 2.0, 90e3);
  REQUIRE(s.bodies.size() == 1);
  CHECK(s.bodies[0].body == "nose");
  REQUIRE(s.patches.size() == 1);
  REQUIRE(s.bodies[0].field);
  CHECK(s.patches[0].peak_pressure == Approx(s.bodies[0].field->peak_pressure).epsilon(0.02));
  CHECK(s.patches[0].y == Approx(s.bodies[0].field->mean_y).margin(0.3e-3));
  CHECK(s.patches[0].force == Approx(s.bodies[0].field->force).epsilon(0.002));
  CHECK(s.findings.empty());
  const StationContact exact = stand({.half_space = true}, 2.0, 90e3);
  CHECK(exact.law == "half-space");
  CHECK(exact.patches.front().peak_pressure == s.bodies[0].field->peak_pressure);
}

TEST_CASE("The ellipse of the search has the stiffness that the rolled path gives the passage") {
  // Both close the width by 55 um: the path in the section it touches, the search under the rolling envelope.
  const auto c = layout::generate({});
  const auto path = contact::roll(c, profile::s1002(), {.from = -1.0, .to = 1.5, .pitch = 0.05});
  for (std::size_t b = 0; b < 2; ++b) {
    const layout::Body& table = c.bodies[b];
    const contact::BodyPath& body = path.bodies[b];
    for (std::size_t i = 0; i < path.station.size(); i += 3) {
      if (!(body.height[i] > std::max(path.bodies[0].height[i], path.bodies[1].height[i]) - 0.001)) {
        continue;
      }
      GapLine line;
      look(wheel, table, {.station = path.station[i], .lateral = taping_line_y}, line);
      const NormalContact e = normal_contact(Ellipse{}, line, 100e-6);
      const double found = e.force / (e.approach * std::sqrt(e.approach));
      CAPTURE(body.name, path.station[i]);
      CHECK(found == Approx(hertz_stiffness(body.curvature_x[i], body.curvature_y[i])).epsilon(0.03));
    }
  }
}

TEST_CASE("A patch in which the normal turns too far for a half-space is warned of") {
  const std::vector<layout::Body> rail{layout::plain_rail(profile::rail_head("60E1", std::atan(1.0 / 40.0)))};
  const auto warned = [&](double shift, bool half_space) {
    const WheelPlace place{.lateral = taping_line_y + shift};
    return !contact_at(wheel, rail, place, 90e3, {}, {.half_space = half_space}).findings.empty();
  };
  for (const bool half_space : {false, true}) {
    CHECK(warned(0.0055, half_space)); // tread and flange root share the load
    CHECK_FALSE(warned(0.0, half_space));
  }
}

TEST_CASE("Where the half-space is stretched is told: inside which patch, or between which two") {
  const std::vector<layout::Body> rail{layout::plain_rail(profile::rail_head("60E1", std::atan(1.0 / 40.0)))};
  const auto told = [&](double shift) {
    return contact_at(wheel, rail, {.lateral = taping_line_y + shift}, 90e3, {}, {.half_space = true}).findings;
  };
  const Findings between = told(0.00525), inside = told(0.00625); // tread and flange root; flange root alone
  REQUIRE(between.size() == 1);
  CHECK(between[0].what.find("planes 0.18 rad apart: each is pressed along its own normal") != std::string::npos);
  CHECK(between[0].where.find(" and ") != std::string::npos);
  REQUIRE(inside.size() == 1);
  CHECK(inside[0].what.find("0.22 rad inside the patch") != std::string::npos);
  CHECK(inside[0].where.find("y = ") != std::string::npos);
}

TEST_CASE("A wheel without load or without a body under it is refused") {
  CHECK_THROWS_AS(stand({}, 0.4, 0.0), InputError);
  CHECK_THROWS_AS(stand({}, 0.4, std::nan("")), InputError);
  CHECK_THROWS_AS(stand({}, 50.0, 90e3), ComputeError);
  const std::vector<layout::Body> rail{layout::plain_rail(profile::rail_head("60E1"))};
  CHECK_THROWS_AS(contact_at(wheel, rail, {.lateral = 3.0}, 90e3), ComputeError);
}
