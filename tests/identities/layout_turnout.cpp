// What must hold for routes and turnouts whatever their numbers.
#include "catch.hpp"

#include "wingnose/layout/turnout/functional.hpp"
#include "wingnose/layout/turnout/geometry.hpp"

#include <cmath>

using namespace wingnose::layout::turnout;

namespace {

Turnout with_transition() {
  Turnout t = preset("R760-1:14");
  t.transition = 18.0;
  t.cant = 0.02;
  return t;
}

} // namespace

TEST_CASE("A right-hand turnout is a left-hand one in the mirror") {
  for (Turnout t : {preset("R300-1:9"), preset("R190-1:9"), with_transition()}) {
    const Geometry left = geometry(t);
    t.hand = Hand::right;
    const Geometry right = geometry(t);
    CHECK(right.nose_from_start == left.nose_from_start);
    CHECK(right.angle_at_nose == left.angle_at_nose);
    for (const Way way : {Way::through, Way::diverging}) {
      const Route &l = route(left, way), &r = route(right, way);
      CHECK(std::abs(l.begin() - r.begin()) <= 1e-12);
      for (double s = l.begin() - 5.0; s < l.end() + 5.0; s += 0.73) {
        const Place a = l.at(s), b = r.at(s);
        CHECK(std::abs(a.x - b.x) <= 1e-12);
        CHECK(std::abs(a.y + b.y) <= 1e-12);
        CHECK(std::abs(a.heading + b.heading) <= 1e-12);
        CHECK(l.curvature(s) == -r.curvature(s));
        CHECK(l.cant(s) == -r.cant(s));
      }
    }
  }
}

TEST_CASE("Both gauge lines pass the theoretical intersection, at the angle told") {
  for (const Turnout& t : {preset("R300-1:9"), preset("R190-1:9"), with_transition(), preset("R190-1:7.5")}) {
    const Geometry g = geometry(t);
    const Place through = beside(g.through.at(0.0), 0.5 * t.gauge);
    const Place diverging = beside(g.diverging.at(0.0), -0.5 * t.gauge);
    CHECK(std::abs(through.x - diverging.x) < 1e-12);
    CHECK(std::abs(through.y - diverging.y) < 1e-12);
    CHECK(diverging.heading - through.heading == Approx(g.angle_at_nose));
  }
}

TEST_CASE("The tangents of a curve meet in one point, whatever its transition") {
  for (const Turnout& t : {preset("R300-1:9"), with_transition()}) {
    const Geometry g = geometry(t);
    const Place end = g.diverging.at(g.diverging.end());
    CHECK(end.heading == Approx(g.angle).epsilon(1e-14));
    // Back along the tangent to the axis of the through route.
    CHECK(end.x - end.y / std::tan(end.heading) == Approx(g.tangent_length).epsilon(1e-13));
  }
}

TEST_CASE("A transition is the Euler spiral of Fresnel's integrals") {
  const double length = 40.0, radius = 120.0; // turns by 0.17 rad
  const Place end = along({0, 0, 0}, {length, 0.0, 1.0 / radius}, length);
  const double angle = length / (2.0 * radius);
  double x = 0.0, y = 0.0, term = 1.0; // power series of both, in angle
  for (int n = 0; n < 30; ++n) {
    (n % 2 == 0 ? x : y) += ((n / 2) % 2 == 0 ? 1.0 : -1.0) * term / (2 * n + 1);
    term *= angle / (n + 1);
  }
  CHECK(end.x == Approx(length * x).epsilon(1e-15));
  CHECK(end.y == Approx(length * y).epsilon(1e-14));
  CHECK(end.heading == Approx(angle).epsilon(1e-15));
}

TEST_CASE("A stretch driven in two parts ends where it ends in one, and back again where it began") {
  const Stretch spiral{30.0, 0.002, -0.004};
  const Place start{1.0, -2.0, 0.3};
  const Place whole = along(start, spiral, 30.0), half = along(start, spiral, 13.0);
  const Place rest = along(half, {17.0, 0.002 - 0.0002 * 13.0, -0.004}, 17.0);
  CHECK(std::abs(rest.x - whole.x) < 1e-13);
  CHECK(std::abs(rest.y - whole.y) < 1e-13);
  CHECK(std::abs(rest.heading - whole.heading) < 1e-14);
  const Place back = along({whole.x, whole.y, whole.heading + 3.14159265358979312}, {30.0, 0.004, -0.002}, 30.0);
  CHECK(std::abs(back.x - start.x) < 1e-12);
  CHECK(std::abs(back.y - start.y) < 1e-12);
}

TEST_CASE("Very little of a transition is a step of curvature") {
  Turnout t = preset("R300-1:9");
  const double step = geometry(t).nose_from_start;
  t.transition = 1e-6;
  CHECK(std::abs(geometry(t).nose_from_start - step) < 1e-6);
}

TEST_CASE("Across the track the widths add up, drawn and found") {
  Turnout t = with_transition();
  t.check_rail.wear = 0.002;
  t.crossing.nose_wear = 0.001;
  for (const Faces& f : {drawn(t, Way::diverging), found(t, Way::diverging)}) {
    CHECK(f.check + f.nose_protection() == Approx(f.nose));
    CHECK(f.check + f.passage_at_nose() + f.crossing_flangeway() == Approx(f.nose));
  }
}
