// The law of contact along a path: few stations searched, all of them right.
#include "catch.hpp"

#include "wingnose/contact/normal/strips.hpp"
#include "wingnose/contact/path/path_law.hpp"
#include "wingnose/contact/search/look.hpp"
#include "wingnose/words/error.hpp"
#include "wingnose/words/frame.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

using namespace wingnose;

namespace {

const layout::Crossing& usual() {
  static const layout::Crossing crossing = layout::generate({});
  return crossing;
}

struct Rolled {
  profile::WheelProfile wheel;
  contact::WheelPath path;
};
Rolled rolled(profile::WheelProfile wheel, double lateral, double yaw = 0.0) {
  auto path = contact::roll(usual(), wheel,
                            {.lateral_offset = lateral, .from = -1.0, .to = 1.5, .roll = -0.2 * yaw, .yaw = yaw});
  return {std::move(wheel), std::move(path)};
}

double top(const contact::WheelPath& path, std::size_t i) {
  return std::max(path.bodies[0].height[i], path.bodies[1].height[i]);
}

} // namespace

TEST_CASE("Between the stations searched the law along the path is that of the strips there") {
  const auto r =
      GENERATE(rolled(profile::s1002(), 0.0), rolled(profile::s1002(), 0.004), rolled(profile::s1002(), 0.0, 0.010),
               rolled(profile::hollow_worn(profile::s1002(), {.depth = 0.002, .width = 0.06}), 0.0));
  const auto law = contact::strips_law(r.path, usual(), r.wheel);
  const contact::Elastic steel;
  const contact::WheelSurface wheel(r.wheel, r.path.wheel_radius);
  std::vector<double> errors; // of the force, where a wheel's load meets the body
  for (std::size_t b = 0; b < 2; ++b) {
    const layout::Body& table = usual().bodies[b];
    for (std::size_t i = 0; i < r.path.station.size(); i += 7) {
      if (!(r.path.bodies[b].height[i] > top(r.path, i) - 3e-4)) {
        continue;
      }
      contact::GapLine line;
      contact::look(wheel, table, contact::place_on(r.path, r.path.station[i]), line);
      for (const double depth : {60e-6, 120e-6, 200e-6}) {
        const double strips = contact::strips(line, depth, steel).vertical;
        if (strips > 20e3 && strips < 300e3) {
          errors.push_back(std::abs(steel.combined() * law.body[b][i].at(depth, law.reach).force / strips - 1.0));
        }
      }
    }
  }
  REQUIRE(errors.size() > 500);
  std::sort(errors.begin(), errors.end());
  const auto share = [&](double s) {
    return errors[static_cast<std::size_t>(s * static_cast<double>(errors.size() - 1))];
  };
  CAPTURE(share(0.5), share(0.95), errors.back(), law.worst_fit, law.worst_body, law.worst_station, law.searched);
  CHECK(share(0.5) < 0.01);
  CHECK(share(0.95) < 0.05);
  CHECK(errors.back() < 0.25); // where a second patch closes at once
  CHECK(law.searched < r.path.station.size() / 3);
}

TEST_CASE("The path of a turned wheel and its search for contact touch at the same height and place") {
  const auto r = GENERATE(rolled(profile::s1002(), 0.002, 0.010), rolled(profile::s1002(), 0.0, -0.006));
  const contact::WheelSurface wheel(r.wheel, r.path.wheel_radius);
  std::vector<double> heights, ahead; // m, differences where the body carries
  for (std::size_t b = 0; b < 2; ++b) {
    const layout::Body& table = usual().bodies[b];
    contact::GapLine line;
    for (std::size_t i = 0; i < r.path.station.size(); i += 7) {
      const auto& body = r.path.bodies[b];
      if (body.height[i] < top(r.path, i)) {
        continue;
      }
      contact::look(wheel, table, contact::place_on(r.path, r.path.station[i]), line);
      heights.push_back(std::abs(line.level - body.height[i]));
      ahead.push_back(std::abs(line.dx[static_cast<std::size_t>(line.top)] - body.contact_dx[i]));
    }
  }
  REQUIRE(heights.size() > 250);
  std::sort(heights.begin(), heights.end());
  std::sort(ahead.begin(), ahead.end());
  CAPTURE(r.path.yaw, heights[heights.size() / 2], heights[heights.size() * 19 / 20], heights.back(), ahead.back());
  CHECK(heights[heights.size() * 19 / 20] < 1e-9);
  CHECK(heights.back() < 1e-8);
  CHECK(ahead[ahead.size() / 2] < 5e-5); // at the column next to the touching point
  CHECK(ahead[ahead.size() * 19 / 20] < 1e-3);
}

TEST_CASE("The law does not jump along the path, however patches move, split or merge") {
  const auto r = GENERATE(rolled(profile::s1002(), 0.004),
                          rolled(profile::hollow_worn(profile::s1002(), {.depth = 0.002, .width = 0.06}), 0.0));
  const auto coarse = contact::strips_law(r.path, usual(), r.wheel);
  const auto fine = contact::strips_law(r.path, usual(), r.wheel, {.finest = 0.001});
  const auto steepest = [&](const contact::PathLaw& law) { // relative change of the force per station
    double most = 0.0;
    for (std::size_t b = 0; b < 2; ++b) {
      for (std::size_t i = 1; i < r.path.station.size(); ++i) {
        if (!(std::min(r.path.bodies[b].height[i] - top(r.path, i),
                       r.path.bodies[b].height[i - 1] - top(r.path, i - 1)) > -3e-4)) {
          continue;
        }
        const double f = law.body[b][i - 1].at(120e-6).force, g = law.body[b][i].at(120e-6).force;
        most = std::max(most, std::abs(g - f) / std::max(f, g));
      }
    }
    return most;
  };
  CAPTURE(steepest(coarse), steepest(fine));
  CHECK(steepest(coarse) < 0.1);
  CHECK(steepest(fine) < 0.15); // a jump would show the closer one looks
}

TEST_CASE("On plain rail strips and ellipse say the same where the radii do not change inside the patch") {
  // A conical tread in the middle of a 300 mm head.
  const profile::RailHead rail = profile::rail_head("60E1", 0.0);
  const auto wheel = profile::cone(0.0);
  const auto plain = contact::plain_contact(wheel, rail, 0.46);
  const auto path = contact::given_path({{-1.0, 1.0}, {0.0, 0.0}}, plain, {.from = -1.0, .to = 1.0});
  const auto strips = contact::strips_law(path, rail, wheel);
  const auto ellipse = contact::ellipse_law(path);
  REQUIRE(strips.body.size() == 1);
  REQUIRE(strips.body[0].size() == path.station.size());
  for (const double depth : {30e-6, 60e-6}) {
    CHECK(strips.body[0][0].at(depth).force == Approx(ellipse.body[0][0].at(depth).force).epsilon(0.02));
  }
  CHECK(ellipse.body[0][0].c1 == 0.0);
}

TEST_CASE("A law of another crossing's path and tolerances out of range are refused") {
  const auto r = rolled(profile::s1002(), 0.0);
  auto one = r.path;
  one.bodies.pop_back();
  CHECK_THROWS_AS(contact::strips_law(one, usual(), r.wheel), InputError);
  CHECK_THROWS_AS(contact::strips_law(r.path, usual(), r.wheel, {.tolerance = 0.5}), InputError);
  CHECK_THROWS_AS(contact::strips_law(r.path, usual(), r.wheel, {.coarsest = 0.0}), InputError);
}
