// The rolling envelope against a search that knows nothing of its short cuts.
#include "catch.hpp"
#include "path_samples.hpp"

using namespace samples;

namespace {

// Height of the wheel on one body at station x by maximising over ahead/behind and across at once: a dense grid, then
// repeated finer grids around its best cells.
double brute_force(const Body& body, const profile::WheelProfile& wheel, double x, double radius, double offset) {
  const double tape = taping_line_y + offset;
  const auto lift = [&](double xi, double y) {
    if (y - tape < wheel.y_min() || y - tape > wheel.y_max()) {
      return -std::numeric_limits<double>::infinity();
    }
    const double r = radius + wheel.height(y - tape);
    return z_of(body, x + xi, y) + std::sqrt(r * r - xi * xi) - radius;
  };
  struct Cell {
    double value, xi, y;
  };
  std::vector<Cell> cells;
  const double span = 0.060, step_x = 0.0005, step_y = 0.00025;
  for (double xi = -span; xi <= span; xi += step_x) {
    for (double y = tape + wheel.y_min(); y <= tape + wheel.y_max(); y += step_y) {
      cells.push_back({lift(xi, y), xi, y});
    }
  }
  std::partial_sort(cells.begin(), cells.begin() + 12, cells.end(),
                    [](const Cell& a, const Cell& b) { return a.value > b.value; });
  double best = -std::numeric_limits<double>::infinity();
  for (int k = 0; k < 12; k += 3) {
    Cell c = cells[static_cast<std::size_t>(k)];
    double dx = step_x, dy = step_y;
    for (int level = 0; level < 22; ++level) {
      const Cell centre = c;
      for (int i = -6; i <= 6; ++i) {
        for (int j = -6; j <= 6; ++j) {
          const double xi = centre.xi + dx * i / 3.0, y = centre.y + dy * j / 3.0, v = lift(xi, y);
          if (v > c.value) {
            c = {v, xi, y};
          }
        }
      }
      dx *= 0.6;
      dy *= 0.6;
    }
    best = std::max(best, c.value);
  }
  return best;
}

// The same for a wheel that is turned, exactly and from its own side: points of its surface (along the circle and
// across) are turned about the taping point, first by the roll, then by the yaw, and held against the body.
double brute_force_turned(const Body& body, const profile::WheelProfile& wheel, const PathOptions& o, double x) {
  const double R = o.wheel_radius;
  const auto lift = [&](double theta, double s) {
    if (s < wheel.y_min() || s > wheel.y_max()) {
      return -std::numeric_limits<double>::infinity();
    }
    const double r = R + wheel.height(s), ahead = r * std::sin(theta), up = R - r * std::cos(theta);
    const double y = s * std::cos(o.roll) - up * std::sin(o.roll), z = s * std::sin(o.roll) + up * std::cos(o.roll);
    return z_of(body, x + ahead * std::cos(o.yaw) - y * std::sin(o.yaw),
                taping_line_y + o.lateral_offset + ahead * std::sin(o.yaw) + y * std::cos(o.yaw)) -
           z;
  };
  double best = -std::numeric_limits<double>::infinity(), theta = 0.0, s = 0.0;
  double d_theta = 0.0005 / R, d_s = 0.00025;
  for (double t = -0.04 / R; t <= 0.04 / R; t += d_theta) {
    for (double across = wheel.y_min(); across <= wheel.y_max(); across += d_s) {
      if (const double v = lift(t, across); v > best) {
        best = v;
        theta = t;
        s = across;
      }
    }
  }
  for (int level = 0; level < 26; ++level, d_theta *= 0.6, d_s *= 0.6) {
    const double t0 = theta, s0 = s;
    for (int i = -6; i <= 6; ++i) {
      for (int j = -6; j <= 6; ++j) {
        const double t = t0 + d_theta * i / 3.0, across = s0 + d_s * j / 3.0;
        if (const double v = lift(t, across); v > best) {
          best = v;
          theta = t;
          s = across;
        }
      }
    }
  }
  return best;
}

} // namespace

TEST_CASE("A rolled and yawed wheel rolls as its surface turned in space does, within a micrometre") {
  // What is left out is of second order: 10 mrad of yaw move a flange root 30 mm aside by 1.5 um along its slope of
  // some 0.4. Where the wheel stands on its field edge, the rim's slope counts, and the edge is not turned.
  const auto [roll_by, yaw] =
      GENERATE(table<double, double>({{0.0, 0.010}, {0.0, -0.010}, {0.005, 0.0}, {-0.003, 0.006}}));
  const Crossing c = generate(worn());
  const profile::WheelProfile wheel = profile::s1002();
  const PathOptions turned{.lateral_offset = 0.002, .from = -1.0, .to = 1.3, .roll = roll_by, .yaw = yaw};
  const WheelPath path = roll(c, wheel, turned);
  CHECK((path.lateral_offset == 0.002 && path.roll == roll_by && path.yaw == yaw));
  const WheelPath straight = roll(c, wheel, {.lateral_offset = 0.002, .from = -1.0, .to = 1.3});
  double moved = 0.0;
  int compared = 0;
  for (const double x : {-0.95, -0.2, 0.16, 0.40, 0.56, 0.68, 1.21}) {
    const auto at = [x](const WheelPath& p) {
      return static_cast<std::size_t>(std::lower_bound(p.station.begin(), p.station.end(), x) - p.station.begin());
    };
    for (std::size_t b = 0; b < 2; ++b) {
      const double rolled = path.bodies[b].height[at(path)];
      const double searched = brute_force_turned(c.bodies[b], wheel, turned, path.station[at(path)]);
      const double on_wheel = path.bodies[b].wheel_y[at(path)];
      if (!(searched > -0.006) || on_wheel > wheel.y_max() - 0.001) {
        continue;
      }
      CAPTURE(roll_by, yaw, path.bodies[b].name, x, rolled, searched);
      CHECK(rolled - searched == Approx(0.0).margin(1e-6));
      moved = std::max(moved, std::abs(rolled - straight.bodies[b].height[at(straight)]));
      ++compared;
    }
  }
  CHECK(compared >= 7);
  CHECK(moved > 5e-6); // more than what the check allows
}

TEST_CASE("On plain rail a yawed wheel touches ahead of its axle by radius times yaw times the slope of the contact") {
  // A cone: an S1002 on 60E1 touches where both terms cancel.
  const profile::WheelProfile wheel = profile::cone(1.0 / 20.0);
  for (const double yaw : {-0.01, 0.004, 0.01}) {
    const WheelPath path = roll(generate({}), wheel, {.lateral_offset = -0.004, .from = -4.0, .to = -3.0, .yaw = yaw});
    const BodyPath& wing = named(path, "wing");
    const std::size_t i = path.station.size() / 2;
    const double radius = 0.46 + wheel.height(wing.wheel_y[i]);
    CHECK(wing.contact_dx[i] ==
          Approx(yaw * (radius * std::tan(wing.angle[i]) - wing.wheel_y[i])).epsilon(0.001).margin(1e-7));
    CHECK(std::abs(wing.contact_dx[i]) > 0.015 * std::abs(yaw)); // m: far from cancelling
  }
}

TEST_CASE("The rolling envelope agrees with a two-dimensional search within 0.01 micrometre on wing and nose") {
  const std::vector<profile::WheelProfile> wheels{profile::s1002(), profile::cone(1.0 / 20.0),
                                                  profile::hollow_worn(profile::s1002(), {0.003, 0.060, 0.0})};
  const double offset = GENERATE(0.0, 0.005);
  const Crossing c = generate(worn());
  for (const profile::WheelProfile& wheel : wheels) {
    const WheelPath path = roll(c, wheel, {.lateral_offset = offset, .from = -1.0, .to = 1.3});
    for (const double x : {-0.95, -0.66, -0.2, 0.12, 0.16, 0.40, 0.44, 0.56, 0.68, 1.21}) {
      // Read at a tabulated station: this is about rolling, not about interpolation.
      const auto i = static_cast<std::size_t>(std::lower_bound(path.station.begin(), path.station.end(), x) -
                                              path.station.begin());
      for (std::size_t b = 0; b < 2; ++b) {
        const double rolled = path.bodies[b].height[i];
        const double searched = brute_force(c.bodies[b], wheel, path.station[i], 0.46, offset);
        CAPTURE(wheel.name, offset, path.bodies[b].name, x, rolled, searched, path.bodies[b].contact_dx[i]);
        if (!std::isfinite(searched) || searched < -0.006) {
          CHECK(!(rolled > searched + 1e-7)); // far below the other body: the reach of the search ends here
          continue;
        }
        CHECK(rolled - searched == Approx(0.0).margin(1e-8));
      }
    }
  }
}

TEST_CASE("The wheel never cuts into a body by more than 0.1 micrometre anywhere on its circle") {
  const Crossing c = generate(worn());
  const profile::WheelProfile wheel = profile::s1002();
  const WheelPath path = roll(c, wheel, {.from = -1.0, .to = 1.3});
  const std::vector<double> top = combined(path);
  double deepest = 0.0;
  for (std::size_t i = 0; i < path.station.size(); i += 97) {
    for (double xi = -0.055; xi <= 0.055; xi += 0.00173) {
      for (double y = -0.045; y <= 0.060; y += 0.00037) {
        const double r = 0.46 + wheel.height(y), x = path.station[i] + xi;
        const double under = top[i] + 0.46 - std::sqrt(r * r - xi * xi);
        for (const Body& body : c.bodies) {
          deepest = std::max(deepest, z_of(body, x, taping_line_y + y) - under);
        }
      }
    }
  }
  CHECK(deepest < 1e-7);
}

TEST_CASE("On plain rail ahead of the crossing the wheel runs level, near its taping line, flange clear") {
  const WheelPath path = roll(generate({}), profile::s1002(), {.from = -4.0, .to = -2.0});
  const BodyPath& wing = named(path, "wing");
  CHECK(*std::max_element(wing.height.begin(), wing.height.end()) -
            *std::min_element(wing.height.begin(), wing.height.end()) <
        1e-12);
  CHECK(std::abs(wing.wheel_y.front()) < 0.010); // common practice, no source: running band at the taping line
  CHECK(wing.contact_dx.front() == Approx(0.0).margin(1e-9)); // rounding of heights over the circle's bend
  CHECK(wing.curvature_x.front() == Approx(1.0 / 0.46).epsilon(2e-3));
  CHECK(std::isinf(named(path, "nose").height.front()));
  CHECK(std::isnan(named(path, "nose").contact_y.front()));
}

TEST_CASE("On a straight slope the wheel touches R times the slope ahead of its axle") {
  CrossingShape s;
  s.wing_lift = 0.004;
  s.wing_lift_begin = -4.0;
  s.wing_lift_run = 1.0; // 4 mrad, long before the knuckle
  const WheelPath path = roll(generate(s), profile::s1002(), {.from = -3.9, .to = -3.1});
  const BodyPath& wing = named(path, "wing");
  const double slope = 0.004 / 0.8 / (1.0 / 0.8); // ramp of `lift / run` between the rounded ends
  const double middle = read(path, wing.contact_dx, -3.5);
  const double radius = 0.46 + profile::s1002().height(read(path, wing.wheel_y, -3.5));
  CHECK(middle == Approx(radius * slope / std::sqrt(1.0 + slope * slope)).margin(1e-6));
  CHECK(read(path, wing.height, -3.4) - read(path, wing.height, -3.6) == Approx(0.2 * slope).margin(1e-9));
}

TEST_CASE("Lateral curvature on the rounded wing edge is a little below its own, as the flat head is near") {
  const WheelPath path = roll(generate({}), profile::cone(1.0 / 20.0), {.from = 0.2, .to = 0.5});
  // A cone is straight across and touches 0.5 mm from where the edge runs out into the flat head: one side of the
  // patch closes on the arc, the other mostly on the flat.
  const double edge = 1.0 / CrossingShape{}.wing_edge_radius;
  const double here = read(path, named(path, "wing").curvature_y, 0.3);
  CHECK(here < edge);
  CHECK(here > 0.7 * edge);
  CHECK(read(path, named(path, "wing").angle, 0.3) == Approx(std::atan(1.0 / 20.0)).epsilon(1e-9));
}

TEST_CASE("Lateral curvature inside one arc is that of the arc") {
  CrossingShape s;
  s.wing_edge_radius = 0.030; // a steep cone touches well inside the arc
  const WheelPath path = roll(generate(s), profile::cone(1.0 / 5.0), {.from = 0.2, .to = 0.4});
  CHECK(read(path, named(path, "wing").curvature_y, 0.3) == Approx(1.0 / 0.030).epsilon(0.08));
}

TEST_CASE("Stations are strictly increasing, include the ends, and are finer around the transfer") {
  const WheelPath path = roll(generate({}), profile::s1002(), {.from = -2.0, .to = 2.0});
  REQUIRE(path.station.front() == -2.0);
  REQUIRE(path.station.back() == 2.0);
  double finest = 1.0;
  for (std::size_t i = 1; i < path.station.size(); ++i) {
    const double gap = path.station[i] - path.station[i - 1];
    REQUIRE(gap > 0.0);
    CHECK(gap < 0.00101);
    if (std::abs(path.station[i] - 0.412) < 0.02) {
      finest = std::min(finest, gap);
    }
  }
  CHECK(finest < 0.00021);
}

TEST_CASE("A wheel that meets no metal is refused with the stretch named") {
  CrossingShape s;
  s.nose_length = 2.0;
  const Crossing c = generate(s);
  CHECK_THROWS_AS(roll(c, profile::s1002(), {.from = 10.0, .to = 11.0}), ComputeError);
}

TEST_CASE("Impossible path options are refused") {
  const Crossing c = generate({});
  const profile::WheelProfile w = profile::s1002();
  CHECK_THROWS_AS(roll(c, w, {.from = 1.0, .to = 0.0}), InputError);
  CHECK_THROWS_AS(roll(c, w, {.from = 0.0, .to = 1.0, .pitch = 0.0}), InputError);
  CHECK_THROWS_AS(roll(c, w, {.from = 0.0, .to = 1.0, .wheel_radius = 460.0}), InputError);
  CHECK_THROWS_AS(roll(c, w, {.lateral_offset = 5.0, .from = 0.0, .to = 1.0}), InputError);
  CHECK_THROWS_AS(roll(c, w, {.from = 0.0, .to = 1.0, .yaw = 5.0}), InputError);
  CHECK_THROWS_AS(roll(c, w, {.from = 0.0, .to = 1.0, .roll = -0.04}), InputError);
}
